/** open: nothing in the requirement can be computed, and no evidence speaks for it yet. */
import type { AnalysisPart } from '../engine/parts';
import { attributesOf } from '../model/requirement';
import type { Draft } from './finding';

export function* openRequirements({ requirements }: AnalysisPart): Iterable<Draft> {
  for (const { requirement, verdict, evidence } of requirements) {
    // Evidence that has become stale says so itself.
    if (verdict !== 'open' || evidence.state === 'stale') continue;
    const methods = attributesOf(requirement, 'Verify').map(({ text }) => text);
    const mend =
      methods.length === 0
        ? 'say how it is verified (- Verify: test), or put a figure of the design beside a limit'
        : `it is to be verified by ${methods.join('; ')}, and no result is recorded`;
    yield {
      code: 'open',
      requirement: requirement.id,
      message: `${requirement.id} has nothing to compute and no evidence yet: ${mend}`,
      place: { file: requirement.file, span: requirement.idSpan },
    };
  }
}

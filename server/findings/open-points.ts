/** Figures that are checked but not settled: TBR and TBC in the design and in sentences. */
import type { Analysis } from '../engine/analysis';
import { attributesOf } from '../model/requirement';
import type { Draft } from './finding';

export function* openPoints(analysis: Analysis): Iterable<Draft> {
  for (const fact of analysis.product.facts.values()) {
    if (!fact.provisional) continue;
    yield {
      code: 'open-point',
      message: `${fact.name} is provisional: checked with this value, to be resolved or confirmed${whoseFact(analysis, fact.name)}`,
      place: { file: fact.file, span: fact.span },
    };
  }
  for (const { requirement, criteria } of analysis.requirements) {
    const owner = attributesOf(requirement, 'Owner')[0]?.text;
    for (const { criterion } of criteria.filter((result) => result.criterion.provisional)) {
      const whose = owner === undefined ? '' : ` (${owner})`;
      yield {
        code: 'open-point',
        requirement: requirement.id,
        message: `${requirement.id}: the limit ${criterion.text} is provisional: checked, to be resolved or confirmed${whose}`,
        place: criterion.place,
      };
    }
  }
}

/** The owners of the requirements that rest on it. */
function whoseFact({ requirements }: Analysis, name: string): string {
  const owners = requirements
    .filter(({ uses }) => uses.has(name))
    .flatMap(({ requirement }) => attributesOf(requirement, 'Owner').map(({ text }) => text));
  return owners.length === 0 ? '' : ` (${[...new Set(owners)].join(', ')})`;
}

/** unused: given facts that no criterion rests on. */
import type { RangeAnalysis } from '../engine/ranges/ranges';
import type { Draft } from './finding';

export function* unusedFacts({ unused }: RangeAnalysis): Iterable<Draft> {
  for (const { name, file, nameSpan } of unused)
    yield { code: 'unused', message: `no criterion rests on ${name}`, place: { file, span: nameSpan } };
}

/** Figures that are checked but not settled: TBR and TBC in the design and in sentences. */
import type { Analysis } from '../engine/analysis';
import type { AnalysisPart } from '../engine/parts';
import type { Draft } from './finding';
import { whose } from './open-owners';

export function* openPoints({ index }: Analysis, { facts, requirements }: AnalysisPart): Iterable<Draft> {
  for (const { fact } of facts) {
    if (!fact.provisional) continue;
    yield {
      code: 'open-point',
      message: `${fact.name} is provisional: checked with this value, to be resolved or confirmed${whose(index().restingOn(fact.name))}`,
      place: { file: fact.file, span: fact.span },
    };
  }
  for (const { requirement, criteria } of requirements) {
    for (const { criterion } of criteria.filter((result) => result.criterion.provisional)) {
      yield {
        code: 'open-point',
        requirement: requirement.id,
        message: `${requirement.id}: the limit ${criterion.text} is provisional: checked, to be resolved or confirmed${whose([requirement])}`,
        place: criterion.place,
      };
    }
  }
}

/** Verdicts as if figures were others: what a trial panel shows while a slider moves. */
import type { RequirementResult } from '../engine/analysis';
import type { Changes } from '../engine/changes';
import { trial } from '../engine/trial';
import { readTrial } from '../engine/trial-request';
import { marginOf } from '../features/figures';

import type { TrialParams, TrialResult } from './messages';
import { placeOf, type Subject } from './subject';

export function changesBetween(subject: Subject, values: TrialParams['values']): TrialResult {
  const { analysis } = subject.whole;
  const problems: { name: string; message: string }[] = [];
  const accepted: { name: string; value: string }[] = [];
  let changes: Changes | null = null;
  for (const value of values) {
    const read = readTrial(analysis, { values: [...accepted, value], without: [] });
    if ('mistake' in read) problems.push({ name: value.name, message: read.mistake });
    else {
      accepted.push(value);
      changes = read.changes;
    }
  }
  const touched = changes === null ? [] : trial(analysis.product, analysis.requirements, changes).touched;
  return {
    changes: touched
      .filter(({ before, after }) => before.verdict !== after.verdict || marginOf(before) !== marginOf(after))
      .map(({ before, after }) => ({
        id: before.requirement.id,
        today: standOf(before),
        trial: standOf(after),
        place: placeOf(subject, { file: before.requirement.file, span: before.requirement.idSpan }),
      })),
    problems,
  };
}

function standOf(result: RequirementResult): { readonly verdict: string; readonly margin: string } {
  return { verdict: result.verdict, margin: marginOf(result) };
}

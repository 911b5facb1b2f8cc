/** How a requirement fares once the design changed, beside how it stood before. */
import * as rational from '../quantity/rational';
import type { CriterionResult } from './judge-criterion';
import type { RequirementResult } from './requirement-result';
import type { Verdict } from './verdict';

/**
 * *broken*: now unmet. *undecided*: now undecided. *eroded*: now at risk, or a margin fell. *repaired*: met, and was
 * not. *eased*: no longer unmet though not met, or margins rose only. *same*: nothing of this.
 */
export const CHANGES_OF_VERDICT = ['broken', 'undecided', 'eroded', 'repaired', 'eased', 'same'] as const;

export type ChangeOfVerdict = (typeof CHANGES_OF_VERDICT)[number];

export function compareResults(before: RequirementResult, after: RequirementResult): ChangeOfVerdict {
  const [was, is] = [before.verdict, after.verdict];
  if (was === is) return compareMargins(before.criteria, after.criteria);
  if (is === 'unmet') return 'broken';
  if (is === 'undecided') return 'undecided';
  if (isGood(is)) return isGood(was) ? 'same' : 'repaired';
  return isGood(was) ? 'eroded' : 'eased';
}

function isGood(verdict: Verdict): boolean {
  return verdict === 'met' || verdict === 'waived' || verdict === 'not applicable';
}

/** Criteria come in text order, so that one stands beside itself. */
function compareMargins(
  before: readonly CriterionResult[],
  after: readonly CriterionResult[],
): 'eroded' | 'eased' | 'same' {
  let isEased = false;
  for (const [index, { figures }] of after.entries()) {
    const [was, is] = [before[index]?.figures?.margin ?? null, figures?.margin ?? null];
    if (was === null || is === null) continue;
    const order = rational.compare(is, was);
    if (order < 0) return 'eroded';
    if (order > 0) isEased = true;
  }
  return isEased ? 'eased' : 'same';
}

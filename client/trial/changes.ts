/** What would change on trial, in the order in which somebody wants to know it. */
import type { TrialResult } from '../../server/lsp/messages';
import { VERDICTS } from '../verdict-words';

type Change = TrialResult['changes'][number];

/** Another verdict before another margin, the worst first, then in the order of the documents. */
export function inOrderOfConcern(changes: readonly Change[]): readonly Change[] {
  return [...changes].sort((a, b) => concern(a) - concern(b));
}

function concern({ today, trial }: Change): number {
  const order: readonly string[] = VERDICTS;
  const rank = order.indexOf(trial.verdict);
  return (today.verdict === trial.verdict ? VERDICTS.length : 0) + (rank < 0 ? VERDICTS.length : rank);
}

/** Verdicts, and which of several counts. */

/** What the design says of one criterion. */
export type CriterionVerdict = 'met' | 'at risk' | 'unmet' | 'undecided';

/** What the design says of a requirement. */
export type Verdict = CriterionVerdict | 'open' | 'not applicable' | 'waived';

/** The verdict as one word, for machines and styles: `at-risk`. */
export function verdictKey(verdict: Verdict): string {
  return verdict.replace(' ', '-');
}

/** Worst first: a requirement takes the worst of its criteria. */
const ORDER: readonly CriterionVerdict[] = ['unmet', 'undecided', 'at risk', 'met'];

export function worstVerdict(verdicts: readonly CriterionVerdict[]): CriterionVerdict {
  return ORDER.find((verdict) => verdicts.includes(verdict)) ?? 'met';
}

/** Negative when a is worse than b. */
export function compareVerdicts(a: CriterionVerdict, b: CriterionVerdict): number {
  return ORDER.indexOf(a) - ORDER.indexOf(b);
}

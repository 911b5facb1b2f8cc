/** Judges a criterion in every mode and for every row it is asked of, and takes the worst. */
import * as rational from '../quantity/rational';
import { type Case, type Claim, casesOf, partsOf } from './claims';
import type { Criterion, Judgement } from './criterion';
import { holdsOver } from './enclosure';
import type { ExtremeFinder } from './extremes';
import { judgeComparison, judgeSpans, judgeWithin } from './judge';
import { judgeCondition } from './judge-condition';
import type { Lowering } from './lowering/lowering';
import { rootSumSquare } from './rss';
import { compareVerdicts } from './verdict';

export interface CriterionResult extends Judgement {
  readonly criterion: Criterion;
  /** The worst mode and row, where it runs over several. */
  readonly mode: string | null;
  readonly row: string | null;
  /** What that mode and row claim. */
  readonly claim: Claim;
  /** `rss`: root sum square decided, as the requirement asks. */
  readonly basis: Basis;
  /** Every name that it rests on. */
  readonly uses: ReadonlySet<string>;
}

export type Basis = 'worst-case' | 'rss';

/**
 * @param modes the modes it is judged in; empty for all of the product's
 * @param by what decides where it can be taken
 */
export function judgeCriterion(
  lowering: Lowering,
  criterion: Criterion,
  modes: readonly string[],
  by: Basis,
): CriterionResult {
  const { result, uses } = lowering.tracked(() => casesOf(lowering, criterion, modes));
  const judged = result.map((one) => {
    const worst = judgeClaim(lowering.extremes, one.claim);
    const { mode, row, claim } = one;
    if (by === 'rss') return { mode, row, claim, ...judgeBySquares(lowering, claim, worst) };
    return { mode, row, claim, basis: by, ...worst };
  });
  return { criterion, uses: lowering.restsOn(uses), ...worstOf(judged) };
}

export function judgeClaim(finder: ExtremeFinder, claim: Claim): Judgement {
  switch (claim.type) {
    case 'comparison':
      return judgeComparison(finder, claim.relation, claim.value, claim.limit, claim.unit);
    case 'within':
      return judgeWithin(finder, claim.value, claim.low, claim.high, claim.unit);
    case 'spans':
      return judgeRange(finder, claim);
    case 'condition':
      return judgeCondition(finder, claim.condition);
    case 'undecided':
      return { verdict: 'undecided', figures: null, reasons: claim.reasons, remark: null };
  }
}

function judgeRange(finder: ExtremeFinder, { range, low, high, unit, open }: Claim & { type: 'spans' }): Judgement {
  if (range.low !== null && range.high !== null)
    return judgeSpans(finder, { low: range.low, high: range.high }, low, high, unit);
  const known = range.low ?? range.high;
  // The end that is known may break the criterion already.
  const judged =
    known === null
      ? null
      : range.low !== null
        ? judgeComparison(finder, '<=', { ...low, term: known }, low, unit)
        : judgeComparison(finder, '>=', { ...high, term: known }, high, unit);
  if (judged?.verdict === 'unmet') return judged;
  return { verdict: 'undecided', figures: null, reasons: open, remark: null };
}

/** Root sum square lies inside the worst case, so it can only meet what the worst case leaves at risk. */
function judgeBySquares(
  { product, extremes }: Lowering,
  claim: Claim,
  worst: Judgement,
): Judgement & { readonly basis: Basis } {
  const sides = partsOf(claim).map((part) =>
    part.type === 'side' ? { ...part, rss: rootSumSquare(product, extremes, part.distance) } : null,
  );
  if (sides.length === 0 || sides.some((side) => side === null || side.rss === null))
    return { ...worst, basis: 'worst-case' };
  const isMet = sides.every((side) => side?.rss != null && holdsOver(side.relation, side.rss) === true);
  if (worst.verdict !== 'at risk' || !isMet) return { ...worst, basis: 'rss' };
  return { ...worst, verdict: 'met', remark: null, basis: 'rss' };
}

interface JudgedCase extends Judgement, Case {
  readonly basis: Basis;
}

/** The worst verdict, then the smallest margin, then the first written. */
function worstOf(cases: readonly JudgedCase[]): JudgedCase {
  return cases.reduce((worst, candidate) => (isWorse(candidate, worst) ? candidate : worst));
}

function isWorse(a: JudgedCase, b: JudgedCase): boolean {
  const order = compareVerdicts(a.verdict, b.verdict);
  if (order !== 0) return order < 0;
  const [left, right] = [a.figures?.margin ?? null, b.figures?.margin ?? null];
  return left !== null && right !== null && rational.compare(left, right) < 0;
}

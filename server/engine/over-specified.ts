/** Limits that are surpassed by more than their headroom, where a given figure could be relaxed with every verdict kept. */
import { type Headroom, headroomsOf } from '../model/headroom';
import { isComparable } from '../quantity/dimension';
import type { Rational } from '../quantity/rational';
import * as rational from '../quantity/rational';
import type { Expression } from '../syntax/expression/ast';
import type { Analysis } from './analysis';
import { isCount } from './code-spans';
import type { Figures } from './criterion';
import type { CriterionResult } from './judge-criterion';
import type { Lowering } from './lowering/lowering';
import type { BoundEnd, FigureRanges, Ranges } from './ranges/ranges';
import type { RequirementResult } from './requirement-result';
import { type Saving, type SavingsOf, savingsIn } from './savings';

export interface OverSpecified {
  readonly result: RequirementResult;
  readonly criterion: CriterionResult;
  readonly figures: Figures;
  readonly headroom: Headroom;
  /** The figure that could be relaxed, and the end up to which. */
  readonly ranges: FigureRanges;
  readonly end: BoundEnd;
  /** Totals of the product that would fall, and by how much. */
  readonly savings: readonly Saving[];
}

/** In the order of the requirements and their criteria, a requirement at a time. */
export function* overSpecified(analysis: Analysis, ranges: Ranges): Generator<void, readonly OverSpecified[]> {
  const savings = savingsIn(analysis);
  const found: OverSpecified[] = [];
  for (const result of analysis.requirements) {
    if (result.verdict === 'met')
      for (const criterion of result.criteria) found.push(...ofCriterion(analysis, ranges, savings, result, criterion));
    yield;
  }
  return found;
}

function ofCriterion(
  { lowering }: Analysis,
  ranges: Ranges,
  savings: SavingsOf,
  result: RequirementResult,
  criterion: CriterionResult,
): readonly OverSpecified[] {
  const { figures } = criterion;
  if (figures === null) return [];
  const headroom = headroomFor(lowering, result, figures);
  if (headroom === null || !isSurpassed(figures, headroom) || isNearCount(lowering, criterion, figures)) return [];
  const home = homeOf(criterion);
  const candidates = [...criterion.uses]
    .flatMap((name) => ranges.ofFact(name))
    .flatMap((own) => relaxations(own, headroom, figures))
    .map((one): Candidate => ({ ...one, savings: savings(one.own.figure, one.end.value) }))
    .toSorted((a, b) => compareUse(a, b, home));
  // Only what lowers this surplus counts.
  const found = candidates.find(({ own, direction, falls }) => {
    const fall = ranges.marginFall(own.figure, direction, result.requirement, criterion.criterion);
    return fall !== null && rational.sign(fall) > 0 && (falls === null || rational.compare(fall, falls) > 0);
  });
  if (found === undefined) return [];
  return [{ result, criterion, figures, headroom, ranges: found.own, end: found.end, savings: found.savings }];
}

interface Candidate extends Relaxation {
  readonly savings: readonly Saving[];
}

/** The first part of the name that the criterion speaks of. */
function homeOf({ criterion: { condition } }: CriterionResult): string | null {
  const value = condition.type === 'comparison' ? condition.left : condition.type === 'ends' ? condition.value : null;
  return value?.type === 'name' ? (value.parts[0] ?? null) : null;
}

/** A share speaks of plain limits only. */
function headroomFor({ product }: Lowering, { requirement }: RequirementResult, figures: Figures): Headroom | null {
  const fits = (headroom: Headroom) =>
    headroom.type === 'share' ? figures.surplus !== null : isComparable(headroom.dimension, figures.unit.dimension);
  return headroomsOf(requirement, product.configuration, product.units).find(fits) ?? null;
}

function isSurpassed({ surplus, margin }: Figures, headroom: Headroom): boolean {
  if (headroom.type === 'share') return surplus !== null && rational.compare(surplus, headroom.share) > 0;
  return margin !== null && rational.compare(margin, headroom.distance) > 0;
}

const TWO = rational.integer(2);

/** Of a few items one more is no surplus. */
function isNearCount(lowering: Lowering, { claim, criterion }: CriterionResult, { margin }: Figures): boolean {
  if (claim.type !== 'comparison' || margin === null || rational.compare(margin, TWO) >= 0) return false;
  const { condition } = criterion;
  const value: Expression | null = condition.type === 'comparison' ? condition.left : null;
  return value !== null && (claim.value.dimension.kinds.size > 0 || isCount(lowering, claim.value, value));
}

interface Relaxation {
  readonly own: FigureRanges;
  readonly direction: 1 | -1;
  readonly end: BoundEnd;
  /** The larger of new/now and now/new; null where one is zero or they differ in sign: past zero every factor is passed. */
  readonly factor: Rational | null;
  /** By how much the margin has to fall for it to count; null where the factor is enough. */
  readonly falls: Rational | null;
}

function relaxations(own: FigureRanges, headroom: Headroom, figures: Figures): readonly Relaxation[] {
  const { figure, allowed } = own;
  if (allowed === null || figure.movement === 'half-width') return [];
  return ([1, -1] as const).flatMap((direction) => {
    const end = direction > 0 ? allowed.high : allowed.low;
    if (end === null || rational.equals(end.value, figure.now)) return [];
    const factor = factorOf(figure.now, end.value);
    const falls = neededFall(own, headroom, figures);
    const isFar =
      falls !== null ||
      figure.steps.type === 'choices' ||
      (factor === null && rational.sign(figure.now) !== 0) ||
      (headroom.type === 'share' &&
        factor !== null &&
        rational.compare(factor, rational.add(rational.ONE, headroom.share)) > 0);
    return isFar ? [{ own, direction, end, factor, falls }] : [];
  });
}

/** For a headroom in figures, and for points, which have no factor, the margin is what counts. */
function neededFall({ figure }: FigureRanges, headroom: Headroom, { low, high }: Figures): Rational | null {
  if (figure.steps.type === 'choices') return null;
  if (headroom.type === 'distance') return headroom.distance;
  const limit = low ?? high;
  const isPoint = figure.value.unit.point !== null;
  return isPoint && limit !== null ? rational.multiply(rational.absolute(limit), headroom.share) : null;
}

function factorOf(now: Rational, next: Rational): Rational | null {
  if (rational.sign(now) * rational.sign(next) <= 0) return null;
  const ratio = rational.absolute(rational.divide(next, now));
  return rational.compare(ratio, rational.ONE) >= 0 ? ratio : rational.divide(rational.ONE, ratio);
}

/**
 * What would save something first; then choices, which somebody could make tomorrow; then the one that takes the largest
 * share now and so has the least far to go; then what stands nearest to what the criterion speaks of; then by name.
 */
function compareUse(a: Candidate, b: Candidate, home: string | null): number {
  const rank = ({ savings, own }: Candidate) =>
    (savings.length > 0 ? 0 : 2) + (own.figure.steps.type === 'choices' ? 0 : 1);
  return (
    rank(a) - rank(b) ||
    compareFactor(a.factor, b.factor) ||
    Number(isAt(home, b)) - Number(isAt(home, a)) ||
    (a.own.figure.name < b.own.figure.name ? -1 : 1)
  );
}

function compareFactor(a: Rational | null, b: Rational | null): number {
  if (a === null || b === null) return Number(a === null) - Number(b === null);
  return rational.compare(a, b);
}

function isAt(home: string | null, { own }: Candidate): boolean {
  return home !== null && own.figure.name.startsWith(`${home}.`);
}

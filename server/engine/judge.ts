/** Judges one comparison: met for all values, at risk for some tolerance, unmet somewhere in the ranges, or undecided and why. */

import type { Interval } from '../quantity/interval';
import * as interval from '../quantity/interval';
import type { Rational } from '../quantity/rational';
import * as rational from '../quantity/rational';
import type { Unit } from '../quantity/unit';
import type { Figures, Judgement, Remark } from './criterion';
import { holdsOver, isNoValue, type NoValue } from './enclosure';
import type { ExtremeFinder, Extremes } from './extremes';
import { noValueReasons, openEndOf } from './no-value';
import { difference, type FunctionName, holdsOf, type PlainRelation, type Term } from './term';
import { inOrder } from './term-order';
import type { Reason, TypedQuantity } from './typed';
import { type CriterionVerdict, worstVerdict } from './verdict';

/** `value relation limit`. `unit`: the limit's, in which figures are shown. */
export function judgeComparison(
  finder: ExtremeFinder,
  relation: PlainRelation,
  value: TypedQuantity,
  limit: TypedQuantity,
  unit: Unit,
): Judgement {
  const side = judgeSide(finder, relation, value.term, limit.term);
  const figures = figuresOf(finder, relation, value, limit, unit, side);
  return { verdict: side.verdict, figures, reasons: side.reasons, remark: side.remark };
}

/** `value within low to high`: the whole worst case lies inside. */
export function judgeWithin(
  finder: ExtremeFinder,
  value: TypedQuantity,
  low: TypedQuantity,
  high: TypedQuantity,
  unit: Unit,
): Judgement {
  const sides = [
    judgeSide(finder, '>=', value.term, low.term),
    judgeSide(finder, '<=', value.term, high.term),
  ] as const;
  const all = rangeOf(finder, value.term, 'full');
  const typical = rangeOf(finder, value.term, 'typical');
  return twoEnds('within', sides, all, typical, endOf(finder, low, 'high'), endOf(finder, high, 'low'), unit);
}

/** `range spans low to high`: the least of the range is at or below low, the greatest at or above high. */
export function judgeSpans(
  finder: ExtremeFinder,
  range: { readonly low: Term; readonly high: Term },
  low: TypedQuantity,
  high: TypedQuantity,
  unit: Unit,
): Judgement {
  const sides = [judgeSide(finder, '<=', range.low, low.term), judgeSide(finder, '>=', range.high, high.term)] as const;
  const ends = (extent: 'full' | 'typical'): Interval | null => {
    const [from, to] = [rangeOf(finder, range.low, extent), rangeOf(finder, range.high, extent)];
    return from === null || to === null ? null : { low: from.high, high: to.low };
  };
  return twoEnds(
    'spans',
    sides,
    ends('full'),
    ends('typical'),
    endOf(finder, low, 'low'),
    endOf(finder, high, 'high'),
    unit,
  );
}

interface Side {
  readonly verdict: CriterionVerdict;
  readonly reasons: readonly Reason[];
  readonly remark: Remark | null;
  /** Distance to the limit, over everything; positive where the relation holds. */
  readonly margin: Rational | null;
}

/** Decides the sign of value − limit over the full and the typical extent. */
function judgeSide(finder: ExtremeFinder, relation: PlainRelation, value: Term, limit: Term): Side {
  const distance = difference(value, limit);
  const full = finder.extremes(distance, 'full');
  const typical = finder.extremes(distance, 'typical');
  if (isNoValue(full)) return withoutValue(full);
  if (isNoValue(typical)) return withoutValue(typical);
  const margin = marginOf(relation, full.outer);
  if (holdsOver(relation, full.outer) === true) return { verdict: 'met', reasons: [], remark: null, margin };
  const remark = relation === '=' ? 'use-within' : null;
  if (isBroken(relation, typical.inner, distance)) return { verdict: 'unmet', reasons: [], remark, margin };
  const open = openEnds(relation, full, distance);
  if (open.length > 0) return { verdict: 'undecided', reasons: open, remark: null, margin: null };
  const shown = holdsOver(relation, typical.outer) === true && isBroken(relation, full.inner, distance);
  return { verdict: 'at risk', reasons: [], remark: remark ?? (shown ? null : 'not-shown'), margin };
}

function withoutValue(none: NoValue): Side {
  return { verdict: 'undecided', reasons: noValueReasons(null, none), remark: null, margin: null };
}

/** Whether a value that is really taken breaks the relation to zero: an end that is known, or zero between two of them. */
function isBroken(relation: PlainRelation, { low, high }: Interval, distance: Term): boolean {
  const signs = [low, high].filter((end) => end !== null).map(rational.sign);
  if (signs.some((sign) => !holdsOf(relation, sign))) return true;
  return relation === '!=' && signs.includes(-1) && signs.includes(1) && inOrder(distance).every(isContinuous);
}

/** A value between two that are taken is taken only where nothing jumps over it. */
function isContinuous(term: Term): boolean {
  if (term.type === 'function') return !JUMPING.includes(term.name);
  return term.type !== 'choice' && (term.type !== 'curve' || term.curve.between === 'lines');
}

const JUMPING: readonly FunctionName[] = ['floor', 'ceil', 'round'];

/** The given figures whose open end the decision needs. */
function openEnds(relation: PlainRelation, { outer }: Extremes, distance: Term): readonly Reason[] {
  const needsHigh = relation !== '>=' && relation !== '>';
  const needsLow = relation !== '<=' && relation !== '<';
  if ((outer.high !== null || !needsHigh) && (outer.low !== null || !needsLow)) return [];
  return [...distance.support].filter(({ full }) => full.low === null || full.high === null).map(openEndOf);
}

function marginOf(relation: PlainRelation, { low, high }: Interval): Rational | null {
  switch (relation) {
    case '<=':
    case '<':
      return high === null ? null : rational.negate(high);
    case '>=':
    case '>':
      return low;
    case '=':
      return low === null || high === null
        ? null
        : rational.negate(rational.maximum(rational.absolute(low), rational.absolute(high)));
    case '!=':
      return null;
  }
}

function figuresOf(
  finder: ExtremeFinder,
  relation: PlainRelation,
  value: TypedQuantity,
  limit: TypedQuantity,
  unit: Unit,
  { margin }: Side,
): Figures | null {
  const all = rangeOf(finder, value.term, 'full');
  const typical = rangeOf(finder, value.term, 'typical');
  const limits = rangeOf(finder, limit.term, 'full');
  if (all === null || typical === null || limits === null) return null;
  const isLower = relation === '>=' || relation === '>';
  const isUpper = relation === '<=' || relation === '<';
  const bound = isLower ? limits.high : isUpper ? limits.low : limits.high;
  return {
    value: all,
    typical,
    relation,
    low: isUpper ? null : bound,
    high: isLower ? null : bound,
    unit,
    margin,
    margins: null,
    surplus: value.point === null ? surplusOf(isLower, isUpper, all, bound) : null,
  };
}

/** value / limit − 1 for a lower, limit / value − 1 for an upper limit, at the worse end, where both are positive. */
function surplusOf(isLower: boolean, isUpper: boolean, value: Interval, limit: Rational | null): Rational | null {
  const worse = isLower ? value.low : isUpper ? value.high : null;
  if (worse === null || limit === null || rational.sign(worse) <= 0 || rational.sign(limit) <= 0) return null;
  const ratio = isLower ? rational.divide(worse, limit) : rational.divide(limit, worse);
  return rational.subtract(ratio, rational.ONE);
}

function twoEnds(
  relation: 'within' | 'spans',
  sides: readonly [Side, Side],
  value: Interval | null,
  typical: Interval | null,
  low: Rational | null,
  high: Rational | null,
  unit: Unit,
): Judgement {
  const [lower, upper] = sides;
  const verdict = worstVerdict([lower.verdict, upper.verdict]);
  const reasons = [...lower.reasons, ...upper.reasons];
  const remark = lower.remark ?? upper.remark;
  if (value === null || typical === null) return { verdict, figures: null, reasons, remark };
  const margins = { low: lower.margin, high: upper.margin };
  const margin = margins.low && margins.high && rational.minimum(margins.low, margins.high);
  return {
    verdict,
    figures: { value, typical, relation, low, high, unit, margin, margins, surplus: null },
    reasons,
    remark,
  };
}

function rangeOf(finder: ExtremeFinder, of: Term, extent: 'full' | 'typical'): Interval | null {
  const found = finder.extremes(of, extent);
  return isNoValue(found) ? null : found.outer;
}

/** The end of a limit that is worse to meet. */
function endOf(finder: ExtremeFinder, of: TypedQuantity, end: 'low' | 'high'): Rational | null {
  return (rangeOf(finder, of.term, 'full') ?? interval.ENTIRE)[end];
}

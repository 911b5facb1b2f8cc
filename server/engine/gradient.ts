/** Interval derivatives of a term to each of its variables over a box, by going backward through the graph once. */

import type { Interval } from '../quantity/interval';
import * as interval from '../quantity/interval';
import * as rational from '../quantity/rational';
import { type Box, decide, enclose, isNoValue } from './enclosure';
import type { CurveShape, Term, Variable } from './term';
import { differences, inOrder } from './term-order';

/** Digits of a slope past which it is rounded outward. */
const LONGEST_SLOPE = 120;
const UNIT = interval.point(rational.ONE);
const UP: Interval = { low: rational.ZERO, high: null };
const DOWN: Interval = { low: null, high: rational.ZERO };
const SHARE: Interval = { low: rational.ZERO, high: rational.ONE };

/**
 * For each variable an interval that holds every slope of the term in it over the box (of a step: every slope from
 * zero to infinity in its direction, so that signs tell where the term rises and falls). Null when the term has no
 * value somewhere in the box.
 */
export function gradient(root: Term, box: Box): ReadonlyMap<Variable, Interval> | null {
  if (isNoValue(enclose(root, box))) return null;
  const slopes = new Map<Term, Interval>([[root, UNIT]]);
  const result = new Map<Variable, Interval>();
  for (const term of inOrder(root).toReversed()) {
    const slope = slopes.get(term);
    if (slope === undefined) continue;
    if (term.type === 'variable') {
      const before = result.get(term.variable);
      result.set(term.variable, before === undefined ? slope : interval.add(before, slope));
      continue;
    }
    for (const [below, factor] of parts(term, box)) {
      if (below.support.size === 0) continue;
      const share = factor === UNIT ? slope : interval.multiply(slope, factor);
      const before = slopes.get(below);
      const slopeBelow = before === undefined ? share : interval.add(before, share);
      // Slopes only show a direction; along a chain of products their digits would double at each step.
      slopes.set(below, slopeBelow === slope ? slope : interval.coarsened(slopeBelow, LONGEST_SLOPE));
    }
  }
  return result;
}

/** The slope of a node in each node below it, over the box. */
function parts(term: Term, box: Box): readonly (readonly [Term, Interval])[] {
  const over = (of: Term): Interval => {
    const enclosure = enclose(of, box);
    return isNoValue(enclosure) ? interval.ENTIRE : enclosure;
  };
  switch (term.type) {
    case 'constant':
    case 'variable':
      return [];
    case 'sum':
      return term.terms.map((below) => [below, UNIT]);
    case 'scaled':
      return [[term.term, interval.point(term.factor)]];
    case 'product':
      return [
        [term.left, over(term.right)],
        [term.right, over(term.left)],
      ];
    case 'quotient':
      return quotientParts(term, over);
    case 'power':
      return [[term.base, powerSlope(over(term.base), term.exponent)]];
    case 'least':
    case 'greatest':
      return extremeParts(term, over);
    case 'function':
      return [[term.operand, functionSlope(term, over)]];
    case 'curve':
      return [[term.of, curveSlope(term.curve, over(term.of))]];
    case 'choice':
      return choiceParts(term, box);
  }
}

function quotientParts(
  term: Term & { type: 'quotient' },
  over: (of: Term) => Interval,
): readonly (readonly [Term, Interval])[] {
  if (term.left === term.right) return [];
  const inverse = interval.divide(UNIT, over(term.right)) ?? interval.ENTIRE;
  // d(a/b)/db = −(a/b)/b; the quotient's own enclosure is tighter than a over b² apart.
  const down = interval.negate(interval.multiply(over(term), inverse));
  return [
    [term.left, inverse],
    [term.right, down],
  ];
}

function powerSlope(base: Interval, exponent: number): Interval {
  const lower = interval.power(base, exponent - 1);
  return lower === null ? interval.ENTIRE : interval.scale(lower, rational.integer(exponent));
}

/** The one that is surely least (greatest) has slope one; others that may be, any share of it. */
function extremeParts(
  term: Term & { type: 'least' | 'greatest' },
  over: (of: Term) => Interval,
): readonly (readonly [Term, Interval])[] {
  const bounds = term.terms.map((below) => (term.type === 'least' ? over(below) : interval.negate(over(below))));
  const reached = bounds.reduce<Interval['high']>(
    (least, { high }) => (least === null || (high !== null && rational.compare(high, least) < 0) ? high : least),
    null,
  );
  const possible = bounds.map(({ low }) => low === null || reached === null || rational.compare(low, reached) <= 0);
  const alone = possible.filter(Boolean).length === 1;
  return term.terms.map((below, index) => [below, possible[index] ? (alone ? UNIT : SHARE) : interval.ZERO]);
}

function functionSlope(term: Term & { type: 'function' }, over: (of: Term) => Interval): Interval {
  const operand = over(term.operand);
  switch (term.name) {
    case 'abs':
      if (operand.low !== null && rational.sign(operand.low) >= 0) return UNIT;
      if (operand.high !== null && rational.sign(operand.high) <= 0) return interval.negate(UNIT);
      return { low: rational.integer(-1), high: rational.ONE };
    case 'floor':
    case 'ceil':
    case 'round':
      return interval.isPoint(over(term)) ? interval.ZERO : UP;
    case 'exp':
      return over(term);
    case 'sqrt':
      return interval.divide(interval.point(rational.fraction(1n, 2n)), over(term)) ?? UP;
    case 'ln':
      return interval.divide(UNIT, operand) ?? UP;
    case 'log10':
      // 1/ln 10 lies between these.
      return interval.multiply(
        { low: rational.fraction(4342n, 10_000n), high: rational.fraction(4343n, 10_000n) },
        interval.divide(UNIT, operand) ?? UP,
      );
  }
}

function curveSlope({ between, points }: CurveShape, x: Interval): Interval {
  let slope: Interval | null = null;
  for (const [index, after] of points.entries()) {
    const before = points[index - 1];
    if (before === undefined || !touches(x, before.x, after.x)) continue;
    const rise = rational.subtract(after.y, before.y);
    const own =
      between === 'steps'
        ? stepSlope(rational.sign(rise))
        : interval.point(rational.divide(rise, rational.subtract(after.x, before.x)));
    slope = slope === null ? own : interval.hull(slope, own);
  }
  return slope ?? interval.ZERO;
}

function touches({ low, high }: Interval, from: rational.Rational, to: rational.Rational): boolean {
  return (low === null || rational.compare(low, to) < 0) && (high === null || rational.compare(from, high) <= 0);
}

function stepSlope(direction: number): Interval {
  return direction > 0 ? UP : direction < 0 ? DOWN : interval.ZERO;
}

function choiceParts(term: Term & { type: 'choice' }, box: Box): readonly (readonly [Term, Interval])[] {
  const decided = decide(term.condition, box);
  if (decided === true) return [[term.met, UNIT]];
  if (decided === false) return [[term.otherwise, UNIT]];
  const jumps = differences(term.condition).map((below): readonly [Term, Interval] => [below, jumpSlope(term)]);
  return [[term.met, SHARE], [term.otherwise, SHARE], ...jumps];
}

/** Where one plain comparison picks between two figures the jump has a direction; otherwise any slope is possible. */
function jumpSlope(term: Term & { type: 'choice' }): Interval {
  const { condition, met, otherwise } = term;
  if (condition.type !== 'comparison' || met.type !== 'constant' || otherwise.type !== 'constant')
    return interval.ENTIRE;
  const direction = rational.compare(met.value, otherwise.value);
  if (condition.relation === '>=' || condition.relation === '>') return stepSlope(direction);
  if (condition.relation === '<=' || condition.relation === '<') return stepSlope(-direction);
  return interval.ENTIRE;
}

/** Ends that a figure reaches in a straight line: where a distance has one exact slope in it, its end is margin over slope. */
import type { Interval } from '../../quantity/interval';
import * as interval from '../../quantity/interval';
import type { Rational } from '../../quantity/rational';
import * as rational from '../../quantity/rational';
import type { Side } from '../claims';
import { isNoValue } from '../enclosure';
import type { ExtremeFinder } from '../extremes';
import { gradient } from '../gradient';
import type { PlainRelation, Support, Term, Variable } from '../term';
import { inOrder } from '../term-order';

import { type Figure, isStraightTo, movingOf, type Rates, ratesOf } from './figure';

/** A distance as far as it is a sum of figures times exact numbers. */
export interface Slopes {
  /** Exact ends of the distance as the design stands; null where they are not known exactly. */
  readonly low: Rational | null;
  readonly high: Rational | null;
  /** For each variable in which the distance runs in a straight line of one slope, whatever the others are. */
  readonly slopes: ReadonlyMap<Variable, Rational>;
}

export function slopesOf(finder: ExtremeFinder, { distance }: Side): Slopes {
  const found = finder.extremes(distance, 'full');
  const slopes = new Map<Variable, Rational>();
  if (isNoValue(found)) return { low: null, high: null, slopes };
  const bent = bentIn(distance);
  for (const [variable, slope] of gradient(distance, finder.box('full')) ?? []) {
    if (!bent.has(variable) && interval.isPoint(slope)) slopes.set(variable, slope.low as Rational);
  }
  const { outer, inner } = found;
  return { low: sameEnd(outer.low, inner.low), high: sameEnd(outer.high, inner.high), slopes };
}

/** The slopes at the corner where an end of the distance is taken; none where it is not known to be a corner. */
export function cornerSlopesOf(finder: ExtremeFinder, { distance }: Side, end: 'low' | 'high'): Slopes {
  const found = finder.extremes(distance, 'full');
  const corner = isNoValue(found) ? null : cornerOf(finder, distance, end);
  if (isNoValue(found) || corner === null) return { low: null, high: null, slopes: new Map() };
  const bent = bentIn(distance);
  const slopes = new Map<Variable, Rational>();
  const box = {
    extentOf: (variable: Variable) => corner.get(variable) ?? variable.full,
    memo: new Map(),
    tighten: () => null,
  };
  for (const [variable, slope] of gradient(distance, box) ?? [])
    if (!bent.has(variable) && interval.isPoint(slope)) slopes.set(variable, slope.low as Rational);
  const { outer, inner } = found;
  return { low: sameEnd(outer.low, inner.low), high: sameEnd(outer.high, inner.high), slopes };
}

function cornerOf(finder: ExtremeFinder, distance: Term, end: 'low' | 'high'): ReadonlyMap<Variable, Interval> | null {
  const slopes = gradient(distance, finder.box('full'));
  const corner = new Map<Variable, Interval>();
  for (const variable of distance.support) {
    const extent = finder.extentOf(variable, 'full');
    const { low, high } = slopes?.get(variable) ?? interval.ZERO;
    const rises = low !== null && rational.sign(low) >= 0;
    if (!rises && (high === null || rational.sign(high) > 0) && !interval.isPoint(extent)) return null;
    const at = rises === (end === 'high') ? extent.high : extent.low;
    if (at === null) return null;
    corner.set(variable, interval.point(at));
  }
  return corner;
}

function sameEnd(a: Rational | null, b: Rational | null): Rational | null {
  return a !== null && b !== null && rational.equals(a, b) ? a : null;
}

/** The variables that come to the root through anything but sums, numbers, and figures that do not hold them too. */
export function bentIn(root: Term): Support {
  const bent = new Set<Variable>();
  const add = (support: Support) => {
    for (const variable of support) bent.add(variable);
  };
  for (const term of inOrder(root)) {
    switch (term.type) {
      case 'product':
        add(shared(term.left.support, term.right.support));
        break;
      case 'quotient':
        add(term.right.support);
        break;
      case 'power':
      case 'least':
      case 'greatest':
      case 'function':
      case 'curve':
      case 'choice':
        add(term.support);
        break;
    }
  }
  return bent;
}

function shared(a: Support, b: Support): Support {
  const [few, many] = a.size <= b.size ? [a, b] : [b, a];
  return new Set([...few].filter((variable) => many.has(variable)));
}

/** Where a figure may lie for one side to hold: null ends are unbounded; a strict end is itself not allowed. */
export interface Solution {
  readonly low: End | null;
  readonly high: End | null;
}

export interface End {
  readonly value: Rational;
  readonly strict: boolean;
}

export const EVERYWHERE: Solution = { low: null, high: null };

/** Where the figure may lie; *nowhere*; null where it is not found in a straight line. */
export function solve(
  { relation }: Side,
  slopes: Slopes,
  figure: Figure,
  support: Support,
): Solution | 'nowhere' | null {
  const rates = ratesOf(figure);
  if (rates === null) return null;
  const speed = speedOf(slopes, rates, support);
  if (speed === null) return null;
  const bounds = boundsOf(relation, slopes);
  if (bounds === null) return null;
  let solution: Solution | 'nowhere' = EVERYWHERE;
  for (const { end, side, strict } of bounds) {
    const own = oneBound(figure, slopes[end], speed[end], side, strict);
    if (own === null) return null;
    solution = both(solution, own);
  }
  return solution;
}

/** How fast the ends of the distance follow the figure. */
function speedOf({ slopes }: Slopes, rates: ReadonlyMap<Variable, Rates>, support: Support): Rates | null {
  let [low, high] = [rational.ZERO, rational.ZERO];
  const moving = movingOf(rates, support);
  // Two ends of one figure that are multiplied with each other would make a parabola.
  if (moving.length > 1 && moving.some(([{ spread }]) => spread === 'exact')) return null;
  for (const [variable, own] of moving) {
    const slope = slopes.get(variable);
    if (slope === undefined) return null;
    const [toLow, toHigh] = rational.sign(slope) >= 0 ? [own.low, own.high] : [own.high, own.low];
    low = rational.add(low, rational.multiply(slope, toLow));
    high = rational.add(high, rational.multiply(slope, toHigh));
  }
  return { low, high };
}

interface Bound {
  /** Which end of the distance has to stay on one side of zero: 1 above, −1 below. */
  readonly end: 'low' | 'high';
  readonly side: 1 | -1;
  readonly strict: boolean;
}

/** What the relation asks of the ends of the distance; of `!=` the side on which it lies now. */
function boundsOf(relation: PlainRelation, { low, high }: Slopes): readonly Bound[] | null {
  const above = (strict: boolean): Bound => ({ end: 'low', side: 1, strict });
  const below = (strict: boolean): Bound => ({ end: 'high', side: -1, strict });
  switch (relation) {
    case '>=':
    case '>':
      return [above(relation === '>')];
    case '<=':
    case '<':
      return [below(relation === '<')];
    case '=':
      return [above(false), below(false)];
    case '!=':
      if (low !== null && rational.sign(low) > 0) return [above(true)];
      return high !== null && rational.sign(high) < 0 ? [below(true)] : null;
  }
}

function oneBound(
  figure: Figure,
  distance: Rational | null,
  speed: Rational,
  side: 1 | -1,
  strict: boolean,
): Solution | 'nowhere' | null {
  if (distance === null) return null;
  if (rational.sign(speed) === 0) {
    const sign = rational.sign(distance) * side;
    return sign > 0 || (sign === 0 && !strict) ? EVERYWHERE : 'nowhere';
  }
  const value = rational.subtract(figure.now, rational.divide(distance, speed));
  if (!isStraightTo(figure, value)) return null;
  const end = { value, strict };
  return rational.sign(speed) * side > 0 ? { low: end, high: null } : { low: null, high: end };
}

/** What both allow; a place that only one end of each leaves counts while neither is strict. */
export function both(a: Solution | 'nowhere', b: Solution | 'nowhere'): Solution | 'nowhere' {
  if (a === 'nowhere' || b === 'nowhere') return 'nowhere';
  const joined = { low: stricter(a.low, b.low, 1), high: stricter(a.high, b.high, -1) };
  return isEmpty(joined) ? 'nowhere' : joined;
}

function isEmpty({ low, high }: Solution): boolean {
  if (low === null || high === null) return false;
  const order = rational.compare(low.value, high.value);
  return order > 0 || (order === 0 && (low.strict || high.strict));
}

/** The end that leaves less; `side` 1 for lower ends. */
export function stricter<Kind extends End>(a: Kind | null, b: Kind | null, side: 1 | -1): Kind | null {
  if (a === null || b === null) return a ?? b;
  const order = rational.compare(a.value, b.value) * side;
  if (order !== 0) return order > 0 ? a : b;
  return b.strict && !a.strict ? b : a;
}

export function contains({ low, high }: Solution, value: Rational): boolean {
  const above = low === null || rational.compare(low.value, value) < (low.strict ? 0 : 1);
  return above && (high === null || rational.compare(value, high.value) < (high.strict ? 0 : 1));
}

/** The ends as an interval, strict or not. */
export function extentOf({ low, high }: Solution): Interval {
  return { low: low?.value ?? null, high: high?.value ?? null };
}

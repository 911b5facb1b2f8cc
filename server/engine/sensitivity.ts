/** What drives a figure: its derivative to each given figure with a spread, by differentiation, and each one's share of its spread. */
import type { Interval } from '../quantity/interval';
import * as interval from '../quantity/interval';
import type { Rational } from '../quantity/rational';
import * as rational from '../quantity/rational';
import type { Unit } from '../quantity/unit';
import { type Box, decide, enclose, isNoValue } from './enclosure';
import type { ExtremeFinder } from './extremes';
import { gradient } from './gradient';
import type { Term, Variable } from './term';
import { inOrder } from './term-order';

export interface Driver {
  /** The figure's name; empty for a literal inside an expression. */
  readonly name: string;
  /** In which its author wrote it; null for a share. */
  readonly unit: Unit | null;
  /** Per base unit of the figure, in base units of the value. */
  readonly slope: Rational;
  /** Of the whole spread: |slope| × width over the sum of these. */
  readonly share: number;
}

/**
 * Biggest share first, then by name. Null where the term has no derivative (steps, a condition with spread, a kink) or
 * an end is open. Derivatives are taken at typical values, in the middle of ranges.
 */
export function driversOf(finder: ExtremeFinder, term: Term): readonly Driver[] | null {
  const slopes = slopesAt(finder, term, middleBox(finder, term));
  if (slopes === null) return null;
  const found = new Map<string, { unit: Unit | null; slope: Rational; spread: Rational }>();
  for (const [variable, slope] of slopes) {
    const { low, high } = finder.extentOf(variable, 'full');
    if (low === null || high === null) return null;
    const spread = rational.multiply(rational.absolute(slope), rational.subtract(high, low));
    const known = found.get(variable.name) ?? { slope: rational.ZERO, spread: rational.ZERO };
    const sum = { slope: rational.add(known.slope, slope), spread: rational.add(known.spread, spread) };
    found.set(variable.name, { unit: variable.unit, ...sum });
  }
  const whole = [...found.values()].reduce((total, { spread }) => rational.add(total, spread), rational.ZERO);
  return [...found]
    .map(([name, { unit, slope, spread }]) => ({ name, unit, slope, share: shareOf(spread, whole) }))
    .toSorted((a, b) => b.share - a.share || (a.name < b.name ? -1 : 1));
}

function shareOf(spread: Rational, whole: Rational): number {
  return rational.sign(whole) === 0 ? 0 : rational.toDouble(rational.divide(spread, whole));
}

/** The slope in every variable at a place; null where the term has no derivative there or jumps somewhere in its spread. */
export function slopesAt(
  finder: ExtremeFinder,
  term: Term,
  place: ReadonlyMap<Variable, Interval> | null,
): ReadonlyMap<Variable, Rational> | null {
  if (place === null || !isSmooth(term, finder.box('full'))) return null;
  const box: Box = {
    extentOf: (variable) => place.get(variable) ?? finder.extentOf(variable, 'full'),
    memo: new Map(),
    tighten: () => null,
  };
  const slopes = gradient(term, box);
  if (slopes === null || hasKinkAt(term, box)) return null;
  const result = new Map<Variable, Rational>();
  for (const [variable, slope] of slopes) {
    const one = oneSlope(slope);
    if (one === null) return null;
    result.set(variable, one);
  }
  return result;
}

/** A size has no derivative where it is zero. */
function hasKinkAt(root: Term, box: Box): boolean {
  return inOrder(root).some((term) => {
    if (term.type !== 'function' || term.name !== 'abs') return false;
    const operand = enclose(term.operand, box);
    return isNoValue(operand) || interval.contains(operand, rational.ZERO);
  });
}

/** Slopes of roots and logarithms are known to within their rounding. */
const ROUNDING = rational.fraction(1n, 1_000_000_000n);

function oneSlope({ low, high }: Interval): Rational | null {
  if (low === null || high === null) return null;
  if (rational.equals(low, high)) return low;
  const size = rational.maximum(rational.absolute(low), rational.absolute(high));
  const isRounded = rational.compare(rational.subtract(high, low), rational.multiply(size, ROUNDING)) <= 0;
  return isRounded ? rational.divide(rational.add(low, high), rational.integer(2)) : null;
}

function middleBox(finder: ExtremeFinder, { support }: Term): ReadonlyMap<Variable, Interval> | null {
  const place = new Map<Variable, Interval>();
  for (const variable of support) {
    const { low, high } = finder.extentOf(variable, 'typical');
    if (low === null || high === null) return null;
    place.set(variable, interval.point(rational.divide(rational.add(low, high), rational.integer(2))));
  }
  return place;
}

/** Nothing in it jumps over the box: no rounding, no step of a curve, no condition that may go either way. */
function isSmooth(root: Term, box: Box): boolean {
  return inOrder(root).every((term) => {
    switch (term.type) {
      case 'function':
        return !['floor', 'ceil', 'round'].includes(term.name) || isStill(term, box);
      case 'curve':
        return term.curve.between === 'lines' || isStill(term, box);
      case 'choice':
        return typeof decide(term.condition, box) === 'boolean';
      default:
        return true;
    }
  });
}

function isStill(term: Term, box: Box): boolean {
  const enclosure = enclose(term, box);
  return !isNoValue(enclosure) && interval.isPoint(enclosure);
}

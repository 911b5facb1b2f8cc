/** Closed intervals of exact rationals; a null end is open (unbounded). Every operation encloses all results (IEEE 1788-2015, set-based). */

import type { Rational } from './rational';
import * as rational from './rational';

/** All values from low to high, ends included; null stands for an end that is not known, so unbounded. */
export interface Interval {
  readonly low: Rational | null;
  readonly high: Rational | null;
}

export const ENTIRE: Interval = { low: null, high: null };
export const ZERO: Interval = point(rational.ZERO);

export function point(value: Rational): Interval {
  return { low: value, high: value };
}

export function between(low: Rational | null, high: Rational | null): Interval {
  return { low, high };
}

export function isPoint(a: Interval): boolean {
  return a.low !== null && (a.low === a.high || (a.high !== null && rational.equals(a.low, a.high)));
}

export function isBounded(a: Interval): boolean {
  return a.low !== null && a.high !== null;
}

export function contains(a: Interval, value: Rational): boolean {
  return (
    (a.low === null || rational.compare(a.low, value) <= 0) && (a.high === null || rational.compare(value, a.high) <= 0)
  );
}

export function equals(a: Interval, b: Interval): boolean {
  return endEquals(a.low, b.low) && endEquals(a.high, b.high);
}

export function add(a: Interval, b: Interval): Interval {
  return { low: sum(a.low, b.low), high: sum(a.high, b.high) };
}

export function negate(a: Interval): Interval {
  return { low: a.high && rational.negate(a.high), high: a.low && rational.negate(a.low) };
}

export function subtract(a: Interval, b: Interval): Interval {
  return add(a, negate(b));
}

export function multiply(a: Interval, b: Interval): Interval {
  if (isPoint(a)) return scale(b, a.low as Rational);
  if (isPoint(b)) return scale(a, b.low as Rational);
  const products = [
    productOfEnds(a.low, -1, b.low, -1),
    productOfEnds(a.low, -1, b.high, 1),
    productOfEnds(a.high, 1, b.low, -1),
    productOfEnds(a.high, 1, b.high, 1),
  ];
  return hullOfEnds(products);
}

export function scale(a: Interval, factor: Rational): Interval {
  const direction = rational.sign(factor);
  if (direction === 0) return ZERO;
  const low = a.low && rational.multiply(a.low, factor);
  const high = a.high && rational.multiply(a.high, factor);
  return direction > 0 ? { low, high } : { low: high, high: low };
}

/** a / b, or null when b contains zero (a quotient is then not defined everywhere). */
export function divide(a: Interval, b: Interval): Interval | null {
  if (contains(b, rational.ZERO)) return null;
  return multiply(a, reciprocalOfNonZero(b));
}

/** The square, cube … of a; a negative exponent gives null when a contains zero. */
export function power(a: Interval, exponent: number): Interval | null {
  if (exponent < 0) {
    if (contains(a, rational.ZERO)) return null;
    return power(reciprocalOfNonZero(a), -exponent);
  }
  if (exponent === 0) return point(rational.ONE);
  const low = a.low && rational.power(a.low, exponent);
  const high = a.high && rational.power(a.high, exponent);
  if (exponent % 2 === 1) return { low, high };
  const straddles = (a.low === null || rational.sign(a.low) < 0) && (a.high === null || rational.sign(a.high) > 0);
  if (straddles) return { low: rational.ZERO, high: low && high && rational.maximum(low, high) };
  return a.low !== null && rational.sign(a.low) >= 0 ? { low, high } : { low: high, high: low };
}

export function minimum(a: Interval, b: Interval): Interval {
  return {
    low: lesserLow(a.low, b.low),
    high: a.high && b.high ? rational.minimum(a.high, b.high) : (a.high ?? b.high),
  };
}

export function maximum(a: Interval, b: Interval): Interval {
  return negate(minimum(negate(a), negate(b)));
}

export function absolute(a: Interval): Interval {
  if (a.low !== null && rational.sign(a.low) >= 0) return a;
  if (a.high !== null && rational.sign(a.high) <= 0) return negate(a);
  return { low: rational.ZERO, high: a.low && a.high && rational.maximum(rational.negate(a.low), a.high) };
}

/** The smallest interval that holds both. */
export function hull(a: Interval, b: Interval): Interval {
  return {
    low: lesserLow(a.low, b.low),
    high: a.high && b.high && rational.maximum(a.high, b.high),
  };
}

/** What both hold; null when they share nothing. */
export function intersect(a: Interval, b: Interval): Interval | null {
  const low = a.low && b.low ? rational.maximum(a.low, b.low) : (a.low ?? b.low);
  const high = a.high && b.high ? rational.minimum(a.high, b.high) : (a.high ?? b.high);
  return low !== null && high !== null && rational.compare(low, high) > 0 ? null : { low, high };
}

/** The interval with long ends replaced by ones of about `digits` digits further out; short ends stay as they are. */
export function coarsened(a: Interval, digits: number): Interval {
  const low =
    a.low && (rational.isLongerThan(a.low, digits) ? rational.roundedTo(a.low, digits, rational.floor) : a.low);
  const high =
    a.high && (rational.isLongerThan(a.high, digits) ? rational.roundedTo(a.high, digits, rational.ceiling) : a.high);
  return { low, high };
}

/** Applies a function that never decreases to both ends. */
export function mapIncreasing(a: Interval, map: (value: Rational) => Rational): Interval {
  return { low: a.low && map(a.low), high: a.high && map(a.high) };
}

function lesserLow(a: Rational | null, b: Rational | null): Rational | null {
  return a && b && rational.minimum(a, b);
}

function endEquals(a: Rational | null, b: Rational | null): boolean {
  return a === b || (a !== null && b !== null && rational.equals(a, b));
}

function sum(a: Rational | null, b: Rational | null): Rational | null {
  return a && b && rational.add(a, b);
}

function reciprocalOfNonZero(b: Interval): Interval {
  // An open end stands for infinity, whose reciprocal is zero.
  return {
    low: b.high === null ? rational.ZERO : rational.divide(rational.ONE, b.high),
    high: b.low === null ? rational.ZERO : rational.divide(rational.ONE, b.low),
  };
}

/** A finite end, or the direction in which a product of ends is unbounded. */
type End = Rational | -1 | 1;

function productOfEnds(a: Rational | null, aDirection: -1 | 1, b: Rational | null, bDirection: -1 | 1): End {
  if (a !== null && b !== null) return rational.multiply(a, b);
  // Zero times an unbounded end is zero: the end is a limit, never a value that is taken.
  const aSign = a === null ? aDirection : rational.sign(a);
  const bSign = b === null ? bDirection : rational.sign(b);
  const direction = aSign * bSign;
  return direction === 0 ? rational.ZERO : direction > 0 ? 1 : -1;
}

function hullOfEnds(ends: readonly End[]): Interval {
  let low: Rational | null | undefined;
  let high: Rational | null | undefined;
  for (const end of ends) {
    if (end === -1) low = null;
    else if (end === 1) high = null;
    else {
      if (low !== null) low = low === undefined ? end : rational.minimum(low, end);
      if (high !== null) high = high === undefined ? end : rational.maximum(high, end);
    }
  }
  return { low: low ?? null, high: high ?? null };
}

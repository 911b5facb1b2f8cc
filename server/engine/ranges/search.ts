/** Ends that are found by trying: bracketed by growing steps, then halved, always rounded to the side that was shown. */
import type { Rational } from '../../quantity/rational';
import * as rational from '../../quantity/rational';

/** How close a bracket comes: its width over its greater end. */
const CLOSE = rational.fraction(1n, 1_000_000_000n);
/** Around zero a bracket is never narrow beside its ends; this share of the first step is. */
const CLOSE_TO_ZERO = rational.fraction(1n, 1_000_000_000_000n);
/** As near to zero as any figure comes, beside the bracket's end. */
const CLOSEST = rational.power(rational.fraction(1n, 10n), 60);
/** Digits of the places tried. */
const DIGITS = 24;
/** No figure of a design lies further out. */
const FURTHEST = rational.powerOfTen(99);
/** Digits of a place that a person would write, tried before the bracket's own end. */
const MOST_WRITTEN = 9;

/** A place found; a strict one is itself not fine, though all before it is. */
export interface Place {
  readonly value: Rational;
  readonly strict: boolean;
}

/** Whether everything from the start up to a place is fine; null asks for no end at all. */
export type Test = (to: Rational | null) => boolean;

/**
 * The furthest place to which a test that only ever turns from true to false holds. Null: without end.
 * @param limit where to stop; null for nowhere
 * @param unit the size of one step that people make, for a figure that is zero
 */
export function furthest(
  test: Test,
  start: Rational,
  direction: 1 | -1,
  limit: Rational | null,
  unit: Rational,
): Place | null {
  if (test(limit)) return limit && { value: limit, strict: false };
  const first = rational.sign(start) === 0 ? unit : rational.absolute(start);
  const bracket = bracketed(test, start, direction, limit, first);
  return bracket === null ? null : narrowed(test, bracket, first, unit);
}

interface Bracket {
  readonly good: Rational;
  readonly bad: Rational;
}

/** Steps that grow by squares, so that the furthest figure is a dozen steps away. */
function bracketed(
  test: Test,
  start: Rational,
  direction: 1 | -1,
  limit: Rational | null,
  first: Rational,
): Bracket | null {
  let good = start;
  let factor = rational.ONE;
  for (;;) {
    const next = placeAt(start, direction, rational.multiply(first, factor), limit);
    if (limit !== null && rational.equals(next, limit)) return { good, bad: limit };
    if (!test(next)) return { good, bad: next };
    if (rational.compare(rational.absolute(next), FURTHEST) > 0) return null;
    good = next;
    factor = rational.multiply(rational.integer(2), rational.multiply(factor, factor));
  }
}

function placeAt(start: Rational, direction: 1 | -1, offset: Rational, limit: Rational | null): Rational {
  const place = direction > 0 ? rational.add(start, offset) : rational.subtract(start, offset);
  if (limit === null) return place;
  return direction > 0 ? rational.minimum(place, limit) : rational.maximum(place, limit);
}

/** Halves the bracket until its ends are one to people, and takes a short number in it where there is one. */
export function narrowed(test: (place: Rational) => boolean, from: Bracket, first: Rational, unit: Rational): Place {
  let { good, bad } = from;
  while (!isClose(good, bad, first)) {
    const middle = between(good, bad);
    if (test(middle)) good = middle;
    else bad = middle;
  }
  return atZero(test, good, bad) ?? written(test, good, bad, unit) ?? { value: good, strict: false };
}

/** Where the bracket ends at zero, which itself may have no value: what divides may come as close as it likes. */
function atZero(test: (place: Rational) => boolean, good: Rational, bad: Rational): Place | null {
  if (rational.sign(good) * rational.sign(bad) > 0 || rational.sign(good) === 0) return null;
  if (test(rational.ZERO)) return { value: rational.ZERO, strict: false };
  return test(rational.multiply(good, CLOSEST)) ? { value: rational.ZERO, strict: true } : null;
}

function isClose(good: Rational, bad: Rational, first: Rational): boolean {
  const width = rational.absolute(rational.subtract(good, bad));
  const size = rational.maximum(rational.absolute(good), rational.absolute(bad));
  return (
    rational.compare(width, rational.multiply(size, CLOSE)) <= 0 ||
    rational.compare(width, rational.multiply(first, CLOSE_TO_ZERO)) <= 0
  );
}

/** The middle; of places that are far apart, the geometric one. */
function between(good: Rational, bad: Rational): Rational {
  const middle = rational.divide(rational.add(good, bad), rational.integer(2));
  const far = farMiddle(good, bad);
  return far ?? (rational.isLongerThan(middle, DIGITS) ? rounded(middle, good, bad) : middle);
}

function farMiddle(good: Rational, bad: Rational): Rational | null {
  const [a, b] = [rational.toDouble(good), rational.toDouble(bad)];
  if (a * b <= 0 || Math.max(a / b, b / a) < 16 || !Number.isFinite(a) || !Number.isFinite(b)) return null;
  const middle = Math.sign(a) * Math.sqrt(Math.abs(a)) * Math.sqrt(Math.abs(b));
  return Number.isFinite(middle) && middle !== 0 ? rational.fromDouble(middle) : null;
}

/** With fewer digits where it then still lies between. */
function rounded(middle: Rational, good: Rational, bad: Rational): Rational {
  const short = rational.roundedTo(middle, DIGITS, rational.floor);
  const [low, high] = rational.compare(good, bad) < 0 ? [good, bad] : [bad, good];
  return rational.compare(low, short) < 0 && rational.compare(short, high) < 0 ? short : middle;
}

/** The shortest number of the unit in the bracket: it passes, or all before it does. */
function written(test: (place: Rational) => boolean, good: Rational, bad: Rational, unit: Rational): Place | null {
  const short = shortest(rational.divide(good, unit), rational.divide(bad, unit));
  if (short === null) return null;
  const value = rational.multiply(short, unit);
  if (test(value)) return { value, strict: false };
  const before = rational.add(value, rational.multiply(rational.subtract(good, value), CLOSEST));
  return !rational.equals(before, value) && test(before) ? { value, strict: true } : null;
}

function shortest(from: Rational, to: Rational): Rational | null {
  const [low, high] = rational.compare(from, to) < 0 ? [from, to] : [to, from];
  for (let digits = 1; digits <= MOST_WRITTEN; digits += 1) {
    const short = rational.roundedTo(high, digits, rational.floor);
    if (rational.compare(short, low) >= 0) return short;
  }
  return null;
}

/** The next place past an end that still is another one to a search. */
export function beyond(end: Rational, direction: 1 | -1, unit: Rational): Rational {
  const size = rational.maximum(rational.absolute(end), rational.multiply(unit, CLOSE));
  const step = rational.multiply(rational.multiply(size, CLOSE), rational.integer(2));
  return direction > 0 ? rational.add(end, step) : rational.subtract(end, step);
}

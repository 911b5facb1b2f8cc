/** Quantities for people: never looking better than they are, and reading back as they were written. */
import { dateOfBase } from './calendar';
import { differenceUnit, fromBase } from './conversion';
import { type Direction, EXACT_DIGITS, exactNumber, formatNumber, magnitudeOf, ROUNDED_DIGITS } from './format-number';
import { type Interval, isPoint } from './interval';
import type { Rational } from './rational';
import * as rational from './rational';
import { UNITY, type Unit } from './unit';

export { type Direction, formatNumber } from './format-number';
export { formatValue } from './format-value';

export interface FormatOptions {
  /** The value is a distance between two of the unit: °C is shown as K, a date as days. */
  readonly difference?: boolean;
  /** Digits of a figure that is rounded; 4 unless given. */
  readonly significant?: number;
  /** A figure that ends within so many digits is not rounded; as `significant`, or 6. */
  readonly exact?: number;
}

/** A value in base units as a figure in `unit`, rounded to the side given: `3.31 V`, `2026-10-02`. */
export function formatIn(value: Rational, unit: Unit, direction: Direction, options: FormatOptions = {}): string {
  if (options.difference) {
    const length = differenceUnit(unit);
    return withUnit(
      formatNumber(rational.divide(value, length.factor), direction, options.significant, options.exact),
      length,
    );
  }
  if (unit.point === 'date') return formatDate(value, direction);
  return withUnit(formatNumber(fromBase(value, unit), direction, options.significant, options.exact), unit);
}

/** `number unit`; a plain number stands alone. */
export function withUnit(number: string, unit: Unit): string {
  return unit.canonical === UNITY.canonical ? number : `${number} ${unit.canonical}`;
}

/** An interval in base units with its ends rounded outward: `3.311 V to 3.356 V`, `36 V or more`. A point is one figure. */
export function formatOutward(interval: Interval, unit: Unit, options: FormatOptions = {}): string {
  return formatInterval(interval, unit, ['down', 'up'], options);
}

/** An interval in base units with its ends rounded inward, as permission is shown. */
export function formatInward(interval: Interval, unit: Unit, options: FormatOptions = {}): string {
  return formatInterval(interval, unit, ['up', 'down'], options);
}

/** The ends of an interval as texts; null for open ones. */
export interface ShownEnds {
  readonly low: string | null;
  readonly high: string | null;
}

/** The ends that {@link formatOutward} shows, apart. */
export function outwardEnds(interval: Interval, unit: Unit): ShownEnds {
  return formatEnds(interval, unit, ['down', 'up'], {});
}

/** A value and the limit it is compared with, as texts. */
export interface Compared {
  readonly value: string;
  readonly limit: string;
}

/**
 * A value and its limit in base units with as many digits as it takes to see which is greater: 60.04 W of 60 W. The
 * value is rounded to its worse side: up against an upper limit, down against a lower one.
 */
export function distinguish(value: Rational, limit: Rational, unit: Unit, relation: string): Compared {
  const number = fromBase(limit, unit);
  // A limit that ends within a few decimals is shown as it is, so that one step between the two is enough.
  const steps = rational.toExactDecimal(number, 3) === null ? 10 : 1;
  const significant = digitsToTell(fromBase(value, unit), number, steps);
  const options = { significant, exact: exactDigits(significant) };
  const shownLimit = formatIn(limit, unit, 'nearest', options);
  if (rational.equals(value, limit)) return { value: shownLimit, limit: shownLimit };
  return { value: formatIn(value, unit, worseSide(relation), options), limit: shownLimit };
}

function worseSide(relation: string): Direction {
  if (relation.startsWith('<')) return 'up';
  return relation.startsWith('>') ? 'down' : 'nearest';
}

function formatInterval(
  interval: Interval,
  unit: Unit,
  directions: readonly [Direction, Direction],
  options: FormatOptions,
): string {
  const { low, high } = formatEnds(interval, unit, directions, options);
  if (low === null) return high === null ? 'any value' : `${high} or less`;
  if (high === null) return `${low} or more`;
  return isPoint(interval) ? low : `${low} to ${high}`;
}

function formatEnds(
  { low, high }: Interval,
  unit: Unit,
  [lowDirection, highDirection]: readonly [Direction, Direction],
  options: FormatOptions,
): ShownEnds {
  if (low === null || high === null) {
    return {
      low: low && formatIn(low, unit, lowDirection, options),
      high: high && formatIn(high, unit, highDirection, options),
    };
  }
  if (rational.equals(low, high)) {
    const shown = formatIn(low, unit, 'nearest', options);
    return { low: shown, high: shown };
  }
  const numbers = options.difference
    ? [low, high].map((end) => rational.divide(end, differenceUnit(unit).factor))
    : [low, high].map((end) => fromBase(end, unit));
  const significant = Math.max(options.significant ?? 0, digitsToTell(numbers[0] ?? low, numbers[1] ?? high, 10));
  const ends = { exact: exactDigits(significant), ...options, significant };
  return { low: formatIn(low, unit, lowDirection, ends), high: formatIn(high, unit, highDirection, ends) };
}

/** One digit more than is rounded to is not worth rounding. */
function exactDigits(significant: number): number {
  return Math.max(EXACT_DIGITS, significant + 1);
}

/** Digits with which two unequal numbers differ by at least one or ten steps of the last one, so that rounding cannot close the gap. */
function digitsToTell(a: Rational, b: Rational, steps: 1 | 10): number {
  const gap = rational.subtract(a, b);
  if (rational.sign(gap) === 0) return ROUNDED_DIGITS;
  const greater = rational.maximum(rational.absolute(a), rational.absolute(b));
  return Math.max(ROUNDED_DIGITS, magnitudeOf(greater) - magnitudeOf(gap) + (steps === 1 ? 1 : 2));
}

function formatDate(value: Rational, direction: Direction): string {
  const day = dateOfBase(value);
  if (day === null) return `${exactNumber(rational.floor(value)) ?? ''} s after 1970-01-01`;
  const isMidnight = rational.isInteger(rational.divide(value, SECONDS_A_DAY));
  if (direction !== 'up' || isMidnight) return day;
  return dateOfBase(rational.add(value, SECONDS_A_DAY)) ?? day;
}

const SECONDS_A_DAY = rational.integer(86_400);

/** Numbers as people read them: short exact ones as they are, others rounded to one side. */

import type { Rational } from './rational';
import * as rational from './rational';

/** Where a rounded figure may lie: not above the value, not below it, or nearest (a half away from zero). */
export type Direction = 'down' | 'up' | 'nearest';

/** Digits of a figure that is rounded. */
export const ROUNDED_DIGITS = 4;
/** A figure that ends within so many significant digits is shown whole rather than rounded. */
export const EXACT_DIGITS = 6;
/** Whole numbers are counts as often as not, and are shown whole up to this many digits. */
const WHOLE_DIGITS = 9;
/** Powers of ten from which a figure is written `a×10^n`. */
const GREAT = 9;
const SMALL = -4;
/** Two numbers of ±10^99 multiplied, and the places of a factor of a unit. */
const MOST_PLACES = 250;

/**
 * The number to `significant` digits, rounded to the side given. It is shown whole when it ends within `exact` digits: by
 * default within six when no number of digits is asked for, else within those. Digits before the point are never rounded
 * away. It reads back as a number: `60.04`, `-0.3`, `1.25×10^-7`.
 */
export function formatNumber(
  value: Rational,
  direction: Direction,
  significant?: number,
  exact: number = significant ?? EXACT_DIGITS,
): string {
  const digits = significant ?? ROUNDED_DIGITS;
  const whole = shortExact(value, exact);
  if (whole !== null) return whole;
  const magnitude = magnitudeOf(value);
  if (magnitude < SMALL || magnitude >= GREAT) return formatPower(value, magnitude, direction, digits, exact);
  const places = Math.max(0, digits - 1 - magnitude);
  return trimmed(rational.decimalText(roundedUnits(value, places, direction), places));
}

/** All digits of a number as it reads back; null when its decimals do not end. */
export function exactNumber(value: Rational): string | null {
  const decimal = rational.toExactDecimal(value, MOST_PLACES);
  if (decimal === null) return null;
  const magnitude = rational.sign(value) === 0 ? 0 : magnitudeOf(value);
  if (magnitude >= -6 && magnitude < 15) return decimal;
  const mantissa = rational.toExactDecimal(rational.multiply(value, rational.powerOfTen(-magnitude)), MOST_PLACES);
  return `${mantissa}×10^${magnitude}`;
}

/** The power of ten of the first digit: 2 for 123, -1 for 0.5. The value must not be zero. */
export function magnitudeOf(value: Rational): number {
  const size = rational.absolute(value);
  const estimate = size.numerator.toString().length - size.denominator.toString().length;
  return rational.compare(size, rational.powerOfTen(estimate)) < 0 ? estimate - 1 : estimate;
}

function shortExact(value: Rational, digits: number): string | null {
  if (rational.sign(value) === 0) return '0';
  const magnitude = magnitudeOf(value);
  if (magnitude < SMALL || magnitude >= GREAT) return null;
  if (rational.isInteger(value)) return magnitude < WHOLE_DIGITS ? value.numerator.toString() : null;
  return rational.toExactDecimal(value, Math.max(0, digits - 1 - magnitude));
}

function formatPower(value: Rational, magnitude: number, direction: Direction, digits: number, exact: number): string {
  const mantissa = rational.multiply(value, rational.powerOfTen(-magnitude));
  const units = roundedUnits(mantissa, digits - 1, direction);
  const text = rational.toExactDecimal(mantissa, exact - 1) ?? trimmed(rational.decimalText(units, digits - 1));
  // Rounding away from zero can reach the next power: 9.9996 is 10.00.
  return /^-?10$/.test(text) ? `${text.slice(0, -1)}×10^${magnitude + 1}` : `${text}×10^${magnitude}`;
}

function roundedUnits(value: Rational, places: number, direction: Direction): bigint {
  const scaled = rational.multiply(value, rational.powerOfTen(places));
  const rounded =
    direction === 'down'
      ? rational.floor(scaled)
      : direction === 'up'
        ? rational.ceiling(scaled)
        : rational.round(scaled);
  return rounded.numerator;
}

function trimmed(decimal: string): string {
  return decimal.includes('.') ? decimal.replace(/\.?0+$/, '') : decimal;
}

/** Exact rational numbers: every figure of the product is one, so that a limit is met exactly at the limit. */

import { bitLength, greatestCommonDivisor } from './greatest-common-divisor';

/** A fraction in lowest terms; the denominator is positive. Built only by the functions of this module. */
export interface Rational {
  readonly numerator: bigint;
  readonly denominator: bigint;
}

export const ZERO: Rational = { numerator: 0n, denominator: 1n };
export const ONE: Rational = { numerator: 1n, denominator: 1n };

/** The fraction in lowest terms. The denominator must not be zero. */
export function fraction(numerator: bigint, denominator: bigint): Rational {
  if (denominator === 1n) return { numerator, denominator };
  if (denominator < 0n) return fraction(-numerator, -denominator);
  if (denominator === 0n) throw new RangeError('a fraction with denominator 0');
  const divisor = greatestCommonDivisor(numerator < 0n ? -numerator : numerator, denominator);
  return divisor === 1n
    ? { numerator, denominator }
    : { numerator: numerator / divisor, denominator: denominator / divisor };
}

/** A whole number as a rational; `value` must be a safe integer. */
export function integer(value: number | bigint): Rational {
  return { numerator: BigInt(value), denominator: 1n };
}

/** Powers of ten above this are refused by {@link fromDecimal}: no figure of a design needs them, and 10^(10^9) would exhaust memory. */
export const MAXIMUM_DECIMAL_EXPONENT = 99;

const DECIMAL = /^([+-]?)(\d*)(?:\.(\d*))?(?:[eE]([+-]?\d+))?$/;

/**
 * The number that decimal digits spell: `12`, `-0.5`, `.5`, `1e-3`. Null when the text is no such number, or when it
 * lies outside ±10^99 (a non-zero magnitude below 10^-99 counts as outside too).
 */
export function fromDecimal(text: string): Rational | null {
  const match = DECIMAL.exec(text);
  if (!match) return null;
  const [, sign, whole = '', decimals = '', exponentText = '0'] = match;
  if (whole === '' && decimals === '') return null;
  if (exponentText.replace(/^[+-]?0*/, '').length > 4) return null;
  const digits = (whole + decimals).replace(/^0+/, '');
  if (digits === '') return ZERO;
  const exponent = Number(exponentText) - decimals.length;
  const magnitude = digits.length - 1 + exponent;
  if (magnitude > MAXIMUM_DECIMAL_EXPONENT || magnitude < -MAXIMUM_DECIMAL_EXPONENT) return null;
  const value = BigInt(digits);
  const signed = sign === '-' ? -value : value;
  return exponent >= 0
    ? { numerator: signed * tenToThe(exponent), denominator: 1n }
    : fraction(signed, tenToThe(-exponent));
}

/** The exact value of a finite double. */
export function fromDouble(value: number): Rational {
  if (!Number.isFinite(value)) throw new RangeError('only a finite double has a rational value');
  let scaled = value;
  let exponent = 0n;
  while (!Number.isInteger(scaled)) {
    scaled *= 2;
    exponent += 1n;
  }
  return fraction(BigInt(scaled), 2n ** exponent);
}

export function add(a: Rational, b: Rational): Rational {
  if (a.denominator === b.denominator) return fraction(a.numerator + b.numerator, a.denominator);
  return fraction(a.numerator * b.denominator + b.numerator * a.denominator, a.denominator * b.denominator);
}

export function negate(a: Rational): Rational {
  return { numerator: -a.numerator, denominator: a.denominator };
}

export function subtract(a: Rational, b: Rational): Rational {
  return add(a, negate(b));
}

export function multiply(a: Rational, b: Rational): Rational {
  return fraction(a.numerator * b.numerator, a.denominator * b.denominator);
}

/** a / b; b must not be zero. */
export function divide(a: Rational, b: Rational): Rational {
  return fraction(a.numerator * b.denominator, a.denominator * b.numerator);
}

/** base to a whole power; a negative power of zero throws. */
export function power(base: Rational, exponent: number): Rational {
  if (exponent < 0) return power(divide(ONE, base), -exponent);
  return { numerator: base.numerator ** BigInt(exponent), denominator: base.denominator ** BigInt(exponent) };
}

/** 10 to a whole power, of either sign. */
export function powerOfTen(exponent: number): Rational {
  return exponent < 0
    ? { numerator: 1n, denominator: tenToThe(-exponent) }
    : { numerator: tenToThe(exponent), denominator: 1n };
}

/** Negative, zero or positive as a is below, at or above b. */
export function compare(a: Rational, b: Rational): number {
  const left = a.numerator * b.denominator;
  const right = b.numerator * a.denominator;
  return left < right ? -1 : left > right ? 1 : 0;
}

export function equals(a: Rational, b: Rational): boolean {
  return a.numerator === b.numerator && a.denominator === b.denominator;
}

export function sign(a: Rational): number {
  return a.numerator < 0n ? -1 : a.numerator > 0n ? 1 : 0;
}

export function isInteger(a: Rational): boolean {
  return a.denominator === 1n;
}

export function absolute(a: Rational): Rational {
  return a.numerator < 0n ? negate(a) : a;
}

export function minimum(a: Rational, b: Rational): Rational {
  return compare(a, b) <= 0 ? a : b;
}

export function maximum(a: Rational, b: Rational): Rational {
  return compare(a, b) >= 0 ? a : b;
}

/** The greatest whole number not above a. */
export function floor(a: Rational): Rational {
  const quotient = a.numerator / a.denominator;
  const below = a.numerator < 0n && quotient * a.denominator !== a.numerator;
  return { numerator: below ? quotient - 1n : quotient, denominator: 1n };
}

/** The least whole number not below a. */
export function ceiling(a: Rational): Rational {
  return negate(floor(negate(a)));
}

/** The nearest whole number; a half goes away from zero (ISO 80000-1:2009 Annex B, rule B, on magnitudes). */
export function round(a: Rational): Rational {
  const half = fraction(1n, 2n);
  return a.numerator < 0n ? negate(floor(add(negate(a), half))) : floor(add(a, half));
}

/** The nearest double; ±Infinity past the largest one. */
export function toDouble(a: Rational): number {
  const { numerator, denominator } = a;
  if (numerator === 0n) return 0;
  const negative = numerator < 0n;
  const magnitude = negative ? -numerator : numerator;
  if (magnitude <= SAFE && denominator <= SAFE) {
    const quotient = Number(magnitude) / Number(denominator);
    return negative ? -quotient : quotient;
  }
  // 55 significant bits of the quotient and a sticky bit let Number() round once, to nearest even.
  const shift = 56 - (bitLength(magnitude) - bitLength(denominator));
  const scaled = shift >= 0 ? magnitude << BigInt(shift) : magnitude;
  const divisor = shift >= 0 ? denominator : denominator << BigInt(-shift);
  const quotient = scaled / divisor;
  const sticky = quotient * divisor === scaled ? 0n : 1n;
  const value = scaleByPowerOfTwo(Number((quotient << 1n) | sticky), -shift - 1);
  return negative ? -value : value;
}

/** A decimal expansion when it ends within `digits` places, else null: `0.125`, `-3`. */
export function toExactDecimal(a: Rational, digits: number): string | null {
  if (isInteger(a)) return a.numerator.toString();
  const scaled = a.numerator * tenToThe(digits);
  if (scaled % a.denominator !== 0n) return null;
  const text = decimalText(scaled / a.denominator, digits);
  return text.includes('.') ? text.replace(/\.?0+$/, '') : text;
}

/** `units × 10^-places` written out with exactly `places` decimals. */
export function decimalText(units: bigint, places: number): string {
  const negative = units < 0n;
  const digits = (negative ? -units : units).toString().padStart(places + 1, '0');
  const whole = digits.slice(0, digits.length - places);
  const text = places === 0 ? whole : `${whole}.${digits.slice(digits.length - places)}`;
  return negative ? `-${text}` : text;
}

/** A number of about so many significant digits beside a, rounded by `round` (floor: not above it). */
export function roundedTo(a: Rational, digits: number, round: (value: Rational) => Rational): Rational {
  const magnitude = Math.ceil((bitLength(absolute(a).numerator) - bitLength(a.denominator)) * 0.30103);
  const scale = powerOfTen(digits - magnitude);
  return divide(round(multiply(a, scale)), scale);
}

/** Whether the numerator or the denominator has more decimal digits than so many. */
export function isLongerThan(a: Rational, digits: number): boolean {
  const limit = tenToThe(digits);
  return a.denominator >= limit || a.numerator >= limit || a.numerator <= -limit;
}

const SAFE = BigInt(Number.MAX_SAFE_INTEGER);
const TEN_TO_THE = Array.from({ length: MAXIMUM_DECIMAL_EXPONENT + 1 }, (_, exponent) => 10n ** BigInt(exponent));
const FURTHER_POWERS = new Map<number, bigint>();

function tenToThe(exponent: number): bigint {
  const known = TEN_TO_THE[exponent] ?? FURTHER_POWERS.get(exponent);
  if (known !== undefined) return known;
  const power = 10n ** BigInt(exponent);
  FURTHER_POWERS.set(exponent, power);
  return power;
}

function scaleByPowerOfTwo(value: number, exponent: number): number {
  // Two steps, so that a subnormal result is not rounded twice by an intermediate underflow to zero.
  if (exponent < -1000) return value * 2 ** -1000 * 2 ** Math.max(exponent + 1000, -1074);
  if (exponent > 1000) return value * 2 ** 1000 * 2 ** (exponent - 1000);
  return value * 2 ** exponent;
}

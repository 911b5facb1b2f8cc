/** sqrt, logarithms and exp with bounds rounded outward: the only figures of the product that are not exact. */
import type { Interval } from './interval';
import type { Rational } from './rational';
import * as rational from './rational';

/**
 * Encloses the value of the function at one number; null outside its domain. A square root that is rational comes
 * back exact. Doubles are widened by four units in the last place: Math.log and its kin are within one of the true
 * value on all engines in use, and the argument's own rounding costs at most a few more.
 */
export function encloseFunction(name: 'sqrt' | 'log10' | 'ln' | 'exp', at: Rational): Interval | null {
  if (name === 'sqrt') return encloseRoot(at);
  if (name === 'exp') return encloseExponential(at);
  if (rational.sign(at) <= 0) return null;
  return encloseLogarithm(name, at);
}

function encloseRoot(at: Rational): Interval | null {
  if (rational.sign(at) < 0) return null;
  // √(n/d) = √(n·d)/d; scaled by 2^128 the whole root leaves far less than a double's rounding.
  const product = at.numerator * at.denominator;
  const exact = integerRoot(product);
  if (exact * exact === product) {
    const root = rational.fraction(exact, at.denominator);
    return { low: root, high: root };
  }
  const root = integerRoot(product << 128n);
  const denominator = at.denominator << 64n;
  return { low: rational.fraction(root, denominator), high: rational.fraction(root + 1n, denominator) };
}

/** The greatest whole number whose square is not above n (Newton's iteration). */
function integerRoot(n: bigint): bigint {
  if (n < 2n) return n;
  let guess = 1n << BigInt((n.toString(2).length + 1) >> 1);
  for (;;) {
    const next = (guess + n / guess) >> 1n;
    if (next >= guess) return guess;
    guess = next;
  }
}

function encloseLogarithm(name: 'log10' | 'ln', at: Rational): Interval {
  if (rational.equals(at, rational.ONE)) return { low: rational.ZERO, high: rational.ZERO };
  const exactPower = name === 'log10' ? wholeLogarithm(at) : null;
  if (exactPower !== null) return { low: rational.integer(exactPower), high: rational.integer(exactPower) };
  // ln(n/d) = ln n − ln d keeps the argument's own rounding small however large n and d are.
  const value = logarithm(at.numerator) - logarithm(at.denominator);
  const scale = Math.abs(logarithm(at.numerator)) + Math.abs(logarithm(at.denominator));
  return widened(name === 'ln' ? value : value / Math.LN10, scale);
}

function wholeLogarithm(at: Rational): number | null {
  const digits = at.numerator.toString().length - 1;
  if (at.denominator === 1n && at.numerator === 10n ** BigInt(digits)) return digits;
  const below = at.denominator.toString().length - 1;
  return at.numerator === 1n && at.denominator === 10n ** BigInt(below) ? -below : null;
}

function logarithm(value: bigint): number {
  const excess = value.toString(2).length - 64;
  return excess <= 0 ? Math.log(Number(value)) : Math.log(Number(value >> BigInt(excess))) + excess * Math.LN2;
}

function encloseExponential(at: Rational): Interval | null {
  if (rational.sign(at) === 0) return { low: rational.ONE, high: rational.ONE };
  const argument = rational.toDouble(at);
  const value = Math.exp(argument);
  // Past 10^99 no figure of a design is meant, and an infinite double has no rational.
  if (!(value < 1e99)) return null;
  const bounds = widened(value, Math.abs(value) * (1 + Math.abs(argument)));
  return { low: rational.maximum(bounds.low as Rational, rational.ZERO), high: bounds.high };
}

function widened(value: number, scale: number): Interval {
  const slack = Math.max(scale, Math.abs(value)) * 8 * Number.EPSILON + Number.MIN_VALUE;
  return { low: rational.fromDouble(value - slack), high: rational.fromDouble(value + slack) };
}

/** Bounds of sqrt, logarithms and exp: they hold the value to many digits, and are no wider than a double needs. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import * as interval from '../../server/quantity/interval';
import type { Rational } from '../../server/quantity/rational';
import * as rational from '../../server/quantity/rational';
import { encloseFunction } from '../../server/quantity/transcendental';

function number(text: string): Rational {
  const [numerator = '', denominator = '1'] = text.split('/');
  const [digits = '', exponent = '0'] = numerator.split('e');
  const [whole = '', decimals = ''] = digits.split('.');
  const ten = (power: number) => 10n ** BigInt(power);
  const shift = Number(exponent) - decimals.length;
  const value = BigInt(whole + decimals);
  const scaled = shift >= 0 ? rational.integer(value * ten(shift)) : rational.fraction(value, ten(-shift));
  return rational.divide(scaled, rational.integer(BigInt(denominator)));
}

function enclosed(name: 'sqrt' | 'log10' | 'ln' | 'exp', at: Rational): interval.Interval {
  const found = encloseFunction(name, at);
  if (found === null) throw new Error('no value');
  return found;
}

/** Digits of mathematical constants, from memory (OEIS A002193, A002163, A002392, A002162, A007524, A001113, A068985). */
describe('values known to forty digits', () => {
  test.each([
    ['sqrt', '2', '1.4142135623730950488016887242096980785696'],
    ['sqrt', '5', '2.2360679774997896964091736687312762354406'],
    ['sqrt', '0.02', '0.14142135623730950488016887242096980785696'],
    ['ln', '10', '2.3025850929940456840179914546843642076011'],
    ['ln', '2', '0.6931471805599453094172321214581765680755'],
    ['ln', '0.5', '-0.6931471805599453094172321214581765680755'],
    ['log10', '2', '0.3010299956639811952137388947244930267681'],
    ['log10', '0.5', '-0.3010299956639811952137388947244930267681'],
    ['exp', '1', '2.7182818284590452353602874713526624977572'],
    ['exp', '-1', '0.3678794411714423215955237701614608674458'],
    ['ln', '1e90', '207.2326583694641115616192309215927786840990'],
    ['log10', '2e90', '90.3010299956639811952137388947244930267681'],
  ] as const)('%s of %s', (name, at, digits) => {
    const { low, high } = enclosed(name, number(at)) as { low: Rational; high: Rational };
    // The last digit of the constant is rounded or cut: one more and one less still lie inside.
    const step = number('1e-38');
    for (const value of [rational.subtract(number(digits), step), rational.add(number(digits), step)])
      expect(interval.contains({ low, high }, value)).toBe(true);
    const width = rational.toDouble(rational.subtract(high, low));
    expect(width / Math.abs(Number(digits))).toBeLessThan(1e-13);
  });
});

describe('values that are rational come back exact', () => {
  test.each([
    ['sqrt', '4', '2'],
    ['sqrt', '9/16', '3/4'],
    ['sqrt', '0', '0'],
    ['sqrt', '0.0001', '0.01'],
    ['sqrt', '152415787532388367501905199875019052100', '12345678901234567890'],
    ['log10', '1000', '3'],
    ['log10', '0.001', '-3'],
    ['log10', '1', '0'],
    ['ln', '1', '0'],
    ['exp', '0', '1'],
  ] as const)('%s of %s is %s', (name, at, expected) => {
    expect(enclosed(name, number(at))).toEqual(interval.point(number(expected)));
  });
});

describe('outside the domain there is no value', () => {
  test.each([
    ['sqrt', '-1'],
    ['ln', '0'],
    ['ln', '-1'],
    ['log10', '0'],
    ['exp', '1000'],
  ] as const)('%s of %s', (name, at) => {
    expect(encloseFunction(name, number(at))).toBeNull();
  });

  test('far below 0, exp is above 0 and next to it', () => {
    const { low, high } = enclosed('exp', number('-1000'));
    expect(low).toEqual(rational.ZERO);
    expect(rational.sign(high as Rational)).toBe(1);
  });
});

const positive: fc.Arbitrary<Rational> = fc
  .tuple(fc.bigInt({ min: 1n, max: 10n ** 30n }), fc.bigInt({ min: 1n, max: 10n ** 30n }))
  .map(([numerator, denominator]) => rational.fraction(numerator, denominator));

test('the square of the bounds of a root holds the number', () => {
  fc.assert(
    fc.property(positive, (at) => {
      const { low, high } = enclosed('sqrt', at) as { low: Rational; high: Rational };
      expect(rational.compare(rational.multiply(low, low), at)).toBeLessThanOrEqual(0);
      expect(rational.compare(at, rational.multiply(high, high))).toBeLessThanOrEqual(0);
    }),
  );
});

test('the bounds of a function that rises rise, and hold what the platform computes', () => {
  fc.assert(
    fc.property(positive, positive, fc.constantFrom('sqrt' as const, 'ln' as const, 'log10' as const), (a, b, name) => {
      const [less, more] = rational.compare(a, b) <= 0 ? [a, b] : [b, a];
      const [below, above] = [enclosed(name, less), enclosed(name, more)];
      expect(rational.compare(below.low as Rational, above.high as Rational)).toBeLessThanOrEqual(0);
      const { sqrt, log, log10 } = Math;
      const platform = { sqrt, ln: log, log10 }[name](rational.toDouble(less));
      const slack = Math.abs(platform) * 1e-12 + 1e-12;
      const widened = {
        low: rational.subtract(below.low as Rational, rational.fromDouble(slack)),
        high: rational.add(below.high as Rational, rational.fromDouble(slack)),
      };
      expect(interval.contains(widened, rational.fromDouble(platform))).toBe(true);
    }),
  );
});

test('exp holds the product of its values: exp(a + b) = exp(a) × exp(b)', () => {
  const exponent = fc.integer({ min: -4000, max: 4000 }).map((value) => rational.fraction(BigInt(value), 97n));
  fc.assert(
    fc.property(exponent, exponent, (a, b) => {
      const product = interval.multiply(enclosed('exp', a), enclosed('exp', b));
      expect(interval.intersect(product, enclosed('exp', rational.add(a, b)))).not.toBeNull();
    }),
  );
});

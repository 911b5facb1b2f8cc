/** Exact arithmetic against a general-purpose library of fractions, and its own laws. */
import fc from 'fast-check';
import Fraction from 'fraction.js';
import { describe, expect, test } from 'vitest';
import type { Rational } from '../../server/quantity/rational';
import * as rational from '../../server/quantity/rational';

const any = fc
  .tuple(fc.bigInt({ min: -(10n ** 15n), max: 10n ** 15n }), fc.bigInt({ min: 1n, max: 10n ** 12n }))
  .map(([numerator, denominator]) => rational.fraction(numerator, denominator));
const nonZero = any.filter((value) => rational.sign(value) !== 0);

function oracle(value: Rational): Fraction {
  return new Fraction(value.numerator, value.denominator);
}

function expectEqual(value: Rational, expected: Fraction): void {
  expect([value.numerator, value.denominator]).toEqual([expected.s * expected.n, expected.d]);
}

describe('against an oracle', () => {
  test.each([
    ['add', rational.add, 'add'],
    ['subtract', rational.subtract, 'sub'],
    ['multiply', rational.multiply, 'mul'],
    ['divide', rational.divide, 'div'],
  ] as const)('%s', (_name, operation, method) => {
    fc.assert(fc.property(any, nonZero, (a, b) => expectEqual(operation(a, b), oracle(a)[method](oracle(b)))));
  });

  test('floor, ceiling and order', () => {
    fc.assert(
      fc.property(any, any, (a, b) => {
        expectEqual(rational.floor(a), oracle(a).floor());
        expectEqual(rational.ceiling(a), oracle(a).ceil());
        expect(Math.sign(rational.compare(a, b))).toBe(Math.sign(oracle(a).compare(oracle(b))));
      }),
    );
  });

  test('whole powers', () => {
    fc.assert(
      fc.property(nonZero, fc.integer({ min: -6, max: 6 }), (base, exponent) => {
        const power = oracle(base).pow(exponent);
        if (power) expectEqual(rational.power(base, exponent), power);
      }),
    );
  });
});

describe('decimals', () => {
  test.each([
    ['12', 12n, 1n],
    ['-0.5', -1n, 2n],
    ['.5', 1n, 2n],
    ['5.', 5n, 1n],
    ['1e-3', 1n, 1000n],
    ['1E+3', 1000n, 1n],
    ['0.10', 1n, 10n],
    ['000', 0n, 1n],
  ])('%s', (text, numerator, denominator) => {
    expect(rational.fromDecimal(text)).toEqual({ numerator, denominator });
  });

  test.each(['', '.', 'e3', '1e', '0x10', '1_000', '1e100', '1e-100', '1e99999999999', 'NaN', ' 1'])(
    '%j is none',
    (text) => expect(rational.fromDecimal(text)).toBeNull(),
  );

  test('written digits come back, without trailing zeros', () => {
    fc.assert(
      fc.property(
        fc.bigInt({ min: -(10n ** 12n), max: 10n ** 12n }),
        fc.integer({ min: 0, max: 12 }),
        (units, places) => {
          const text = rational.decimalText(units, places);
          const value = rational.fromDecimal(text);
          const shown = value && rational.toExactDecimal(value, places);
          expect(shown).not.toMatch(/\.\d*0$/);
          expect(shown && rational.fromDecimal(shown)).toEqual(value);
        },
      ),
    );
  });

  test('a decimal that does not end has no exact text', () => {
    expect(rational.toExactDecimal(rational.fraction(1n, 3n), 50)).toBeNull();
    expect(rational.toExactDecimal(rational.fraction(1n, 8n), 2)).toBeNull();
    expect(rational.toExactDecimal(rational.fraction(1n, 8n), 3)).toBe('0.125');
    expect(rational.toExactDecimal(rational.integer(100), 3)).toBe('100');
  });
});

describe('doubles', () => {
  test('every finite double comes back', () => {
    const finite = fc.double({ noNaN: true, noDefaultInfinity: true });
    fc.assert(fc.property(finite, (value) => rational.toDouble(rational.fromDouble(value)) === value + 0));
  });

  test('the nearest one is taken, ties to even', () => {
    // IEEE 754-2019, 4.3.1: 2^53 + 1 lies halfway between its neighbours.
    expect(rational.toDouble(rational.integer(2n ** 53n + 1n))).toBe(2 ** 53);
    expect(rational.toDouble(rational.integer(2n ** 53n + 3n))).toBe(2 ** 53 + 4);
    expect(rational.toDouble(rational.fraction(1n, 10n))).toBe(0.1);
    expect(rational.toDouble(rational.integer(10n ** 400n))).toBe(Number.POSITIVE_INFINITY);
  });

  test('a decimal is the double that the platform reads', () => {
    fc.assert(
      fc.property(fc.bigInt({ min: 0n, max: 10n ** 18n }), fc.integer({ min: -80, max: 80 }), (digits, exponent) => {
        const value = rational.fromDecimal(`${digits}e${exponent}`);
        return value === null || rational.toDouble(value) === Number(`${digits}e${exponent}`);
      }),
    );
  });
});

test('a half rounds away from zero', () => {
  // ISO 80000-1:2009, annex B, rule B (from memory): 12.25 to one digit is 12.3, 12.35 is 12.4.
  const toTenths = (value: Rational) => rational.round(rational.multiply(value, rational.integer(10)));
  expect(toTenths(rational.fraction(1225n, 100n))).toEqual(rational.integer(123));
  expect(toTenths(rational.fraction(1235n, 100n))).toEqual(rational.integer(124));
  expect(rational.round(rational.fraction(-5n, 2n))).toEqual(rational.integer(-3));
});

test('0.1 + 0.2 is 0.3, and a third of 3 is 1', () => {
  const [tenth, fifth] = [rational.fraction(1n, 10n), rational.fraction(2n, 10n)];
  expect(rational.add(tenth, fifth)).toEqual(rational.fraction(3n, 10n));
  expect(rational.multiply(rational.fraction(1n, 3n), rational.integer(3))).toEqual(rational.ONE);
});

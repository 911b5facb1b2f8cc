/** Intervals hold every result: of corners, of places inside, and with open ends; and no more than is taken where they can. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Interval } from '../../server/quantity/interval';
import * as interval from '../../server/quantity/interval';
import type { Rational } from '../../server/quantity/rational';
import * as rational from '../../server/quantity/rational';

const figure: fc.Arbitrary<Rational> = fc
  .tuple(fc.integer({ min: -60, max: 60 }), fc.integer({ min: 1, max: 12 }))
  .map(([numerator, denominator]) => rational.fraction(BigInt(numerator), BigInt(denominator)));

interface Sample {
  readonly of: Interval;
  readonly value: Rational;
}

/** An interval, its ends open now and then, and a value in it. */
const sample: fc.Arbitrary<Sample> = fc
  .tuple(fc.array(figure, { minLength: 3, maxLength: 3 }), fc.constantFrom('closed', 'closed', 'low', 'high', 'both'))
  .map(([figures, open]) => {
    const [low, value, high] = [...figures].sort(rational.compare) as [Rational, Rational, Rational];
    const of = {
      low: open === 'low' || open === 'both' ? null : low,
      high: open === 'high' || open === 'both' ? null : high,
    };
    return { of, value };
  });

const BINARY = [
  ['add', interval.add, rational.add],
  ['subtract', interval.subtract, rational.subtract],
  ['multiply', interval.multiply, rational.multiply],
  ['minimum', interval.minimum, rational.minimum],
  ['maximum', interval.maximum, rational.maximum],
] as const;

describe.each(BINARY)('%s', (_, ofIntervals, ofNumbers) => {
  test('holds the result of any two values', () => {
    fc.assert(
      fc.property(sample, sample, (a, b) => {
        expect(interval.contains(ofIntervals(a.of, b.of), ofNumbers(a.value, b.value))).toBe(true);
      }),
    );
  });

  test('has ends that two corners reach', () => {
    fc.assert(
      fc.property(sample, sample, ({ of: a }, { of: b }) => {
        if (!interval.isBounded(a) || !interval.isBounded(b)) return;
        const corners = [a.low, a.high].flatMap((left) =>
          [b.low, b.high].map((right) => ofNumbers(left as Rational, right as Rational)),
        );
        const expected = { low: corners.reduce(rational.minimum), high: corners.reduce(rational.maximum) };
        expect(ofIntervals(a, b)).toEqual(expected);
      }),
    );
  });
});

test('divide holds every quotient, and claims none where the divisor can be 0', () => {
  fc.assert(
    fc.property(sample, sample, (a, b) => {
      const quotient = interval.divide(a.of, b.of);
      expect(quotient === null).toBe(interval.contains(b.of, rational.ZERO));
      if (quotient !== null) expect(interval.contains(quotient, rational.divide(a.value, b.value))).toBe(true);
    }),
  );
});

test('power holds every power; a negative one claims nothing where the base can be 0', () => {
  fc.assert(
    fc.property(sample, fc.integer({ min: -4, max: 5 }), ({ of, value }, exponent) => {
      const power = interval.power(of, exponent);
      expect(power === null).toBe(exponent < 0 && interval.contains(of, rational.ZERO));
      if (power !== null) expect(interval.contains(power, rational.power(value, exponent))).toBe(true);
    }),
  );
});

test('absolute, negate, scale and a rising function hold every result', () => {
  fc.assert(
    fc.property(sample, figure, ({ of, value }, factor) => {
      expect(interval.contains(interval.absolute(of), rational.absolute(value))).toBe(true);
      expect(interval.contains(interval.negate(of), rational.negate(value))).toBe(true);
      expect(interval.contains(interval.scale(of, factor), rational.multiply(value, factor))).toBe(true);
      expect(interval.contains(interval.mapIncreasing(of, rational.floor), rational.floor(value))).toBe(true);
    }),
  );
});

test('the hull holds both, the intersection what both hold', () => {
  fc.assert(
    fc.property(sample, sample, figure, (a, b, value) => {
      const hull = interval.hull(a.of, b.of);
      expect([a.value, b.value].every((inside) => interval.contains(hull, inside))).toBe(true);
      const both = interval.intersect(a.of, b.of);
      const inBoth = interval.contains(a.of, value) && interval.contains(b.of, value);
      expect(both !== null && interval.contains(both, value)).toBe(inBoth);
    }),
  );
});

test('ends made shorter lie further out', () => {
  fc.assert(
    fc.property(sample, ({ of }) => {
      const third = interval.scale(of, rational.fraction(1n, 10n ** 40n + 1n));
      const coarse = interval.coarsened(third, 10);
      expect(interval.equals(interval.hull(coarse, third), coarse)).toBe(true);
    }),
  );
});

test('a point is one value, an open interval is none', () => {
  expect(interval.isPoint(interval.point(rational.ONE))).toBe(true);
  expect(interval.isPoint({ low: rational.ONE, high: rational.fraction(2n, 2n) })).toBe(true);
  expect(interval.isPoint({ low: rational.ZERO, high: rational.ONE })).toBe(false);
  expect(interval.isPoint(interval.ENTIRE)).toBe(false);
  expect(interval.isBounded({ low: rational.ONE, high: null })).toBe(false);
});

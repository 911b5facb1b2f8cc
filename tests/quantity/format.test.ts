/** Figures for people never look better than they are. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { differenceUnit, fromBase, toBase } from '../../server/quantity/conversion';
import {
  distinguish,
  formatIn,
  formatInward,
  formatNumber,
  formatOutward,
  formatValue,
} from '../../server/quantity/format';
import { compare, fraction, fromDecimal, integer, type Rational, sign, subtract } from '../../server/quantity/rational';
import type { Unit } from '../../server/quantity/unit';
import { createUnitTable } from '../../server/quantity/unit-table';
import { readValue } from '../../server/syntax/quantity-literal';

const units = createUnitTable();
const W = unit('W');

function unit(word: string): Unit {
  const found = units.word(word);
  if (!found) throw new Error(`${word} is no unit`);
  return found;
}

function number(text: string): Rational {
  const value = fromDecimal(text);
  if (!value) throw new Error(`${text} is no number`);
  return value;
}

/** What a shown figure says, in base units. */
function readBack(text: string): Rational {
  const read = readValue(text, units);
  if (read.type !== 'quantity' || !read.value.typical) throw new Error(`${text} does not read back`);
  return read.value.typical;
}

const anyRational = fc
  .tuple(
    fc.bigInt({ min: -(10n ** 12n), max: 10n ** 12n }),
    fc.bigInt({ min: 1n, max: 10n ** 9n }),
    fc.integer({ min: -15, max: 15 }),
  )
  .map(([numerator, denominator, power]) =>
    power < 0
      ? fraction(numerator, denominator * 10n ** BigInt(-power))
      : fraction(numerator * 10n ** BigInt(power), denominator),
  );

describe('numbers', () => {
  test.each([
    ['45', '45', '45'],
    ['0.3', '0.3', '0.3'],
    ['0', '0', '0'],
    ['60.04', '60.04', '60.04'],
    ['23.1372541', '23.13', '23.14'],
    ['-23.1372541', '-23.14', '-23.13'],
    ['0.99999999', '0.9999', '1'],
    ['59.99999999', '59.99', '60'],
    ['123456.7891', '123456', '123457'],
    ['1488095', '1488095', '1488095'],
    ['14880952.38', '14880952', '14880953'],
    ['0.0001', '0.0001', '0.0001'],
    ['0.00001234567', '1.234×10^-5', '1.235×10^-5'],
    ['9.999999999e12', '9.999×10^12', '1×10^13'],
    ['1e10', '1×10^10', '1×10^10'],
  ])('%s is %s or %s', (text, down, up) => {
    expect(formatNumber(number(text), 'down')).toBe(down);
    expect(formatNumber(number(text), 'up')).toBe(up);
  });

  test('as many digits as are asked for', () => {
    expect(formatNumber(number('23.137'), 'up', 4)).toBe('23.14');
    expect(formatNumber(number('23.137'), 'up')).toBe('23.137');
    expect(formatNumber(fraction(1n, 3n), 'down', 7)).toBe('0.3333333');
    expect(formatNumber(fraction(2n, 3n), 'nearest', 2)).toBe('0.67');
  });

  test('rounding goes to the side asked for, by less than one step, and reads back', () => {
    fc.assert(
      fc.property(anyRational, fc.integer({ min: 1, max: 9 }), (value, digits) => {
        const down = readBack(formatNumber(value, 'down', digits));
        const up = readBack(formatNumber(value, 'up', digits));
        const width = Number(subtract(up, down).numerator) / Number(subtract(up, down).denominator);
        const size = Math.abs(Number(value.numerator) / Number(value.denominator));
        return compare(down, value) <= 0 && compare(value, up) <= 0 && width <= size * 10 ** (1 - digits) * 1.0001;
      }),
    );
  });
});

describe('quantities', () => {
  test.each([
    ['3.3', 'V', '3.3 V'],
    ['0.02', 'mA', '20 mA'],
    ['0.8', '%', '80 %'],
    ['358.15', '°C', '85 °C'],
    ['25', 'EUR', '25 EUR'],
    ['90', 'degrees', '90 °'],
  ])('%s in %s', (base, word, text) => expect(formatIn(number(base), unit(word), 'nearest')).toBe(text));

  test('a difference of points is shown in their difference unit', () => {
    const options = { difference: true };
    expect(formatIn(number('5.5'), unit('°C'), 'down', options)).toBe('5.5 K');
    expect(formatIn(number('3'), unit('dBm'), 'down', options)).toBe('3 dB');
    expect(formatIn(number('172800'), dateUnit(), 'down', options)).toBe('2 d');
    expect(formatIn(number('5.5'), unit('V'), 'down', options)).toBe('5.5 V');
    expect(differenceUnit(unit('°F')).symbol).toBe('K');
  });

  test('dates are written as ISO 8601, to the side asked for', () => {
    const noon = number('1790942400');
    expect(formatIn(noon, dateUnit(), 'down')).toBe('2026-10-02');
    expect(formatIn(noon, dateUnit(), 'up')).toBe('2026-10-03');
  });

  test('intervals are rounded outward, permissions inward', () => {
    const interval = { low: number('3.31133333'), high: number('3.35588888') };
    expect(formatOutward(interval, unit('V'))).toBe('3.311 V to 3.356 V');
    expect(formatInward(interval, unit('V'))).toBe('3.312 V to 3.355 V');
    expect(formatOutward({ low: number('36'), high: null }, unit('V'))).toBe('36 V or more');
    expect(formatOutward({ low: null, high: number('57') }, unit('V'))).toBe('57 V or less');
    expect(formatOutward({ low: null, high: null }, unit('V'))).toBe('any value');
    expect(formatOutward({ low: number('5'), high: number('5') }, unit('V'))).toBe('5 V');
    expect(formatOutward({ low: number('24998750'), high: number('25001250') }, unit('MHz'))).toBe(
      '24.99875 MHz to 25.00125 MHz',
    );
  });

  test('what is shown of an interval encloses it outward, and lies in it inward', () => {
    fc.assert(
      fc.property(anyRational, anyRational, (a, b) => {
        const [low, high] = compare(a, b) <= 0 ? [a, b] : [b, a];
        if (compare(low, high) === 0) return;
        const shown = (text: string) => text.split(' to ').map(readBack);
        const [outLow = low, outHigh = high] = shown(formatOutward({ low, high }, W));
        const [inLow = low, inHigh = high] = shown(formatInward({ low, high }, W));
        expect(compare(outLow, low) <= 0 && compare(high, outHigh) <= 0).toBe(true);
        expect(compare(low, inLow) <= 0 && compare(inLow, inHigh) <= 0 && compare(inHigh, high) <= 0).toBe(true);
      }),
    );
  });
});

describe('a value beside its limit', () => {
  test.each([
    ['60.04', '60', '<=', '60.04 W', '60 W'],
    ['60.041234', '60', '<=', '60.05 W', '60 W'],
    ['60.0000412345', '60', '<=', '60.00005 W', '60 W'],
    ['59.99999', '60', '<', '59.99999 W', '60 W'],
    ['60', '60', '<', '60 W', '60 W'],
    ['64.2', '60', '<=', '64.2 W', '60 W'],
    ['36.125', '36.1251', '>=', '36.125 W', '36.1251 W'],
  ])('%s of %s with %s', (value, limit, relation, shown, shownLimit) => {
    expect(distinguish(number(value), number(limit), W, relation)).toEqual({ value: shown, limit: shownLimit });
  });

  test('what is shown stands in the same order as what is meant', () => {
    const near = fc.tuple(anyRational, fc.bigInt({ min: -5n, max: 5n }), fc.integer({ min: 0, max: 40 }));
    fc.assert(
      fc.property(near, fc.constantFrom('<=', '<', '>=', '>', '='), ([limit, step, power], relation) => {
        const gap = fraction(step, 10n ** BigInt(power));
        const value = subtract(limit, gap);
        const shown = distinguish(value, limit, W, relation);
        return Math.sign(compare(readBack(shown.value), readBack(shown.limit))) === -sign(gap);
      }),
    );
  });
});

describe('a value in its author’s form', () => {
  test.each([
    ['5 V ± 5 %', '5 V ± 5 %'],
    ['5 V +/- 0.1 V', '5 V ± 0.1 V'],
    ['12 V +5 % / -10 %', '12 V +5 % / -10 %'],
    ['25 °C ± 5 °C', '25 °C ± 5 °C'],
    ['25 MHz ± 50 ppm', '25 MHz ± 50 ppm'],
    ['36 to 57 V', '36 V to 57 V'],
    ['€ 25', '25 €'],
    ['1 min 30 s', '90 s'],
    ['2026-10-02', '2026-10-02'],
    ['1,200', '1200'],
    ['1e-9 F', '1×10^-9 F'],
    ['1/3 in', '1/3 in'],
    ['10 μA', '10 µA'],
    ['85 ℃', '85 °C'],
  ])('%s is written %s', (text, written) => {
    const read = readValue(text, units);
    expect(read.type === 'quantity' && formatValue(read.value)).toBe(written);
  });

  test('a mapping is written as one, with the ends it has', () => {
    const ends = { type: 'quantity', spread: 'tolerance', unit: unit('A'), form: { type: 'mapping' } } as const;
    expect(formatValue({ ...ends, low: null, typical: number('0.75'), high: number('1.1') })).toBe(
      '{typ: 0.75 A, max: 1.1 A}',
    );
    expect(formatValue({ ...ends, low: integer(1), typical: null, high: null })).toBe('{min: 1 A}');
  });
});

test('base units and back', () => {
  fc.assert(
    fc.property(
      anyRational,
      fc.constantFrom('V', '°C', '°F', 'in', 'GiB', '%', 'dBW'),
      (value, word) => compare(fromBase(toBase(value, unit(word)), unit(word)), value) === 0,
    ),
  );
});

function dateUnit(): Unit {
  const read = readValue('2026-10-02', units);
  if (read.type !== 'quantity') throw new Error('a date reads');
  return read.value.unit;
}

/** Units, conversions and tolerances against published values; each row names its source. */
import { describe, expect, test } from 'vitest';
import { CURRENCY_CODES } from '../../grammar/currencies';
import { fromBase } from '../../server/quantity/conversion';
import {
  divide as divideDimensions,
  isComparable,
  multiply as multiplyDimensions,
} from '../../server/quantity/dimension';
import {
  add,
  compare,
  divide,
  equals,
  fromDecimal,
  integer,
  multiply,
  ONE,
  type Rational,
  toDouble,
} from '../../server/quantity/rational';
import type { Unit } from '../../server/quantity/unit';
import { createUnitTable } from '../../server/quantity/unit-table';
import type { QuantityValue } from '../../server/quantity/value';
import { readValue } from '../../server/syntax/quantity-literal';
import { CONSTANTS, CONVERSIONS, EQUAL, INCOMPARABLE, TEMPERATURES, TOLERANCES } from './units.fixture';

const units = createUnitTable();

function unit(text: string): Unit {
  const scanned = units.scan(text, 0);
  if (scanned?.end !== text.length) throw new Error(`${text} is no unit`);
  return scanned.unit;
}

function value(text: string): QuantityValue {
  const read = readValue(text, units);
  if (read.type !== 'quantity') throw new Error(`${text} is no quantity`);
  return read.value;
}

function typical(text: string): Rational {
  return value(text).typical ?? integer(0);
}

/** `0.3048` or `20265/152`. */
function number(text: string): Rational {
  const [numerator, denominator = ONE] = text.split('/').map(fromDecimal);
  if (!numerator || !denominator) throw new Error(`${text} is no number`);
  return divide(numerator, denominator);
}

/** Seventeen digits of a decimal are a rounded one; every shorter decimal, and every fraction, is meant exactly. */
function expectPrinted(actual: Rational, printed: string): void {
  const expected = number(printed);
  const isRounded = !printed.includes('/') && printed.replace(/^0\.0*|\D/g, '').length >= 16;
  if (isRounded) expect(Math.abs(toDouble(divide(actual, expected)) - 1)).toBeLessThan(1e-15);
  else expect(actual).toEqual(expected);
}

describe.each(CONVERSIONS)('$source', ({ rows }) => {
  test.each(rows)('1 %s is %s %s', (from, factor, to) => {
    expect(unit(from).dimension).toBe(unit(to).dimension);
    expectPrinted(divide(unit(from).factor, unit(to).factor), factor);
  });
});

describe('temperatures', () => {
  test.each(TEMPERATURES)('%s is %s °C', (from, celsius) => {
    expect(fromBase(typical(from), unit('°C'))).toEqual(number(celsius));
  });
});

describe('tolerances', () => {
  test.each(TOLERANCES)('%s is %s to %s %s (%s)', (text, low, high, word) => {
    const read = value(text);
    expect(read.low && fromBase(read.low, unit(word))).toEqual(number(low));
    expect(read.high && fromBase(read.high, unit(word))).toEqual(number(high));
  });
});

describe('dimensions', () => {
  test.each(INCOMPARABLE)('%s and %s do not compare', (a, b) => {
    expect(isComparable(value(a).unit.dimension, value(b).unit.dimension)).toBe(false);
  });

  test.each(EQUAL)('%s is %s (%s)', (a, b) => {
    expect(isComparable(value(a).unit.dimension, value(b).unit.dimension)).toBe(true);
    expect(equals(typical(a), typical(b))).toBe(true);
  });

  test.each(CONSTANTS)('%s is read exactly', (text) => {
    const [digits = '', ...rest] = text.split(' ');
    expect(fromBase(typical(text), unit(rest.join(' ')))).toEqual(number(digits));
  });

  test.each([
    // SI Brochure, 9th ed., table 4: products and quotients of derived units.
    ['5 V', '*', '12 A', '60 W'],
    ['10 W', '*', '10 s', '100 J'],
    ['5 V', '/', '20 mA', '250 Ω'],
    ['1 C', '/', '1 V', '1 F'],
    ['156.25 MHz', '*', '64 bit', '10 Gbit/s'],
    ['65 K', '/', '26 W', '2.5 K/W'],
    ['65 K', '/', '26 W', '2.5 °C/W'],
    // IEC 80000-13: bytes and bits are not the same.
    ['100 MB', '/', '100 Mb/s', '8 s'],
    // JEDEC JESD79-3, -4, -5, from memory: transfers times the width of the bus.
    ['3200 MT/s', '*', '8 B/transfer', '25600 MB/s'],
    ['4800 MT/s', '*', '8 B/transfer', '38400 MB/s'],
    // TIA-232 framing, from memory: ten symbols a byte.
    ['115200 Bd', '*', '0.1 B/symbol', '11520 B/s'],
    // RFC 5180, appendix A.1: 64-byte frames with 20 bytes of overhead at 1 Gbit/s.
    ['1488095 frames/s', '*', '84 B/frame', '999999840 bit/s'],
    // PCI Express Base Specification 3.0, from memory: 128 bits carried by 130.
    ['8 GT/s', '*', '0.125 B/transfer', '1 GB/s'],
  ])('%s %s %s is %s', (a, operator, b, expected) => {
    const [left, right, result] = [value(a), value(b), value(expected)];
    const dimension = operator === '*' ? multiplyDimensions : divideDimensions;
    const number = operator === '*' ? multiply : divide;
    expect(isComparable(dimension(left.unit.dimension, right.unit.dimension), result.unit.dimension)).toBe(true);
    expect(number(typical(a), typical(b))).toEqual(typical(expected));
  });

  test('a diskette of 2 × 80 × 18 × 512 B is neither 1.44 MB nor 1.44 MiB', () => {
    const size = typical('1474560 B');
    expect(fromBase(size, unit('MB'))).toEqual(number('1.47456'));
    expect(fromBase(size, unit('MiB'))).toEqual(number('1.40625'));
    expect(compare(size, typical('1440 KiB'))).toBe(0);
  });
});

test('20 °C is a place: its double is no temperature, and a step of 5 K from it is 25 °C', () => {
  expect(fromBase(add(typical('20 °C'), typical('5 K')), unit('°C'))).toEqual(integer(25));
});

test('ISO 4217 codes are known, and each is a unit of its own', () => {
  expect(new Set(CURRENCY_CODES).size).toBe(CURRENCY_CODES.length);
  for (const code of ['EUR', 'USD', 'GBP', 'JPY', 'CHF', 'KWD', 'CLF', 'SEK', 'PLN', 'CNY', 'INR']) {
    expect(unit(code).dimension.key).toBe(`money:${code}^1|`);
  }
});

/** Words as units: every prefix, every collision, own units, what is refused. */
import { describe, expect, test } from 'vitest';
import { AMBIGUOUS_UNITS } from '../../grammar/ambiguous-units';
import { CURRENCY_CODES } from '../../grammar/currencies';
import { BINARY_PREFIXES, DECIMAL_PREFIXES } from '../../grammar/prefixes';
import { UNIT_GROUPS } from '../../grammar/units';
import { dimension, isComparable } from '../../server/quantity/dimension';
import { equals, fraction, fromDecimal, integer, ONE, power, type Rational } from '../../server/quantity/rational';
import type { Unit } from '../../server/quantity/unit';
import { createUnitTable, type OwnUnit } from '../../server/quantity/unit-table';

const units = createUnitTable();

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

function expectSame(a: Unit, b: Unit): void {
  expect(a.dimension).toBe(b.dimension);
  expect(a.factor).toEqual(b.factor);
}

describe('prefixes', () => {
  test('there are the 24 decimal prefixes of the SI, with its factors', () => {
    // BIPM SI Brochure, 9th ed. (version 3.01, 2024), table 7, from memory.
    const table = 'Q30 R27 Y24 Z21 E18 P15 T12 G9 M6 k3 h2 da1 d-1 c-2 m-3 µ-6 n-9 p-12 f-15 a-18 z-21 y-24 r-27 q-30';
    const rows = table.split(' ').map((row) => /^(\D+?)(-?\d+)$/.exec(row)?.slice(1) ?? []);
    expect(rows).toHaveLength(24);
    for (const [symbol, exponent] of rows) {
      expect(unit(`${symbol}V`).factor, symbol).toEqual(power(integer(10), Number(exponent)));
    }
  });

  test('names and symbols of prefixes agree', () => {
    for (const [symbols, name] of DECIMAL_PREFIXES) {
      for (const symbol of symbols) expectSame(unit(`${symbol}V`), unit(`${name}volts`));
    }
    for (const [[symbol], name] of BINARY_PREFIXES) expectSame(unit(`${symbol}B`), unit(`${name}bytes`));
  });

  test.each([
    // IEC 80000-13:2008, clause 4.
    ['Ki', 1024n],
    ['Mi', 1048576n],
    ['Gi', 1073741824n],
    ['Ti', 1099511627776n],
  ])('%sB is that many bytes', (prefix, bytes) => {
    expect(unit(`${prefix}B`).factor).toEqual(integer(8n * bytes));
    expect(unit(`${prefix}bit`).factor).toEqual(integer(bytes));
  });

  test.each(['mB', 'mbit', 'µB', 'KiV', 'kmin', 'kh', 'kft', 'k%', 'k°C', 'kkm', 'mkg', 'MKiB', 'kilokilometre'])(
    '%s is no unit',
    (word) => expect(units.word(word)).toBeNull(),
  );
});

describe('collisions: the exact symbol beats prefix and symbol', () => {
  test.each([
    ['min', '60', 's', 'a minute and no milli-inch'],
    ['cd', '1', 'candela', 'candela and no centiday'],
    ['dB', '1', 'decibel', 'decibel and no decibyte'],
    ['Pa', '1', 'pascal', 'pascal and no peta-year'],
    ['ha', '10000', 'm2', 'hectare and no hecto-year'],
    ['ft', '0.3048', 'm', 'foot and no femtotonne'],
    ['mil', '0.0000254', 'm', 'a thousandth of an inch'],
    ['mol', '1', 'mole', 'mole'],
    ['T', '1', 'tesla', 'tesla alone'],
    ['MT', '1000000', 'tesla', 'megatesla alone'],
    ['h', '3600', 's', 'hour'],
    ['d', '86400', 's', 'day'],
    ['Gs', '0.0001', 'tesla', 'gauss and no gigasecond'],
    ['nm', '1e-9', 'm', 'nanometre and no nautical mile'],
    ['Nm', '1', 'J', 'newton metre'],
    ['mNm', '0.001', 'J', 'millinewton metre'],
    ['pH', '1e-12', 'henry', 'picohenry'],
    ['PA', '1e15', 'A', 'peta-ampere'],
    ['dam', '10', 'm', 'decametre'],
    ['ms', '0.001', 's', 'millisecond'],
    ['mS', '0.001', 'siemens', 'millisiemens'],
    ['MW', '1e6', 'W', 'megawatt'],
    ['mW', '0.001', 'W', 'milliwatt'],
    ['mm', '0.001', 'm', 'millimetre'],
    ['mph', '0.44704', 'm_s', 'miles an hour'],
    ['rad', '57.29577951308232087679815481410517033241', '°', 'radian and no ronto-anything'],
    ['Torr', '133.3223684210526315789', null, 'torr'],
    ['K', '1', 'kelvin', 'kelvin'],
  ])('%s', (word, factor, other, _meaning) => {
    if (other === null) return expect(unit(word).factor).toEqual(fraction(20265n, 152n));
    expect(unit(word).factor).toEqual(number(factor));
    const dimensionOf = other === 'm_s' ? dimension({ length: 1, time: -1 }) : unit(other).dimension;
    expect(unit(word).dimension).toBe(dimensionOf);
  });

  test('no spelling is given twice, and every one reads as its own unit', () => {
    const spellings = UNIT_GROUPS.flatMap(({ units: rows }) =>
      rows.flatMap(([symbols, , , names]) => [...new Set(`${symbols}, ${names}`.split(', ').filter(Boolean))]),
    );
    expect(new Set(spellings).size).toBe(spellings.length);
    for (const spelling of spellings) expect(units.word(spelling), spelling).not.toBeNull();
  });

  test('a prefix and a symbol never spell another unit, but for those that are known', () => {
    const seen = new Map<string, string>();
    const clashes = new Set<string>();
    for (const [spelling, parts] of prefixedSymbols()) {
      if (seen.has(spelling)) clashes.add(spelling);
      seen.set(spelling, parts);
      if (exactSymbols().has(spelling) || CURRENCY_CODES.includes(spelling)) clashes.add(spelling);
    }
    expect([...clashes]).toEqual(['Gs']);
  });

  test('a prefixed symbol that the trade reads in two ways is refused', () => {
    for (const word of ['kt', 'mb', 'KB', 'Kb', 'kcal', 'G']) expect(units.word(word), word).toBeNull();
  });
});

function exactSymbols(): ReadonlySet<string> {
  return new Set(UNIT_GROUPS.flatMap(({ units: rows }) => rows.flatMap(([symbols]) => symbols.split(', '))));
}

function* prefixedSymbols(): Iterable<readonly [string, string]> {
  for (const { units: rows } of UNIT_GROUPS) {
    for (const [symbols, , prefixes] of rows) {
      for (const symbol of symbols === '' || prefixes === 'none' ? [] : symbols.split(', ')) {
        for (const [texts, , exponent] of DECIMAL_PREFIXES) {
          if (prefixes === 'si' || exponent >= 3) for (const text of texts) yield [text + symbol, `${text} ${symbol}`];
        }
      }
    }
  }
}

describe('everyday spellings', () => {
  test.each([
    ['Gbps', 'Gbit'],
    ['kbps', 'kbit'],
    ['Mbps', 'Mbit'],
  ])('%s is %s/s', (rate, information) => {
    expectSame(unit(rate), resolved([information, 1], ['s', -1]));
  });

  test.each([
    ['µA', 'μA'],
    ['µA', 'uA'],
    ['kΩ', 'k\u2126'],
    ['kΩ', 'kohm'],
    ['K', '\u212a'],
    ['°C', '℃'],
    ['L', 'l'],
    ['lb', 'lbs'],
    ['Gs', 'gauss'],
    ['Bd', 'baud'],
    ['byte', 'octet'],
    ['%', 'percent'],
    ['VDC', 'Vdc'],
    ['mVpp', 'mVp-p'],
    ['Torr', 'torr'],
    ['m', 'meters'],
    ['inch', 'in'],
    ['year', 'yr'],
  ])('%s is %s', (a, b) => expectSame(unit(a), unit(b)));

  test.each([
    ['volt', 'V'],
    ['watts', 'W'],
    ['degrees Celsius', '°C'],
    ['microvolts', 'µV'],
    ['kilograms', 'kg'],
    ['megabytes', 'MB'],
    ['gibibytes', 'GiB'],
    ['milliamps', 'mA'],
    ['nanoseconds', 'ns'],
    ['kilohertz', 'kHz'],
    ['megaohms', 'MΩ'],
    ['feet', 'ft'],
    ['hours', 'h'],
  ])('%s is %s', (name, symbol) => expectSame(unit(name), unit(symbol)));

  test('case is never folded', () => {
    for (const word of ['KHZ', 'khz', 'MHZ', 'GIB', 'hz', 'pa', 'db', 'eur', 'Volt', 'RPM']) {
      expect(units.word(word), word).toBeNull();
    }
  });

  test('a year is 365.25 days', () => expect(unit('year').factor).toEqual(integer(31_557_600)));

  test('FIT is failures in 10^9 hours', () => {
    // IEC 61709 (from memory).
    expect(unit('FIT').factor).toEqual(fraction(1n, 3_600_000_000_000n));
  });
});

describe('kinds', () => {
  const packetRate = resolved(['packet', 1], ['s', -1]);

  test.each([
    ['rpm', resolved(['turn', 1], ['min', -1])],
    ['Bd', resolved(['symbol', 1], ['s', -1])],
    ['fps', resolved(['frame', 1], ['s', -1])],
    ['pps', packetRate],
  ])('%s', (word, product) => expectSame(unit(word), product));

  test('Hz has no kind, and compares with every rate', () => {
    expect(unit('Hz').dimension.kinds.size).toBe(0);
    expect(isComparable(unit('Hz').dimension, packetRate.dimension)).toBe(true);
    expect(isComparable(unit('fps').dimension, packetRate.dimension)).toBe(false);
  });

  test('MT/s is megatransfers and MS/s megasamples a second', () => {
    expectSame(resolved(['MT', 1], ['s', -1]), resolved(['megatransfers', 1], ['s', -1]));
    expectSame(resolved(['MS', 1], ['s', -1]), unit('MSPS'));
    expect(resolved(['mT', 1], ['s', -1]).dimension.kinds.size).toBe(0);
    expect(resolved(['mS', 1], ['s', -1]).dimension.kinds.size).toBe(0);
  });

  test('a mark compares with none and not with another', () => {
    expect(isComparable(unit('VDC').dimension, unit('V').dimension)).toBe(true);
    expect(isComparable(unit('Vpp').dimension, unit('Vrms').dimension)).toBe(false);
    expect(unit('mVrms').factor).toEqual(fraction(1n, 1000n));
  });

  test('equal kinds cancel', () => {
    const bytes = resolved(['transfer', 1], ['B', 1], ['transfer', -1]);
    expect(bytes.dimension).toBe(unit('B').dimension);
  });
});

describe('points', () => {
  test('°C, °F and dBm are points; K and dB are not', () => {
    expect(unit('°C')).toMatchObject({ point: 'temperature', offset: fraction(27315n, 100n), factor: ONE });
    expect(unit('°F')).toMatchObject({
      point: 'temperature',
      offset: fraction(45967n, 180n),
      factor: fraction(5n, 9n),
    });
    expect(unit('dBm')).toMatchObject({ point: 'level' });
    expect(unit('dBW').offset).toEqual(integer(30));
    expect(unit('K').point).toBeNull();
    expect(unit('dB').point).toBeNull();
  });

  test('in a product °C is K', () => {
    const resistance = resolved(['°C', 1], ['W', -1]);
    expect(resistance.point).toBeNull();
    expectSame(resistance, resolved(['K', 1], ['W', -1]));
  });

  test('levels of different zeros do not compare; dB goes with each', () => {
    expect(isComparable(unit('dBm').dimension, unit('dBA').dimension)).toBe(false);
    expect(isComparable(unit('dBm').dimension, unit('dB').dimension)).toBe(true);
  });
});

describe('money', () => {
  test('each currency is a dimension of its own', () => {
    expect(isComparable(unit('EUR').dimension, unit('USD').dimension)).toBe(false);
    expect(unit('€').dimension).toBe(unit('EUR').dimension);
  });

  test('a gauge of wire is no money', () => expect(units.word('AWG')).toBeNull());
});

describe('refused words', () => {
  test.each(AMBIGUOUS_UNITS.flatMap(([words]) => words.split(', ')))('%s asks which', (word) => {
    expect(units.word(word)).toBeNull();
    expect(units.ambiguity(word)).toContain(word);
    expect(units.scan(word, 0)).toBeNull();
  });

  test('every spelling that a refusal proposes is a unit', () => {
    for (const [, message] of AMBIGUOUS_UNITS) {
      const proposed = /write (.*)$/.exec(message)?.[1] ?? '';
      const symbols = proposed.split(/, | or /).filter((word) => /^[\p{L}_\d]+$/u.test(word));
      for (const symbol of symbols) expect(units.word(symbol), symbol).not.toBeNull();
    }
  });

  test('an ordinary unit is not ambiguous', () => expect(units.ambiguity('V')).toBeNull());
});

describe('own units', () => {
  const own = new Map<string, OwnUnit>([
    ['tile', { type: 'scaled', factor: integer(12), of: unit('mm'), spread: false }],
    ['lane', { type: 'kind' }],
    ['USD', { type: 'scaled', factor: number('0.92'), of: unit('EUR'), spread: true }],
  ]);
  const table = createUnitTable(own);

  test('a scaled one is its factor of the other', () => {
    expect(table.word('tile')).toMatchObject({
      factor: number('0.012'),
      dimension: unit('m').dimension,
      symbol: 'tile',
    });
    expect(table.word('tiles')?.factor).toEqual(number('0.012'));
    expect(table.word('ktile')).toBeNull();
  });

  test('a kind mixes with nothing else', () => {
    const lanes = table.word('lanes');
    expect(lanes && isComparable(lanes.dimension, unit('frame').dimension)).toBe(false);
  });

  test('a declared rate with a spread is a fact of its own', () => {
    expect(table.word('USD')).toMatchObject({
      factor: ONE,
      dimension: unit('EUR').dimension,
      rates: new Map([['units.USD', 1]]),
    });
    expect(table.word('US$')?.rates).toEqual(new Map([['units.USD', 1]]));
    const perUnit = table.resolve([
      { word: 'lane', exponent: 1 },
      { word: 'USD', exponent: -1 },
    ]);
    expect('unknown' in perUnit ? null : perUnit.rates).toEqual(new Map([['units.USD', -1]]));
  });

  test('an own name comes before one of the language', () => {
    expect(
      createUnitTable(new Map([['hp', { type: 'kind' }]]))
        .word('hp')
        ?.dimension.kinds.get('hp'),
    ).toBe(1);
  });
});

describe('nearest', () => {
  test.each([
    ['GIB', 'GiB'],
    ['KHz', 'kHz'],
    ['vlots', 'volts'],
    ['Ghz', 'GHz'],
    ['eur', 'EUR'],
    ['wats', 'watt'],
  ])('%s may be %s', (word, expected) => expect(units.nearest(word)[0]).toBe(expected));

  test('both readings of a wrong case are named', () => {
    expect(units.nearest('mhz')).toEqual(expect.arrayContaining(['MHz', 'mHz']));
  });

  test('a word of another language has none', () => expect(units.nearest('cameras')).toEqual([]));
});

test('resolve names the first word that is no unit', () => {
  expect(
    units.resolve([
      { word: 'V', exponent: 1 },
      { word: 'channel', exponent: -1 },
    ]),
  ).toEqual({ unknown: 'channel' });
});

test('every factor is positive, and only points have an offset', () => {
  for (const { units: rows } of UNIT_GROUPS) {
    for (const [symbols, , , names] of rows) {
      const word = unit((symbols || names).split(', ')[0] ?? '');
      expect(word.factor.numerator > 0n).toBe(true);
      if (word.point === null) expect(equals(word.offset, number('0'))).toBe(true);
    }
  }
});

function resolved(...factors: readonly (readonly [word: string, exponent: number])[]): Unit {
  const result = units.resolve(factors.map(([word, exponent]) => ({ word, exponent })));
  if ('unknown' in result) throw new Error(result.unknown);
  return result;
}

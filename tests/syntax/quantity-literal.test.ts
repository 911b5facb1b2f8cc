/** Literals of expressions and plain values of front matter. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { formatValue } from '../../server/quantity/format';
import { equals, fraction, fromDecimal, type Rational } from '../../server/quantity/rational';
import { createUnitTable } from '../../server/quantity/unit-table';
import type { QuantityValue } from '../../server/quantity/value';
import { readValue, scanLiteral } from '../../server/syntax/quantity-literal';
import { processorTime } from '../support/processor-time';

const units = createUnitTable(new Map([['lane', { type: 'kind' }]]));

function value(text: string): QuantityValue {
  const read = readValue(text, units);
  if (read.type !== 'quantity') throw new Error(`${text} reads as ${JSON.stringify(read)}`);
  return read.value;
}

/** The value's ends in base units as decimals: `4.75 5 5.25`, with `-` where there is none. */
function ends({ low, typical, high }: QuantityValue): string {
  return [low, typical, high].map((end) => (end === null ? '-' : decimal(end))).join(' ');
}

function decimal(number: Rational): string {
  return String(Number(number.numerator) / Number(number.denominator));
}

describe('literals of expressions', () => {
  function literal(text: string, signed = false): string | null {
    const scanned = scanLiteral(text, 0, units, { signed });
    return scanned && `${ends(scanned.value)} ${scanned.value.unit.symbol} | ${text.slice(scanned.end)}`;
  }

  test.each([
    ['5 V / 20 mA', '5 5 5 V |  / 20 mA'],
    ['5 V + 5 V', '5 5 5 V |  + 5 V'],
    ['5 V +5 V', '5 5 5 V |  +5 V'],
    ['5 V - 5 V / -2 V', '5 5 5 V |  - 5 V / -2 V'],
    ['6 and x', '6 6 6 1 |  and x'],
    ['5 V ± 5 %, x', '4.75 5 5.25 V | , x'],
    ['5 V +/- 0.1 V', '4.9 5 5.1 V | '],
    ['12 V +5 % / -10 %', '10.8 12 12.6 V | '],
    ['12 V -10 % / +5 %', '10.8 12 12.6 V | '],
    ['5 V +0.1 V / -0.05 V', '4.95 5 5.1 V | '],
    ['25 +0.021/-0 mm', '0.025 0.025 0.025021 mm | '],
    ['1e3 Hz', '1000 1000 1000 Hz | '],
    ['1 × 10^6 Hz', '1000000 1000000 1000000 Hz | '],
    ['2 x 10³', '2000 2000 2000 1 | '],
    ['10^x', '10 10 10 1 | ^x'],
    ['1 min 30 s', '90 90 90 s | '],
    ['2 h 30 min', '9000 9000 9000 min | '],
    ['1 s 30 min', '1 1 1 s |  30 min'],
    ['1,2', '1 1 1 1 | ,2'],
    ['1 200', '1 1 1 1 |  200'],
    ['2026-10-02', '1790899200 1790899200 1790899200 date | '],
    ['65 % standby', '0.65 0.65 0.65 % |  standby'],
  ])('%s', (text, expected) => expect(literal(text)).toBe(expected));

  test.each(['0x1F', '4k7', '88E15', '3V3', '5-x', '3-pin', '1.2.3', 'x', '', '-5', '.5', '±5', '1k', '1/x'.slice(1)])(
    '%s is none',
    (text) => expect(literal(text)).toBeNull(),
  );

  test('a sign is read only where the caller says so', () => {
    expect(literal('-5 °C', true)).toBe('268.15 268.15 268.15 °C | ');
    expect(literal('-5 °C', false)).toBeNull();
  });

  test.each([
    ['2026-02-30', '28 days'],
    ['2026-13-01', '12 months'],
    ['2024-02-30', '29 days'],
    ['5 V ± 5', 'needs a unit'],
    ['5 V ± 2 A', 'does not fit'],
    ['0 V ± 5 %', 'percentage of 0'],
    ['25 °C ± 5 %', 'depends on where its zero lies'],
    ['5 V +5 % / -0.1 V', 'both parts'],
    ['1e99999', '±10^99'],
  ])('%s has a problem: %s', (text, message) => {
    expect(scanLiteral(text, 0, units, { signed: false })?.problems.join()).toContain(message);
  });

  test('1e400 keeps its end, so that what follows is still read', () => {
    expect(scanLiteral('1e400 V + x', 0, units, { signed: false })).toMatchObject({ end: 7 });
  });
});

describe('plain values: quantities', () => {
  test.each([
    ['45 W', '45 45 45', 'W'],
    ['16GiB', '137438953472 137438953472 137438953472', 'GiB'],
    ['-5 °C', '268.15 268.15 268.15', '°C'],
    ['−5 V', '-5 -5 -5', 'V'],
    ['–5 V', '-5 -5 -5', 'V'],
    ['+5 V', '5 5 5', 'V'],
    ['1,200', '1200 1200 1200', '1'],
    ['1,234,567.5 Hz', '1234567.5 1234567.5 1234567.5', 'Hz'],
    ['200 000', '200000 200000 200000', '1'],
    ['1 234 567', '1234567 1234567 1234567', '1'],
    ['1\u2009200 W', '1200 1200 1200', 'W'],
    ['1\u00a0200 W', '1200 1200 1200', 'W'],
    ['1k frames', '1000 1000 1000', 'frames'],
    ['½ in', '0.0127 0.0127 0.0127', 'in'],
    ['1 1/2 in', '0.0381 0.0381 0.0381', 'in'],
    ['10^6 Hz', '1000000 1000000 1000000', 'Hz'],
    ['1 in 1000', '0.001 0.001 0.001', '1'],
    ['EUR 25', '25 25 25', 'EUR'],
    ['€ 25', '25 25 25', '€'],
    ['€25', '25 25 25', '€'],
    ['25 €', '25 25 25', '€'],
    ['US$ 1,200', '1200 1200 1200', 'US$'],
    ['EUR 25 ± 10 %', '22.5 25 27.5', 'EUR'],
    ['6 lanes', '6 6 6', 'lanes'],
    ['5 V/lane', '5 5 5', 'V/lane'],
    ['80 % ± 5 %', '0.75 0.8 0.85', '%'],
    ['60 %RH ± 5 %', '0.55 0.6 0.65', '%RH'],
    ['1200 ± 10 %', '1080 1200 1320', '1'],
    ['0.92 ± 0.02', '0.9 0.92 0.94', '1'],
    ['3.3 ± 0.1 V', '3.2 3.3 3.4', 'V'],
    ['-5 V ± 10 %', '-5.5 -5 -4.5', 'V'],
    ['12 Mbit/s +10 % / -0 %', '12000000 12000000 13200000', 'Mbit/s'],
    ['36 V to 57 V', '36 - 57', 'V'],
    ['36 to 57 V', '36 - 57', 'V'],
    ['-40 to 85 °C', '233.15 - 358.15', '°C'],
    ['1 200 000 to 1 300 000 Hz', '1200000 - 1300000', 'Hz'],
    ['EUR 20 to EUR 30', '20 - 30', 'EUR'],
    ['5 GB to 6 GiB', '40000000000 - 51539607552', 'GB'],
    ['2026-10-02 to 2026-10-03', '1790899200 - 1790985600', 'date'],
  ])('%s', (text, expected, unit) => {
    expect(ends(value(text))).toBe(expected);
    expect(value(text).unit.symbol).toBe(unit);
  });

  test('what the author wrote is kept as the form', () => {
    expect(value('5 V').spread).toBe('exact');
    expect(value('5 V ± 5 %')).toMatchObject({ spread: 'tolerance', form: { type: 'symmetric', ratio: true } });
    expect(value('80 % ± 5 %')).toMatchObject({ spread: 'tolerance', form: { type: 'symmetric', ratio: false } });
    expect(value('5 V +5 % / -1 %')).toMatchObject({ form: { type: 'asymmetric', ratio: true } });
    expect(value('36 V to 57 V')).toMatchObject({ spread: 'range', form: { type: 'range' } });
  });

  test('0.1 is one tenth, not the double next to it', () => {
    expect(value('0.1 V').typical).toEqual(fraction(1n, 10n));
  });

  test('a provisional value is marked', () => {
    for (const text of ['12 W (TBR)', '12 W TBC', '12 W (TBC)', '36 V to 57 V (TBR)']) {
      expect(readValue(text, units)).toMatchObject({ type: 'quantity', provisional: true });
    }
    expect(readValue('12 W', units)).toMatchObject({ provisional: false });
  });
});

describe('plain values: meant as figures, and none', () => {
  test.each([
    ['16 GIB', '16 GiB'],
    ['16GIB', '16GiB'],
    ['5 KHz', '5 kHz'],
    ['5 KHz ± 5 %', '5 kHz ± 5 %'],
    ['5 vlots', '5 volts'],
    ['36-57 V', '36 V to 57 V'],
    ['36 V-57 V', '36 V to 57 V'],
    ['36–57 V', '36 V to 57 V'],
    ['36..57 V', '36 V to 57 V'],
    ['36...57 V', '36 V to 57 V'],
    ['36…57 V', '36 V to 57 V'],
    ['-40..85 °C', '-40 °C to 85 °C'],
    ['57-36 V', '36 V to 57 V'],
    ['36-57', '36 to 57'],
    ['57 V to 36 V', '36 V to 57 V'],
    ['36 V to 57', '36 V to 57 V'],
    ['6 cameras', '6'],
    ['3,3 V', '3.3 V'],
    ['0,125 A', '0.125 A'],
    ['1,2000', '1.2000'],
    ['2 100 W', '2100 W'],
    ['.5 A', '0.5 A'],
    ['12-bit', '12 bit'],
    ['16 GIB (TBR)', '16 GiB (TBR)'],
    ['TBR', 'TBD'],
    ['tbd', 'TBD'],
    ['- 5 V', '-5 V'],
    ['5 V +- 5 %', '5 V ± 5 %'],
    ['5 V plus or minus 5 %', '5 V ± 5 %'],
    ['(3.3 ± 0.1) V', '3.3 ± 0.1 V'],
    ['from 36 to 57 V', '36 to 57 V'],
    ['-40/+85 °C', '-40 °C to +85 °C'],
    ['2026/10/02', '2026-10-02'],
    ['2 100 to 2 200 W', '2100 to 2200 W'],
  ])('%s should be %s', (text, fix) => expect(readValue(text, units)).toMatchObject({ type: 'bad', fix }));

  test.each([
    ['$ 25', 'ISO 4217'],
    ['25 $', 'ISO 4217'],
    ['5 hp', 'hp_550'],
    ['2 months', 'no fixed length'],
    ['100 Kbit/s', 'Kibit'],
    ['5 mhz', 'MHz or mHz'],
    ['10k', 'prefix'],
    ['± 5 V', 'value before it'],
    ['<= 60 W', 'no limit'],
    ['5 V ± 5', 'needs a unit'],
    ['5 V ± 2 A', 'does not fit'],
    ['5 V to 2 A', 'do not fit'],
    ['5 K to 40 °C', 'do not fit'],
    ['5 V ± 1 % to 6 V', 'no tolerance of their own'],
    ['5 W/m·K', 'brackets'],
    ['5 V/widget', 'widget'],
    ['2 A-coded', 'A-coded'],
    ['2026-02-30', '28 days'],
    ['1e400', '10^99'],
    ['5 V ± 5 percentage', 'percentage'],
    ['5 V -12 V', '“to”'],
    ['1k units', 'units'],
    ['10/100 Mbit/s', 'two values'],
    ['12/24 V', 'two values'],
    ['60 W max', '{max'],
    ['max. 60 W', 'no limit'],
    ['5 V +10 %', 'both sides'],
    ['5 V (TBD)', 'TBR'],
    ['2026-10-02T10:00Z', 'without a time'],
    ['5 kHx', 'kHz'],
  ])('%s is asked about: %s', (text, message) => {
    const read = readValue(text, units);
    expect(read).toMatchObject({ type: 'bad', fix: null });
    expect(read.type === 'bad' && read.message).toContain(message);
  });

  test('every fix reads', () => {
    for (const text of [
      '16 GIB',
      '36-57 V',
      '6 cameras',
      '3,3 V',
      '2 100 W',
      '.5 A',
      '12-bit',
      '57-36 V',
      '36 V to 57',
    ]) {
      const read = readValue(text, units);
      if (read.type !== 'bad' || read.fix === null) throw new Error(`${text} has no fix`);
      expect(readValue(read.fix, units).type, read.fix).toBe('quantity');
    }
  });
});

describe('plain values: text', () => {
  test.each([
    '10/100/1000',
    '10/100',
    '16:9',
    '5(3) V',
    'IP66',
    '4k7',
    '88E15',
    '3V3 rail',
    '2 x RJ45',
    '3-pin',
    '1.2.3',
    '192.168.0.1',
    '10BASE-T',
    'AWG 24',
    'two devices of 8 GiB',
    '5 V supply',
    'standby',
    '',
    '-',
    'EUR',
    `5 V ${'x'.repeat(1000)}`,
  ])('%s', (text) => expect(readValue(text, units)).toEqual({ type: 'text' }));
});

describe('round trip', () => {
  const number = fc
    .tuple(fc.integer({ min: -999_999, max: 999_999 }), fc.integer({ min: 0, max: 6 }))
    .map(([digits, places]) => (digits / 10 ** places).toFixed(places));
  const positive = number.map((text) => text.replace('-', ''));
  const unit = fc.constantFrom(
    'V',
    'mA',
    '°C',
    '°F',
    'GiB',
    'Mbit/s',
    'MT/s',
    'h',
    'EUR',
    '%',
    'ppm',
    'in',
    'K/W',
    'V DC',
    'dBm',
  );
  const length = new Map([
    ['°C', 'K'],
    ['°F', 'K'],
    ['dBm', 'dB'],
    ['ppm', '%'],
  ]);

  function expectRoundTrip(text: string): void {
    const read = readValue(text, units);
    if (read.type !== 'quantity') return;
    const again = value(formatValue(read.value));
    for (const end of ['low', 'typical', 'high'] as const) {
      const [a, b] = [read.value[end], again[end]];
      expect(a === b || (a && b && equals(a, b)), `${text} → ${formatValue(read.value)}`).toBe(true);
    }
    expect(again.form).toEqual(read.value.form);
    expect(again.spread).toBe(read.value.spread);
    expect(again.unit.dimension).toBe(read.value.unit.dimension);
  }

  test('every form is written as it reads', () => {
    const text = fc.tuple(number, unit, positive, positive, fc.nat(6)).map(([a, own, b, c, form]) => {
      const width = length.get(own) ?? own;
      if (form === 0) return `${a} ${own}`;
      if (form === 1) return `${a} ${own} ± ${b} %`;
      if (form === 2) return `${a} ${own} ± ${b} ${width}`;
      if (form === 3) return `${a} ${own} +${b} % / -${c} %`;
      if (form === 4) return `${a} ${own} +${b} ${width} / -${c} ${width}`;
      if (form === 5) return `${a} ${own} to ${b} ${own}`;
      return `${a}e${form}`;
    });
    fc.assert(fc.property(text, expectRoundTrip), { numRuns: 400 });
  });

  test.each([
    '1/3 in',
    '1 in 3',
    '2026-10-02 ± 3 d',
    '40 °F to 85 °C',
    '1e80 V',
    '1e-80 V',
    '25 MHz ± 50 ppm',
    '5 ft ± 1 m',
  ])('%s', (text) => {
    expect(readValue(text, units).type).toBe('quantity');
    expectRoundTrip(text);
  });
});

describe('any text', () => {
  const piece = fc.constantFrom(
    ...'0123456789.,+-−±/%VAmkG°C ()e^×$€',
    ' to ',
    'TBR',
    ' ± ',
    '..',
    ' in ',
    '10^',
    'kHz',
    '½',
    '2026-10-02',
  );
  const text = fc.oneof(
    fc.array(piece, { maxLength: 14 }).map((parts) => parts.join('')),
    fc.string({ unit: 'binary' }),
  );

  test('never throws; a literal lies inside its text', () => {
    fc.assert(
      fc.property(text, fc.boolean(), (source, signed) => {
        readValue(source, units);
        const scanned = scanLiteral(source, 0, units, { signed });
        return scanned === null || (scanned.end > 0 && scanned.end <= source.length);
      }),
      { numRuns: 2000 },
    );
  });

  test('low, typical and high are in order, and every fix changes the text', () => {
    fc.assert(
      fc.property(text, (source) => {
        const read = readValue(source, units);
        if (read.type === 'bad') return read.fix !== source.trim();
        if (read.type === 'text') return true;
        const { low, typical, high } = read.value;
        return (
          low !== null &&
          high !== null &&
          low.numerator * high.denominator <= high.numerator * low.denominator &&
          (typical !== null) === (read.value.spread !== 'range')
        );
      }),
      { numRuns: 2000 },
    );
  });

  test('a long text takes no longer than its length', () => {
    const started = processorTime();
    for (const part of ['1 ', '1,', '1 000 ', '5 V ± ', '1-', '9', '1 min ', '+1/', '1e', '(']) {
      const long = part.repeat(200_000);
      readValue(long, units);
      scanLiteral(long, 0, units, { signed: true });
    }
    expect(processorTime() - started).toBeLessThan(3000);
  });
});

test('a number is the rational that its digits spell', () => {
  fc.assert(
    fc.property(fc.integer({ min: 0, max: 10 ** 9 }), fc.integer({ min: -20, max: 20 }), (digits, exponent) => {
      const scanned = scanLiteral(`${digits}e${exponent}`, 0, units, { signed: false });
      const expected = fromDecimal(`${digits}e${exponent}`);
      return expected !== null && scanned?.value.typical != null && equals(scanned.value.typical, expected);
    }),
  );
});

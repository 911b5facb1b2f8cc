/** Units in running text: where they end, and which words are none. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { createUnitTable } from '../../server/quantity/unit-table';
import { processorTime } from '../support/processor-time';

const units = createUnitTable(new Map([['camera-slot', { type: 'kind' }]]));

/** What is read of the text: the unit's own text, or null. */
function read(text: string): string | null {
  const scanned = units.scan(text, 0);
  return scanned && text.slice(0, scanned.end);
}

describe('the longest unit', () => {
  test.each([
    ['mV/m across', 'mV/m'],
    ['degrees Celsius at', 'degrees Celsius'],
    ['deg C', 'deg C'],
    ['° C', '° C'],
    ['m/s²', 'm/s²'],
    ['m/s^2 of', 'm/s^2'],
    ['s^-2', 's^-2'],
    ['s⁻¹,', 's⁻¹'],
    ['N·m', 'N·m'],
    ['N · m', 'N · m'],
    ['N m', 'N m'],
    ['kW h of', 'kW h'],
    ['kW-h', 'kW-h'],
    ['kilowatt-hours', 'kilowatt-hours'],
    ['ft lbf', 'ft lbf'],
    ['ft-lbf', 'ft-lbf'],
    ['W/(m·K)', 'W/(m·K)'],
    ['W/(m K)', 'W/(m K)'],
    ['J/kg/K', 'J/kg/K'],
    ['microvolts/meter', 'microvolts/meter'],
    ['packets per second', 'packets per second'],
    ['kilograms per cubic metre', 'kilograms per cubic metre'],
    ['square millimetres', 'square millimetres'],
    ['mm2', 'mm2'],
    ['m/s2', 'm/s2'],
    ['kgf/cm2', 'kgf/cm2'],
    ['Gb/s', 'Gb/s'],
    ['EUR/kg', 'EUR/kg'],
    ['€/kg', '€/kg'],
    ['US$', 'US$'],
    ['dB(A) at', 'dB(A)'],
    ['nV/√Hz', 'nV/√Hz'],
    ['1/h', '1/h'],
    ['per hour', 'per hour'],
    ['pounds-force', 'pounds-force'],
    ['camera-slot', 'camera-slot'],
    ['mVp-p', 'mVp-p'],
    ['kilowatt\u00a0hours', 'kilowatt\u00a0hours'],
    ['degrees\u2009Celsius', 'degrees\u2009Celsius'],
  ])('%s', (text, expected) => expect(read(text)).toBe(expected));

  test.each([
    ['V DC', 'DC'],
    ['V AC', 'AC'],
    ['V RMS', 'RMS'],
    ['V rms', 'RMS'],
    ['mV p-p', 'peak-to-peak'],
    ['A RMS', 'RMS'],
    ['% RH', 'relative humidity'],
  ])('%s carries its mark', (text, kind) => {
    expect(read(text)).toBe(text);
    expect(units.scan(text, 0)?.unit.dimension.kinds.get(kind)).toBe(1);
  });
});

describe('where a unit ends', () => {
  test.each([
    ['V/channel', 'V'],
    ['V per channel', 'V'],
    ['V DC/DC converter', 'V'],
    ['V AC-coupled', 'V'],
    ['V supply', 'V'],
    ['m. The', 'm'],
    ['kHz, and', 'kHz'],
    ['km / h', 'km'],
    ['s and', 's'],
    ['V-5 V', 'V'],
    ['W / 2', 'W'],
    ['W*3', 'W'],
    ['in wide', 'in'],
    ['in. long', 'in'],
    ['A A', 'A'],
  ])('%s', (text, expected) => expect(read(text)).toBe(expected));
});

describe('no unit', () => {
  test.each([
    ['A-coded'],
    ['V-tolerant'],
    ['mA-class'],
    ['m²-rated'],
    ['km/h-rated'],
    ['max'],
    ['and'],
    ['messages per hour'],
    ['in 10'],
    ['in the box'],
    ['in parallel'],
    ['W/m·K'],
    ['V/hp'],
    ['hp'],
    ['V3'],
    ['m²x'],
    ['d.o.f.'],
    ['m^99'],
    ['m^0'],
    [''],
    [' V'],
    ['5'],
    ['-'],
    ['(m)'],
  ])('%s', (text) => expect(read(text)).toBeNull());
});

test('in a product and after a solidus °C is K, and the spelling stays', () => {
  const unit = units.scan('°C/W', 0)?.unit;
  expect(unit).toMatchObject({ symbol: '°C/W', point: null });
  expect(unit?.dimension).toBe(units.scan('K/W', 0)?.unit.dimension);
  expect(units.scan('°C', 0)?.unit.point).toBe('temperature');
});

test('a unit at any offset is read as at the start', () => {
  expect(units.scan('at least 5 mV/m', 11)).toMatchObject({ end: 15, unit: { symbol: 'mV/m' } });
});

test('what is read is read again from the symbol alone', () => {
  const words = ['V', 'mA', '°C', 'GiB', 'Mbit', 'kW', 'h', 's', 'frame', 'EUR', 'Ω', 'µs', 'volts', 'degrees Celsius'];
  const word = fc.constantFrom(...words);
  const exponent = fc.constantFrom('', '^2', '²', '^-1', '⁻³');
  const unit = fc
    .tuple(word, exponent, fc.constantFrom('', '/', '·', ' per '), word)
    .map(([a, power, joint, b]) => (joint === '' ? a + power : a + power + joint + b));
  fc.assert(
    fc.property(unit, (text) => {
      const first = units.scan(text, 0);
      const again = first && units.scan(first.unit.symbol, 0);
      return (
        first === null || (again?.unit.dimension === first.unit.dimension && again.end === first.unit.symbol.length)
      );
    }),
  );
});

test('no text makes the scanner throw, and it never reads past the end', () => {
  const alphabet = fc.constantFrom(...'VAmskgh°%/·^-+ ()¹²⁻.µ√$€pin1x', 'per', 'degrees ', 'square ');
  fc.assert(
    fc.property(fc.array(alphabet, { maxLength: 30 }), fc.nat(10), (parts, offset) => {
      const text = parts.join('');
      const scanned = units.scan(text, offset);
      return scanned === null || (scanned.end > offset && scanned.end <= text.length);
    }),
  );
});

test('a scan looks a bounded way ahead', () => {
  const started = processorTime();
  for (const unit of [
    'a'.repeat(1_000_000),
    'm·'.repeat(500_000),
    `V${'-a'.repeat(500_000)}`,
    `1/${' '.repeat(1_000_000)}`,
  ]) {
    for (let round = 0; round < 50; round += 1) units.scan(unit, 0);
  }
  expect(processorTime() - started).toBeLessThan(2000);
});

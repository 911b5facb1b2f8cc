/** The unit in which a computed figure is shown when nobody wrote one: coherent SI, information in bytes. */
import { DIMENSIONLESS, type Dimension } from './dimension';
import { UNITY, type Unit } from './unit';
import type { UnitTable } from './unit-table';

/** Named units tried in this order; the first of the same dimension is shown. */
const PREFERRED = [
  'V',
  'A',
  'W',
  'Ω',
  'Hz',
  'J',
  'N',
  'Pa',
  'F',
  'C',
  'H',
  'T',
  'Wb',
  'S',
  'kg',
  'm',
  's',
  'K',
  'mol',
  'cd',
  'lm',
  'lx',
  'B',
  'B/s',
  '°',
  'dB',
  'm/s',
  'm/s^2',
  'V/m',
  'W/m^2',
  'K/W',
];
const SUPERSCRIPTS = '⁰¹²³⁴⁵⁶⁷⁸⁹';

/** Base dimensions that are not spelled as their unit. */
const BASE_SYMBOLS: ReadonlyMap<string, string> = new Map([
  ['length', 'm'],
  ['mass', 'kg'],
  ['time', 's'],
  ['current', 'A'],
  ['temperature', 'K'],
  ['amount', 'mol'],
  ['luminous intensity', 'cd'],
  ['information', 'B'],
  ['angle', '°'],
  ['level', 'dB'],
]);

/** The coherent unit of a dimension: a named one where there is one, else a product of base units. */
export function coherentUnit(dimension: Dimension, units: UnitTable): Unit {
  if (dimension === DIMENSIONLESS) return UNITY;
  for (const symbol of PREFERRED) {
    const scanned = units.scan(symbol, 0);
    if (scanned?.unit.dimension === dimension) return scanned.unit;
  }
  const factors = [...dimension.base, ...dimension.kinds].map(([name, exponent]) => ({ word: wordOf(name), exponent }));
  const resolved = units.resolve(factors);
  const symbol = symbolOf(factors);
  return 'unknown' in resolved
    ? { ...UNITY, dimension, symbol, canonical: symbol }
    : { ...resolved, symbol, canonical: symbol };
}

function wordOf(base: string): string {
  return BASE_SYMBOLS.get(base) ?? base.replace(/^money:/, '');
}

function symbolOf(factors: readonly { readonly word: string; readonly exponent: number }[]): string {
  const above = factors.filter(({ exponent }) => exponent > 0).map(({ word, exponent }) => word + raised(exponent));
  const below = factors.filter(({ exponent }) => exponent < 0).map(({ word, exponent }) => word + raised(-exponent));
  if (below.length === 0) return above.join('·');
  const divisor = below.length === 1 ? below[0] : `(${below.join('·')})`;
  return `${above.length === 0 ? '1' : above.join('·')}/${divisor}`;
}

function raised(exponent: number): string {
  if (exponent === 1) return '';
  if (!Number.isInteger(exponent)) return `^${exponent}`;
  return [...String(exponent)].map((digit) => SUPERSCRIPTS[Number(digit)]).join('');
}

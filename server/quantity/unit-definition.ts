/** Works out the language's units from the definitions in `grammar/units.ts`. */
import { POINT_UNITS, type PrefixClass, UNIT_GROUPS, type UnitRow } from '../../grammar/units';
import { dimension } from './dimension';
import type { Rational } from './rational';
import * as rational from './rational';
import { UNITY, type Unit } from './unit';
import { productOf, scaled, type UnitPower } from './unit-arithmetic';

/** One spelling of a unit without prefix. */
export interface DefinedUnit {
  readonly unit: Unit;
  /** What the unit is called in other tables: its first symbol, or its first name. */
  readonly family: string;
  readonly prefixes: PrefixClass;
}

/** Symbols take prefix symbols, names take prefix names. */
export interface DefinedUnits {
  readonly symbols: ReadonlyMap<string, DefinedUnit>;
  readonly names: ReadonlyMap<string, DefinedUnit>;
}

/** Every unit of the language. A mistake in a definition throws: it is ours, and a test loads them all. */
export function defineUnits(): DefinedUnits {
  const symbols = new Map<string, DefinedUnit>();
  const names = new Map<string, DefinedUnit>();
  for (const { units } of UNIT_GROUPS) for (const row of units) addRow(row, symbols, names);
  return { symbols, names };
}

/** `a, b` → [a, b]; the empty text is an empty list. */
export function listOf(text: string): readonly string[] {
  return text === '' ? [] : text.split(',').map((item) => item.trim());
}

function addRow(row: UnitRow, symbols: Map<string, DefinedUnit>, names: Map<string, DefinedUnit>): void {
  const [symbolList, definition, prefixes, nameList] = row;
  const ownSymbols = listOf(symbolList);
  const ownNames = listOf(nameList);
  const family = ownSymbols[0] ?? ownNames[0] ?? '';
  const unit = { ...withZero(workOut(definition, { symbols, names }), family), canonical: family };
  // A family is shown by its first symbol where a look-alike was typed (℃), else as it was typed.
  for (const symbol of ownSymbols) {
    symbols.set(symbol, { unit: { ...unit, symbol: /[℃℉º]/.test(symbol) ? family : symbol }, family, prefixes });
  }
  for (const name of ownNames) names.set(name, { unit: { ...unit, symbol: name }, family, prefixes });
}

function withZero(unit: Unit, symbol: string): Unit {
  const row = POINT_UNITS.find(([own]) => own === symbol);
  return row ? { ...unit, point: row[1], offset: numberOf(row[2]) } : unit;
}

function workOut(definition: string, defined: DefinedUnits): Unit {
  const gap = definition.indexOf(' ');
  const numberText = gap < 0 ? definition : definition.slice(0, gap);
  const product = gap < 0 ? '' : definition.slice(gap + 1);
  const powers = [...product.matchAll(/([·/]?)(\[[^\]]*\]|\{[^}]*\}|[^·/^]+)(?:\^(-?[\d.]+))?/gu)].map(
    ([, operator, word = '', exponent = '1']): UnitPower => ({
      unit: unitOf(word, defined),
      exponent: operator === '/' ? -Number(exponent) : Number(exponent),
    }),
  );
  return scaled(productOf(powers, definition), numberOf(numberText));
}

function unitOf(word: string, defined: DefinedUnits): Unit {
  const inside = word.slice(1, -1);
  if (word.startsWith('[')) return { ...UNITY, dimension: dimension({ [inside]: 1 }) };
  if (word.startsWith('{')) return { ...UNITY, dimension: dimension({}, { [inside]: 1 }) };
  // The kilogram is the one prefixed unit that definitions are written in.
  if (word === 'kg') return scaled(unitOf('g', defined), rational.integer(1000));
  const unit = (defined.symbols.get(word) ?? defined.names.get(word))?.unit;
  if (unit === undefined) throw new Error(`the definition of a unit uses ${word} before it is defined`);
  return unit;
}

/** `0.3048`, `1e-9` or `20265/152`. */
function numberOf(text: string): Rational {
  const [numerator = null, denominator = rational.ONE] = text.split('/').map(rational.fromDecimal);
  if (numerator === null || denominator === null) throw new Error(`no number in the definition of a unit: ${text}`);
  return rational.divide(numerator, denominator);
}

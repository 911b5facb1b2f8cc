/** Products and powers of units, and the unit in which two numbers of one differ. */
import * as dimensions from './dimension';
import * as rational from './rational';
import { UNITY, type Unit } from './unit';

export interface UnitPower {
  readonly unit: Unit;
  readonly exponent: number;
}

/** The product of powers, written as `symbol`. In a product a point unit stands for its length: °C/W is K/W. */
export function productOf(powers: readonly UnitPower[], symbol: string): Unit {
  const [only] = powers;
  if (only && powers.length === 1 && only.exponent === 1)
    return only.unit.symbol === symbol ? only.unit : { ...only.unit, symbol };
  let dimension = UNITY.dimension;
  let factor = rational.ONE;
  const rates = new Map<string, number>();
  for (const { unit, exponent } of powers) {
    dimension = dimensions.multiply(dimension, dimensions.power(unit.dimension, exponent));
    factor = rational.multiply(factor, factorToPower(unit, exponent));
    for (const [name, own] of unit.rates) rates.set(name, (rates.get(name) ?? 0) + own * exponent);
  }
  const canonical = symbolOf(powers, (unit) => unit.canonical);
  return { symbol, canonical, dimension, factor, offset: rational.ZERO, point: null, rates: withoutZeros(rates) };
}

/** `kg·m/s^2`; several factors below the line stand in brackets, so that the text reads back. */
export function symbolOf(powers: readonly UnitPower[], wordOf: (unit: Unit) => string): string {
  const above = powers
    .filter(({ exponent }) => exponent > 0)
    .map(({ unit, exponent }) => powerText(wordOf(unit), exponent));
  const below = powers
    .filter(({ exponent }) => exponent < 0)
    .map(({ unit, exponent }) => powerText(wordOf(unit), -exponent));
  const top = above.length > 0 ? above.join('·') : '1';
  if (below.length === 0) return top;
  return below.length === 1 ? `${top}/${below[0]}` : `${top}/(${below.join('·')})`;
}

/** The same unit as a length: °C without its zero. */
export function asLength(unit: Unit): Unit {
  return unit.point === null ? unit : { ...unit, offset: rational.ZERO, point: null };
}

/** Whether the same declared values with a spread are in both. */
export function haveSameRates(a: Unit, b: Unit): boolean {
  return a.rates.size === b.rates.size && [...a.rates].every(([name, exponent]) => b.rates.get(name) === exponent);
}

/** The unit multiplied by a number. */
export function scaled(unit: Unit, factor: rational.Rational): Unit {
  return { ...unit, factor: rational.multiply(unit.factor, factor) };
}

/** The unit with one more kind: V of DC. */
export function marked(unit: Unit, kind: string, symbol: string): Unit {
  return {
    ...unit,
    symbol,
    canonical: symbol,
    dimension: dimensions.multiply(unit.dimension, dimensions.dimension({}, { [kind]: 1 })),
  };
}

function powerText(word: string, exponent: number): string {
  return exponent === 1 ? word : `${word}^${exponent}`;
}

function factorToPower(unit: Unit, exponent: number): rational.Rational {
  // Only units of factor 1 have fractional powers (√Hz): a root of another factor would not be exact.
  if (!Number.isInteger(exponent)) return unit.factor;
  return rational.power(unit.factor, exponent);
}

function withoutZeros(rates: ReadonlyMap<string, number>): ReadonlyMap<string, number> {
  return new Map([...rates].filter(([, exponent]) => exponent !== 0));
}

/** Products and powers of units, and the unit in which two numbers of one differ. */
import * as dimensions from './dimension';
import * as rational from './rational';
import { UNITY, type Unit } from './unit';

export interface UnitPower {
  readonly unit: Unit;
  readonly exponent: number;
}

/** The product of powers, shown as `symbol`. In a product a point unit stands for its length: °C/W is K/W. */
export function productOf(powers: readonly UnitPower[], symbol: string): Unit {
  const [only] = powers;
  if (only && powers.length === 1 && only.exponent === 1) return { ...only.unit, symbol };
  let dimension = UNITY.dimension;
  let factor = rational.ONE;
  const rates = new Map<string, number>();
  for (const { unit, exponent } of powers) {
    dimension = dimensions.multiply(dimension, dimensions.power(unit.dimension, exponent));
    factor = rational.multiply(factor, factorToPower(unit, exponent));
    for (const [name, own] of unit.rates) rates.set(name, (rates.get(name) ?? 0) + own * exponent);
  }
  return { symbol, dimension, factor, offset: rational.ZERO, point: null, rates: withoutZeros(rates) };
}

/** The same unit as a length: °C without its zero. */
export function asLength(unit: Unit): Unit {
  return unit.point === null ? unit : { ...unit, offset: rational.ZERO, point: null };
}

/** The unit multiplied by a number. */
export function scaled(unit: Unit, factor: rational.Rational): Unit {
  return { ...unit, factor: rational.multiply(unit.factor, factor) };
}

/** The unit with one more kind: V of DC. */
export function marked(unit: Unit, kind: string, symbol: string): Unit {
  return { ...unit, symbol, dimension: dimensions.multiply(unit.dimension, dimensions.dimension({}, { [kind]: 1 })) };
}

function factorToPower(unit: Unit, exponent: number): rational.Rational {
  // Only units of factor 1 have fractional powers (√Hz): a root of another factor would not be exact.
  if (!Number.isInteger(exponent)) return unit.factor;
  return rational.power(unit.factor, exponent);
}

function withoutZeros(rates: ReadonlyMap<string, number>): ReadonlyMap<string, number> {
  return new Map([...rates].filter(([, exponent]) => exponent !== 0));
}

/** Numbers of a unit to and from coherent base units. */
import { dimension } from './dimension';
import type { Rational } from './rational';
import * as rational from './rational';
import { UNITY, type Unit } from './unit';

/** `number` of `unit` in base units; of a point unit, the place on its scale. */
export function toBase(number: Rational, unit: Unit): Rational {
  return rational.add(rational.multiply(number, unit.factor), unit.offset);
}

/** A value in base units as a number of `unit`. */
export function fromBase(value: Rational, unit: Unit): Rational {
  return rational.divide(rational.subtract(value, unit.offset), unit.factor);
}

const KELVIN: Unit = { ...UNITY, symbol: 'K', canonical: 'K', dimension: dimension({ temperature: 1 }) };
const DECIBEL: Unit = { ...UNITY, symbol: 'dB', canonical: 'dB', dimension: dimension({ level: 1 }) };
const DAY: Unit = {
  ...UNITY,
  symbol: 'd',
  canonical: 'd',
  dimension: dimension({ time: 1 }),
  factor: rational.integer(86_400),
};

/** The unit in which two numbers of a unit differ: K for °C and °F, dB for dBm, d for dates, else the unit itself. */
export function differenceUnit(unit: Unit): Unit {
  if (unit.point === 'temperature') return KELVIN;
  if (unit.point === 'level') return DECIBEL;
  if (unit.point === 'date') return DAY;
  return unit;
}

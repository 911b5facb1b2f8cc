/** Figures for programs: the nearest doubles, in a unit, and the extents made of them. */
import { differenceUnit, fromBase } from '../quantity/conversion';
import type { Interval } from '../quantity/interval';
import type { Rational } from '../quantity/rational';
import * as rational from '../quantity/rational';
import { UNITY, type Unit } from '../quantity/unit';

export interface JsonExtent {
  /** Null: open or unbounded. */
  readonly min: number | null;
  readonly max: number | null;
}

/** A value in base units as a number of the unit. */
export function numberIn(value: Rational | null, unit: Unit): number | null {
  return value === null ? null : finite(rational.toDouble(fromBase(value, unit)));
}

/** A distance in base units as a number of the unit that differences have: K for °C. */
export function distanceIn(distance: Rational, unit: Unit): { readonly value: number | null; readonly unit: string } {
  const length = differenceUnit(unit);
  return { value: finite(rational.toDouble(rational.divide(distance, length.factor))), unit: length.canonical };
}

export function extentIn({ low, high }: Interval, unit: Unit): JsonExtent {
  return { min: numberIn(low, unit), max: numberIn(high, unit) };
}

/** `d/(Mbit/s)`, `1/W`, `V`; of one unit by itself `1`. */
export function perUnit(value: Unit, fact: Unit): string {
  if (fact.canonical === value.canonical) return UNITY.canonical;
  if (fact.canonical === '1') return value.canonical;
  const below = /[/·*]/u.test(fact.canonical) ? `(${fact.canonical})` : fact.canonical;
  return `${value.canonical}/${below}`;
}

function finite(value: number): number | null {
  return Number.isFinite(value) ? value : null;
}

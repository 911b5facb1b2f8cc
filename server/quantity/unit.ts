/** Units: what a number is multiplied by, and where its zero lies. */
import type { Dimension } from './dimension';
import { DIMENSIONLESS } from './dimension';
import { ONE, type Rational, ZERO } from './rational';

/** A scale whose values are places, not lengths: two of them subtract to a length and never add. */
export type Scale = 'temperature' | 'level' | 'date';

/**
 * A unit ready to use. A number `n` of it is `n × factor + offset` in coherent base units (SI; bit for information,
 * degree for angle, decibel for levels, the currency's own unit for money).
 */
export interface Unit {
  /** As shown to people: the author's spelling after folding, `mA`, `Mbit/s`, `°C`; `1` for a plain number. */
  readonly symbol: string;
  /** As in the unit table, however it was spelled: `d` for days, `MB` for megabytes. */
  readonly canonical: string;
  readonly dimension: Dimension;
  readonly factor: Rational;
  /** Not zero only for units of points, °C and °F. */
  readonly offset: Rational;
  /** The scale on which numbers of this unit are points; null for ordinary lengths. */
  readonly point: Scale | null;
  /** Own units and currencies whose declared value has a spread (`units.USD`), each with its exponent: the factor is 1 of each. */
  readonly rates: ReadonlyMap<string, number>;
}

export const UNITY: Unit = {
  symbol: '1',
  canonical: '1',
  dimension: DIMENSIONLESS,
  factor: ONE,
  offset: ZERO,
  point: null,
  rates: new Map(),
};

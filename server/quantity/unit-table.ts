/** Which words are units, for one product: the language's table and the product's own units and currencies. */
import type { Unit } from './unit';

/** One word of a unit with its power: `m/s^2` is [{word: 'm', exponent: 1}, {word: 's', exponent: -2}]. */
export interface UnitFactor {
  readonly word: string;
  readonly exponent: number;
}

/** A unit found in running text. */
export interface ScannedUnit {
  readonly unit: Unit;
  /** Offset after its last character. */
  readonly end: number;
}

export interface UnitTable {
  /** A single word with or without a prefix, in any known spelling; null when it is no unit. Case is never folded. */
  word(text: string): Unit | null;
  /** The product of factors, or the first word that is no unit. */
  resolve(factors: readonly UnitFactor[]): Unit | { readonly unknown: string };
  /** The longest unit that stands at `offset`: `mV/m`, `degrees Celsius`, `m/s²`, `N·m`, `W h`. Null when none does. */
  scan(text: string, offset: number): ScannedUnit | null;
  /** Known words within one edit, or alike but for case; nearest first. */
  nearest(word: string): readonly string[];
}

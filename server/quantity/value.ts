/** What a fact can be: a quantity with its spread, a text, yes or no, a set, one value per mode, a curve, or not yet known. */
import type { Rational } from './rational';
import type { Unit } from './unit';

/**
 * How a quantity is spread. *exact*: one known value. *tolerance*: one unknown value around a typical one.
 * *range*: a set of values every one of which occurs.
 */
export type Spread = 'exact' | 'tolerance' | 'range';

/** How the spread was written, so that it can be written again and moved as a whole. */
export type Form =
  | { readonly type: 'plain' }
  /** `N ± t`; `ratio` when t was given in % or ppm of N. */
  | { readonly type: 'symmetric'; readonly ratio: boolean }
  /** `N +a / -b`. */
  | { readonly type: 'asymmetric'; readonly ratio: boolean }
  /** `A to B`. */
  | { readonly type: 'range' }
  /** `{min, typ, max}` in any selection. */
  | { readonly type: 'mapping' };

/** A quantity in coherent base units; null ends are open (not given). `typical` is null for ranges. */
export interface QuantityValue {
  readonly type: 'quantity';
  readonly spread: Spread;
  readonly low: Rational | null;
  readonly typical: Rational | null;
  readonly high: Rational | null;
  /** The unit the author wrote. */
  readonly unit: Unit;
  readonly form: Form;
}

export interface TextValue {
  readonly type: 'text';
  readonly text: string;
}

export interface BooleanValue {
  readonly type: 'boolean';
  readonly boolean: boolean;
}

export interface SetValue {
  readonly type: 'set';
  readonly items: readonly (QuantityValue | TextValue)[];
}

/** A value that holds in one state; what a mode or a curve point may hold. */
export type SimpleValue = QuantityValue | TextValue | BooleanValue | SetValue;

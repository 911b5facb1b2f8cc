/** Quantities of a statement: numbers with the units that stand behind them, put together to ranges and tolerances. */
import type { Rational } from '../../quantity/rational';
import type { Unit } from '../../quantity/unit';
import type { Place } from '../../syntax/sentence/token';

/** One number with its unit, in base units (number × factor + offset). */
export interface Amount extends Place {
  readonly number: Rational;
  /** Null for a plain number (a count, a ratio). */
  readonly unit: Unit | null;
  readonly value: Rational;
  /** Half of the last digit given, as a length in base units. */
  readonly halfPlace: Rational;
  readonly doubt: string | null;
  /** Token after the last one. */
  readonly next: number;
  /** Its first token. */
  readonly first: number;
  /** A word such as *one*, *two*. */
  readonly spelled: boolean;
  /** `1` as a word stands for a figure only inside a limit phrase. */
  readonly isOne: boolean;
}

/**
 * - plain: one value in `low` (= `high`).
 * - ends: two ends. `tolerance`: written with ±, as one value and a width.
 * - around-zero: −t to t or −a to b; the ends are lengths.
 * - relative: a factor of the code span `base`.
 */
export type FigureForm = 'plain' | 'ends' | 'tolerance' | 'around-zero' | 'relative';

export interface Figure extends Place {
  readonly form: FigureForm;
  readonly low: Rational;
  readonly high: Rational;
  /** As written; null for plain numbers. A date has the unit of dates. */
  readonly lowUnit: Unit | null;
  readonly highUnit: Unit | null;
  readonly halfPlace: Rational;
  /** Of a relative figure: the code span that is its base. */
  readonly base: number | null;
  /** Why it cannot be read in one way, as the rest of a sentence that begins with the figure; null when it can. */
  readonly doubt: string | null;
  readonly first: number;
  readonly next: number;
  readonly spelled: boolean;
  readonly isOne: boolean;
  readonly provisional: boolean;
  /** Said again in brackets in another unit that does not agree: where. */
  readonly contradiction: Place | null;
}

/** Pairs the limit phrases of a statement with its code spans, by unit: the reading of a sentence as criteria. */
import type { Dimension } from '../quantity/dimension';
import type { Rational } from '../quantity/rational';
import type { Scale } from '../quantity/unit';
import type { QuantityValue } from '../quantity/value';
import type { Relation } from '../syntax/sentence/limit';
import type { Fix, Span } from '../syntax/span';

export { pairStatement } from './pairing/pair-statement';

/** What a code span of the statement turned out to be, once its names are known. */
export type CodeType =
  | {
      readonly type: 'quantity';
      readonly dimension: Dimension;
      readonly point: Scale | null;
      /** The fact has a range (every value in it occurs). */
      readonly isRange: boolean;
      /** Counts items, so that % and ppm never fit it; where not given, an expression `count(…)` does. */
      readonly isCount?: boolean;
      /** Comparisons with a literal inside the expression (`count(parts where rate >= 10 Gbit/s)`). */
      readonly comparisons: readonly InnerComparison[];
    }
  /** A comparison or other condition that needs no phrase; its own limits are listed. */
  | { readonly type: 'condition'; readonly comparisons: readonly InnerComparison[] }
  | { readonly type: 'boolean' }
  | { readonly type: 'text' }
  | { readonly type: 'set' }
  | { readonly type: 'mode'; readonly mode: string }
  /** A reference that cannot be typed (unknown name, TBD, wrong units): already reported where the cause is. */
  | { readonly type: 'undecided' }
  /** Ordinary code: no reference at all. */
  | { readonly type: 'ordinary' };

export interface InnerComparison {
  readonly relation: Relation;
  readonly value: QuantityValue;
}

/** One end of a limit: a quantity, or a factor of another code span ("80 % of `x`"). */
export type LimitEnd =
  | { readonly type: 'quantity'; readonly value: QuantityValue }
  | { readonly type: 'relative'; readonly factor: Rational; readonly code: number };

/** A limit that the prose puts on one code span. A lower limit stands in `low`, an upper in `high`, `=` in both. */
export interface ProseLimit {
  /** Index of the code span in the statement's prose. */
  readonly code: number;
  readonly relation: Relation;
  readonly low: LimitEnd | null;
  readonly high: LimitEnd | null;
  readonly trace: LimitTrace;
  /** Marked TBR or TBC: checked, shown as provisional. */
  readonly provisional: boolean;
}

/** Which words gave what; places in the document. */
export interface LimitTrace {
  /** Null where the figure alone says it: `A to B`. */
  readonly relation: Span | null;
  /** All of the figure, number and unit. */
  readonly quantity: Span;
  /** From the first number to the last; null for a factor in words, “twice `x`”. */
  readonly number: Span | null;
  /** Behind the number, or in front of it for money; null for plain numbers. */
  readonly unit: Span | null;
}

/** A finding of the reading, with its fixes; the requirement is undecided where `undecides`. */
export interface PairingProblem {
  readonly code: 'which-limit' | 'unchecked' | 'words-disagree' | 'unit-mismatch' | 'several-obligations' | 'bad-value';
  readonly message: string;
  readonly span: Span;
  readonly fixes: readonly Fix[];
  readonly undecides: boolean;
}

export interface Pairing {
  /** In text order. */
  readonly limits: readonly ProseLimit[];
  readonly problems: readonly PairingProblem[];
  /** Code spans that carry no criterion: inside a condition, the base of a relative limit, or `Not limits`. */
  readonly mentioned: ReadonlySet<number>;
  /** Code spans of *Where* clauses: the requirement applies while all are true. */
  readonly appliesWhen: readonly number[];
  /** Modes taken by *While* clauses; empty for every mode. */
  readonly modes: readonly string[];
}

export interface PairingOptions {
  /** The very words of `Not limits:`; a code span stands for its content. */
  readonly notLimits: readonly string[];
  /** Modes of the product. */
  readonly modes: readonly string[];
  /** Comparisons of the requirement's checks: what the prose says must then equal one of them. */
  readonly checks?: readonly InnerComparison[];
}

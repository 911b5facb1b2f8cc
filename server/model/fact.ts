/** Design facts: named values of the design, given or derived, as they are written. */
import type { QuantityValue, SimpleValue } from '../quantity/value';
import type { Expression } from '../syntax/expression/ast';
import type { Problem, Span } from '../syntax/span';
import type { Place } from './place';

export interface Fact {
  /** The full path: `memory.capacity`, `parts.soc.cost`. */
  readonly name: string;
  readonly file: string;
  /** The key. */
  readonly nameSpan: Span;
  /** The value. */
  readonly span: Span;
  /** The mapping it stands in: names in its expression are looked up here first, then outward. */
  readonly scope: readonly string[];
  /** The table row that it is a field of. */
  readonly row: RowReference | null;
  readonly content: Content;
  /** Where the figure comes from, as the author says. */
  readonly source: string | null;
  /** Marked TBR or TBC. */
  readonly provisional: boolean;
  /** Mistakes in the value; without one it says what it says. */
  readonly problems: readonly Problem[];
  /** The values that it may take, where the author lists them. */
  readonly choices: readonly SimpleValue[] | null;
}

export interface RowReference {
  readonly table: string;
  readonly id: string;
}

/** What is written as a value. */
export type Content =
  | { readonly type: 'value'; readonly value: SimpleValue }
  | { readonly type: 'expression'; readonly expression: Expression }
  /** `{min: …, max: …}` where an end is an expression: a range between two derived ends; null ends are open. */
  | { readonly type: 'ends'; readonly low: Expression | null; readonly high: Expression | null }
  | { readonly type: 'modes'; readonly modes: ReadonlyMap<string, Content> }
  | Curve
  /** To be determined: empty, `~` or TBD. */
  | { readonly type: 'tbd' }
  /** Could not be read; the fact's problems say why. */
  | { readonly type: 'bad' };

/** Computed from others; a value, a value per mode and a curve are given. */
export function isDerived({ type }: Content): boolean {
  return type === 'expression' || type === 'ends';
}

/** `{at: {x: y, …}, of: name, between: steps|lines}`: y by x, x ascending. */
export interface Curve {
  readonly type: 'curve';
  readonly of: Expression;
  readonly between: 'steps' | 'lines';
  readonly points: readonly { readonly x: QuantityValue; readonly y: QuantityValue }[];
}

/** One row of a table. */
export interface Row {
  readonly table: string;
  readonly id: string;
  readonly place: Place;
  /** Its fields by their path below the row (`power`, `draws.12V`). */
  readonly fields: ReadonlyMap<string, Fact>;
}

/** Rows of one table that stand in one document. */
export interface TablePart {
  readonly name: string;
  readonly place: Place;
  readonly rows: readonly Row[];
}

/** Fields whose value is always text, whatever it looks like. */
export const TEXT_FIELDS: ReadonlySet<string> = new Set(['id', 'name', 'mpn', 'kind', 'role', 'note', 'source']);

/** Keys of a value's own mapping; none of them is a fact's name. */
export const VALUE_KEYS: ReadonlySet<string> = new Set([
  'min',
  'typ',
  'max',
  'value',
  'choices',
  'note',
  'source',
  'at',
  'of',
  'between',
]);

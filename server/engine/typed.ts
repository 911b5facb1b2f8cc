/** What an expression means once its names are known: a term with its dimension, a condition, a text, a set, or why not. */
import type { Row } from '../model/fact';
import type { Place } from '../model/place';
import type { Dimension } from '../quantity/dimension';
import type { Scale, Unit } from '../quantity/unit';
import type { Fix } from '../syntax/span';
import type { Condition, Term } from './term';

export type Typed = TypedQuantity | TypedText | TypedCondition | TypedSet | Absent | Undecided;

export interface TypedQuantity {
  readonly type: 'quantity';
  readonly term: Term;
  readonly dimension: Dimension;
  /** The scale whose points these are; null for lengths. */
  readonly point: Scale | null;
  /** The two ends where the value is a given range or made like one; only such a value can span anything. */
  readonly range: { readonly low: Term | null; readonly high: Term | null } | null;
  /** The unit in which its author wrote it; null for what was computed. */
  readonly unit: Unit | null;
}

export interface TypedText {
  readonly type: 'text';
  readonly text: string;
}

export interface TypedCondition {
  readonly type: 'condition';
  readonly condition: Condition;
}

export interface TypedSet {
  readonly type: 'set';
  readonly items: readonly (TypedQuantity | TypedText)[];
}

/** A field that this row does not have, though rows of its table do. */
export interface Absent {
  readonly type: 'absent';
  readonly row: Row;
  readonly field: string;
  /** Other rows hold a quantity there, so that its absence leaves a condition undecided. */
  readonly quantity: boolean;
  readonly place: Place;
}

/** No value, and everything that stands in the way. */
export interface Undecided {
  readonly type: 'undecided';
  readonly reasons: readonly Reason[];
}

/** One cause, where it is written; it becomes one finding however much it leaves undecided. */
export interface Reason {
  readonly code: string;
  readonly message: string;
  readonly place: Place;
  readonly fixes: readonly Fix[];
  /** Other places of the same cause. */
  readonly related: readonly { readonly place: Place; readonly message: string }[];
  /** A row lacks the field: of many rows that do, one finding is made. */
  readonly missing?: { readonly row: Row; readonly field: string };
}

export function undecided(...reasons: readonly Reason[]): Undecided {
  return { type: 'undecided', reasons: distinct(reasons) };
}

/** One cause may be come to by many ways, and would else be told once for each. */
function distinct(reasons: readonly Reason[]): readonly Reason[] {
  const same = new Set(reasons);
  if (same.size <= 1) return [...same];
  const byPlace = new Map<string, Reason>();
  for (const one of same) {
    const { file, span } = one.place;
    const key = `${one.code} ${file} ${span.start} ${span.end}`;
    if (!byPlace.has(key)) byPlace.set(key, one);
  }
  return [...byPlace.values()];
}

export function reason(code: string, message: string, place: Place, more: Partial<Reason> = {}): Reason {
  return { code, message, place, fixes: [], related: [], ...more };
}

/** The reasons of all that are undecided; null when none is. */
export function reasonsOf(...parts: readonly Typed[]): readonly Reason[] | null {
  const reasons = parts.flatMap((part) =>
    part.type === 'undecided' ? part.reasons : part.type === 'absent' ? [absence(part)] : [],
  );
  return reasons.length === 0 ? null : reasons;
}

export function absence({ row, field, place }: Absent): Reason {
  return reason(
    'no-value',
    `${row.table}.${row.id} has no ${field}; write it, or say what it is where it is not written: ${field} else …`,
    place,
    { related: [{ place: row.place, message: `${row.id} has no ${field}` }], missing: { row, field } },
  );
}

export function quantity(term: Term, dimension: Dimension, more: Partial<TypedQuantity> = {}): TypedQuantity {
  return { type: 'quantity', term, dimension, point: null, range: null, unit: null, ...more };
}

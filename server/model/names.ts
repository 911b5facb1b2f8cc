/** What a name means where it stands: siblings first, then outward, then from the root. */
import type { Fact, Row } from './fact';
import type { Product, Table } from './product';

export type Meaning =
  | { readonly type: 'fact'; readonly fact: Fact }
  /** The name stands in several places and so means nothing. */
  | { readonly type: 'duplicate'; readonly facts: readonly Fact[] }
  | { readonly type: 'table'; readonly table: Table }
  | { readonly type: 'row'; readonly row: Row }
  /** A row's quantity that is not written: one item. */
  | { readonly type: 'one-item'; readonly row: Row }
  /** `x.min`, `x.typ`, `x.max`. */
  | { readonly type: 'end'; readonly of: Meaning; readonly end: End }
  /** `x.standby`: the value in one mode. */
  | { readonly type: 'in-mode'; readonly of: Meaning; readonly mode: string }
  | { readonly type: 'mode'; readonly mode: string };

export type End = 'min' | 'typ' | 'max';

const ENDS: readonly string[] = ['min', 'typ', 'max'];

/** Looks the path up from `scope` outward; from prose and checks the scope is empty. Null when nothing has the name. */
export function lookUp(product: Product, parts: readonly string[], scope: readonly string[]): Meaning | null {
  for (let length = scope.length; length >= 0; length -= 1) {
    const meaning = atPath(product, [...scope.slice(0, length), ...parts]);
    if (meaning !== null) return meaning;
    if (length > 0 && isRowField(product, scope.slice(0, length), parts)) return null;
  }
  const [only] = parts;
  if (parts.length === 1 && only !== undefined && product.modes.has(only)) return { type: 'mode', mode: only };
  return null;
}

/** The table that a path means from `scope` outward; names that are no table do not stand in its way. */
export function lookUpTable(product: Product, parts: readonly string[], scope: readonly string[]): Table | null {
  for (let length = scope.length; length >= 0; length -= 1) {
    const table = product.tables.get([...scope.slice(0, length), ...parts].join('.'));
    if (table !== undefined) return table;
  }
  return null;
}

/** Every name that may stand in prose or in a check, for suggestions. */
export function knownNames(product: Product): Iterable<string> {
  return [...product.facts.keys(), ...product.tables.keys(), ...product.modes];
}

function atPath(product: Product, path: readonly string[]): Meaning | null {
  const name = path.join('.');
  const fact = product.facts.get(name);
  if (fact !== undefined) return { type: 'fact', fact };
  const duplicates = product.duplicates.get(name);
  if (duplicates !== undefined) return { type: 'duplicate', facts: duplicates };
  const table = product.tables.get(name);
  if (table !== undefined) return { type: 'table', table };
  return rowAt(product, path) ?? suffixAt(product, path);
}

function rowAt(product: Product, path: readonly string[]): Meaning | null {
  const last = path[path.length - 1];
  const row = findRow(product, path.slice(0, -1), last);
  if (row !== null) return { type: 'row', row };
  if (last !== 'quantity') return null;
  const owner = findRow(product, path.slice(0, -2), path[path.length - 2]);
  return owner === null ? null : { type: 'one-item', row: owner };
}

function findRow(product: Product, table: readonly string[], id: string | undefined): Row | null {
  return id === undefined ? null : (product.tables.get(table.join('.'))?.rowsById.get(id) ?? null);
}

/** `x.min` and `x.standby` where x is a fact. */
function suffixAt(product: Product, path: readonly string[]): Meaning | null {
  const last = path[path.length - 1];
  if (path.length < 2 || last === undefined) return null;
  const isEnd = ENDS.includes(last);
  if (!isEnd && !product.modes.has(last)) return null;
  const of = atPath(product, path.slice(0, -1));
  if (of === null || (of.type !== 'fact' && of.type !== 'duplicate' && of.type !== 'in-mode')) return null;
  return isEnd ? { type: 'end', of, end: last as End } : { type: 'in-mode', of, mode: last };
}

/** In a row, a name that is a field of any row of that table is never looked up further out. */
function isRowField(product: Product, scope: readonly string[], parts: readonly string[]): boolean {
  const table = product.tables.get(scope.slice(0, -1).join('.'));
  if (table === undefined || !table.rowsById.has(scope[scope.length - 1] ?? '')) return false;
  return table.fieldNames.has(parts.join('.')) || table.fieldNames.has(parts[0] ?? '');
}

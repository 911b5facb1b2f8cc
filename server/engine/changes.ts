/** A product with some given figures otherwise than they are written, or without some rows. */
import type { Content, Fact, Row } from '../model/fact';
import type { Product, Table } from '../model/product';
import type { SimpleValue } from '../quantity/value';

/** What is otherwise than it is written. */
export interface Changes {
  readonly values: readonly ChangedValue[];
  readonly without: readonly RowName[];
}

export interface ChangedValue {
  /** The fact's full name; a derived fact becomes a given one. */
  readonly name: string;
  /** For a fact with a value in each mode: the mode whose value changes; null for all. */
  readonly mode: string | null;
  readonly value: SimpleValue;
}

export interface RowName {
  readonly table: string;
  readonly id: string;
}

/** The product with the changes made; documents stay as they are. */
export function changedProduct(product: Product, { values, without }: Changes): Product {
  const facts = new Map(product.facts);
  const tables = new Map(product.tables);
  for (const { name, mode, value } of values) {
    const fact = facts.get(name);
    if (fact === undefined) continue;
    const moved = { ...fact, content: changedContent(fact.content, mode, value), problems: [] };
    facts.set(name, moved);
    withField(tables, moved);
  }
  for (const { table: name, id } of without) {
    const table = tables.get(name);
    const row = table?.rowsById.get(id);
    if (table === undefined || row === undefined) continue;
    for (const { name: field } of row.fields.values()) facts.delete(field);
    tables.set(
      name,
      withRows(
        table,
        table.rows.filter((other) => other !== row),
      ),
    );
  }
  return { ...product, facts, tables };
}

function changedContent(content: Content, mode: string | null, value: SimpleValue): Content {
  const changed: Content = { type: 'value', value };
  return content.type === 'modes' && mode !== null
    ? { type: 'modes', modes: new Map(content.modes).set(mode, changed) }
    : changed;
}

/** A row holds its fields beside the product. */
function withField(tables: Map<string, Table>, fact: Fact): void {
  const { row } = fact;
  const table = row === null ? undefined : tables.get(row.table);
  if (row === null || table === undefined) return;
  const prefix = `${row.table}.${row.id}.`;
  const changed = (one: Row): Row =>
    one.id === row.id ? { ...one, fields: new Map(one.fields).set(fact.name.slice(prefix.length), fact) } : one;
  tables.set(row.table, withRows(table, table.rows.map(changed)));
}

/** Field names stay: a text that only the row had is still no slip of the pen. */
function withRows(table: Table, rows: readonly Row[]): Table {
  return { ...table, rows, rowsById: new Map(rows.map((row) => [row.id, row])) };
}

/** A document read anew: whatever it says as before, in the same place, stays the object that it was. */
import type { DocumentModel } from './document';
import { isSame } from './same';

/** @param before what was read of it before; null where nothing is to be kept */
export function retained(before: DocumentModel | null, now: DocumentModel | null): DocumentModel | null {
  if (before === null || now === null) return now;
  const kept: DocumentModel = {
    ...now,
    facts: keep(before.facts, now.facts, ({ name }) => name),
    tables: keep(before.tables, now.tables, ({ name }) => name).map((table) => {
      const former = before.tables.find(({ name }) => name === table.name);
      return former === undefined || former === table
        ? table
        : { ...table, rows: keep(former.rows, table.rows, ({ id }) => id) };
    }),
    requirements: keep(before.requirements, now.requirements, ({ id }) => id),
    verifications: keep(before.verifications, now.verifications, ({ id }) => id),
  };
  return isSame(before, kept) ? before : kept;
}

function keep<Item>(before: readonly Item[], now: readonly Item[], keyOf: (item: Item) => string): readonly Item[] {
  const known = new Map(before.map((item) => [keyOf(item), item]));
  const used = new Set<Item>();
  return now.map((item) => {
    const former = known.get(keyOf(item));
    if (former === undefined || used.has(former) || !isSame(former, item)) return item;
    used.add(former);
    return former;
  });
}

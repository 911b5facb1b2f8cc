/** A document read anew: whatever it says as before stays the object that it was, and follows to where it stands now. */
import { anchored, followed } from '../syntax/anchor';
import type { DocumentModel } from './document';
import type { Row, TablePart } from './fact';
import { isSame } from './same';

/**
 * What is new, or moves for the first time, is anchored, so that from then on it may move and be the same object. Places
 * in `before` are those of the text before until this is called, and of no use afterwards.
 * @param before what was read of it before; null where nothing is to be kept
 */
export function retained(before: DocumentModel | null, now: DocumentModel): DocumentModel {
  if (before === null) return withAnchoredRecords(now);
  const keeper = new Keeper(now.file);
  const kept: DocumentModel = {
    ...now,
    facts: keeper.keep(before.facts, now.facts, ({ name }) => name),
    tables: now.tables.map((table) => keptTable(before, table, keeper)),
    requirements: keeper.keep(before.requirements, now.requirements, ({ id }) => id),
    verifications: keeper.keep(before.verifications, now.verifications, ({ id }) => id),
  };
  return !keeper.hasMoved && isSame(before, kept) ? before : kept;
}

/** The document with all of it anchored: one of which nothing was judged yet, or that is judged anew once. */
export function anchoredDocument(document: DocumentModel): DocumentModel {
  const all = <Item>(items: readonly Item[]) => items.map((item) => anchored(item, document.file));
  return {
    ...withAnchoredRecords(document),
    facts: all(document.facts),
    tables: document.tables.map((table) => ({ ...table, rows: all(table.rows) })),
    requirements: all(document.requirements),
  };
}

/** Another record is another ground for the whole product, so that none may be another for having moved. */
function withAnchoredRecords(document: DocumentModel): DocumentModel {
  const { file, verifications } = document;
  if (verifications.length === 0) return document;
  return { ...document, verifications: verifications.map((record) => anchored(record, file)) };
}

function keptTable(before: DocumentModel, table: TablePart, keeper: Keeper): TablePart {
  const former = before.tables.find(({ name }) => name === table.name);
  const rows: readonly Row[] = former?.rows ?? [];
  return { ...table, rows: keeper.keep(rows, table.rows, ({ id }) => id) };
}

class Keeper {
  /** Something that is kept stands elsewhere in the text. */
  hasMoved = false;

  constructor(private readonly file: string) {}

  /** What has changed places with others is read anew: whatever goes by order would else have to follow. */
  keep<Item>(before: readonly Item[], now: readonly Item[], keyOf: (item: Item) => string): readonly Item[] {
    const indexes = new Map(before.map((item, index) => [keyOf(item), index]));
    let next = 0;
    return now.map((item) => {
      const index = indexes.get(keyOf(item)) ?? -1;
      const former = index < next ? undefined : before[index];
      const by = former === undefined ? null : followed(former, item);
      if (former === undefined || by === null) return anchored(item, this.file);
      if (by !== 0) this.hasMoved = true;
      next = index + 1;
      return former;
    });
  }
}

/** Ids for the rows of a spreadsheet: theirs where they have one, else the next that is free. */
import { isId } from '../model/requirement-id';

export interface CsvRow {
  readonly cells: readonly string[];
  /** From 1, as a spreadsheet counts. */
  readonly number: number;
}

export interface NumberedId {
  readonly row: CsvRow;
  readonly id: string;
  /** What stood there and is no id. */
  readonly replaced: string | null;
}

export interface RowIds {
  readonly rows: readonly NumberedId[];
  /** What the ids begin with, in order of appearance. */
  readonly prefixes: readonly string[];
  readonly notes: readonly string[];
}

/** Rows without an id, or with one that is none, go on in the series of the id before them. */
export function idsOf(rows: readonly CsvRow[], column: number | null): RowIds {
  const given = rows.map(({ cells }) => (column === null ? '' : (cells[column] ?? '').trim()));
  const taken = new Map<string, number>();
  const notes: string[] = [];
  for (const [index, id] of given.entries()) {
    const first = taken.get(id);
    const { number } = rows[index] as CsvRow;
    if (!isId(id, null)) continue;
    if (first === undefined) taken.set(id, number);
    else notes.push(`rows ${first} and ${number} have one id, ${id}`);
  }
  const free = freeIds(new Set(taken.keys()));
  const named = rows.map((row, index): NumberedId => {
    const own = given[index] ?? '';
    if (isId(own, null)) return { row, id: free.goOnAfter(own), replaced: null };
    const id = free.next();
    notes.push(
      own === ''
        ? `row ${row.number} had no id and is ${id}`
        : `row ${row.number}: “${own}” is no id of the form ABC-1 and is ${id}`,
    );
    return { row, id, replaced: own === '' ? null : own };
  });
  const prefixes = [...new Set(named.map(({ id }) => id.slice(0, id.indexOf('-'))))];
  return { rows: named, prefixes, notes };
}

/** The next id of a series that nobody has; each number is looked at once. */
function freeIds(taken: Set<string>) {
  const reached = new Map<string, number>();
  let series = 'REQ-';
  let digits = '1';
  return {
    goOnAfter: (id: string): string => {
      const [, before = series, number = digits] = /^(.*-)(\d+)[A-Za-z]?$/.exec(id) ?? [];
      [series, digits] = [before, number];
      reached.set(series, Math.max(reached.get(series) ?? 0, Number(number)));
      return id;
    },
    next: (): string => {
      for (let number = (reached.get(series) ?? 0) + 1; ; number += 1) {
        const id = `${series}${String(number).padStart(digits.length, '0')}`;
        if (taken.has(id)) continue;
        taken.add(id);
        reached.set(series, number);
        return id;
      }
    },
  };
}

/** Requirements from a spreadsheet's CSV (RFC 4180) → a document: columns are known by their names, ids are kept. */
import { parse } from 'csv-parse/sync';
import { ATTRIBUTES } from '../../grammar/attributes';
import { isId, nextFreeId } from '../model/requirement-id';

export interface Imported {
  readonly text: string;
  readonly count: number;
  /** What was not taken over as it stands. */
  readonly notes: readonly string[];
}

/** Column names for what every requirement has; attributes go by their own names. */
const ID_COLUMNS = ['id', 'identifier', 'number', 'key'];
const TITLE_COLUMNS = ['title', 'name', 'heading', 'summary'];
const STATEMENT_COLUMNS = ['requirement', 'statement', 'text', 'description'];

/** @param title what the document calls the product */
export function importedCsv(csv: string, title: string): Imported | { readonly mistake: string } {
  const rows = rowsOf(csv);
  if (typeof rows === 'string') return { mistake: rows };
  const [header = [], ...body] = rows;
  const columns = columnsOf(header);
  if (columns.statement === null)
    return {
      mistake: `no column holds the requirements; call one ${STATEMENT_COLUMNS.join(', ')} (there are ${header.join(', ')})`,
    };
  const written = body.filter((row) => row.some((cell) => cell.trim() !== ''));
  const ids = idsOf(written, columns.id);
  const sections = written.map((row, index) => section(row, ids.ids[index] as string, columns));
  const front = `---\nrequirements: ${JSON.stringify(title)}\n---\n`;
  return {
    text: `${front}\n${sections.join('\n')}`,
    count: written.length,
    notes: [...ids.notes, ...notTaken(columns)],
  };
}

function rowsOf(csv: string): readonly (readonly string[])[] | string {
  const first = csv.slice(0, csv.search(/\r?\n|$/));
  // Spreadsheets of countries with a decimal comma part cells by semicolons.
  const delimiter =
    first.includes(';') && !first.includes(',') ? ';' : first.includes('\t') && !first.includes(',') ? '\t' : ',';
  try {
    const rows: string[][] = parse(csv, { bom: true, delimiter, relax_column_count: true, skip_empty_lines: true });
    return rows.length === 0 ? 'the file holds no rows' : rows;
  } catch (error) {
    return `this is no CSV: ${error instanceof Error ? error.message : String(error)}`;
  }
}

interface Columns {
  readonly id: number | null;
  readonly title: number | null;
  readonly statement: number | null;
  readonly attributes: readonly { readonly key: string; readonly column: number }[];
  readonly unknown: readonly string[];
}

function columnsOf(header: readonly string[]): Columns {
  const names = header.map((name) => name.trim().toLowerCase());
  const find = (known: readonly string[]) => {
    const column = known.map((name) => names.indexOf(name)).find((index) => index >= 0);
    return column ?? null;
  };
  const [id, title, statement] = [find(ID_COLUMNS), find(TITLE_COLUMNS), find(STATEMENT_COLUMNS)];
  const attributes = ATTRIBUTES.flatMap(({ key }) => {
    const column = names.indexOf(key.toLowerCase());
    return column < 0 ? [] : [{ key, column }];
  });
  const taken = new Set([id, title, statement, ...attributes.map(({ column }) => column)]);
  return { id, title, statement, attributes, unknown: header.filter((_, index) => !taken.has(index)) };
}

/** Ids stay as they are; rows without one, or with one that is none, get the next that is free. */
function idsOf(rows: readonly (readonly string[])[], column: number | null) {
  const given = rows.map((row) => (column === null ? '' : (row[column] ?? '').trim()));
  const ids: string[] = [];
  const notes: string[] = [];
  const known = given.filter((id) => isId(id, null));
  for (const [index, id] of given.entries()) {
    if (isId(id, null)) {
      ids.push(id);
      continue;
    }
    const next = nextFreeId([...known.filter((other) => !ids.includes(other)), ...ids]);
    notes.push(
      id === ''
        ? `row ${index + 2} had no id and is ${next}`
        : `row ${index + 2}: “${id}” is no id of the form ABC-1 and is ${next}`,
    );
    ids.push(next);
    known.push(next);
  }
  return { ids, notes };
}

function notTaken({ unknown }: Columns): readonly string[] {
  const named = unknown.filter((name) => name.trim() !== '');
  return named.length === 0 ? [] : [`not taken over, since no attribute is called so: ${named.join(', ')}`];
}

function section(row: readonly string[], id: string, { title, statement, attributes }: Columns): string {
  const cell = (column: number | null) => (column === null ? '' : oneLine(row[column] ?? ''));
  const lines = attributes.flatMap(({ key, column }) => (cell(column) === '' ? [] : [`- ${key}: ${cell(column)}`]));
  const head = `## ${id} ${cell(title)}`.trimEnd();
  const parts = [head, inert(cell(statement)), lines.join('\n')].filter((part) => part !== '');
  return `${parts.join('\n\n')}\n`;
}

/** Lines of a cell are one paragraph. */
function oneLine(text: string): string {
  return text.replace(/\s+/gu, ' ').trim();
}

/** A statement that begins like a heading, list, quote, rule or fence of Markdown is still a paragraph. */
function inert(text: string): string {
  return text.replace(/^(?=[#>+*=~`_|-])/, '\\').replace(/^(\d{1,9})([.)])(?=\s)/, '$1\\$2');
}

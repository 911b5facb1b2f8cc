/** Requirements from a spreadsheet's CSV (RFC 4180) → a document: columns are known by their names, ids are kept. */
import { parse } from 'csv-parse/sync';
import { ATTRIBUTES } from '../../grammar/attributes';
import { type CsvRow, idsOf, type NumberedId } from './import-ids';
import { codeText, headingText, oneLine, paragraphText, plainText } from './import-markdown';

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
/** Attributes that hold a condition. */
const CONDITIONS = ['Check', 'Applies when'];
/** Attributes that hold a link. */
const LINKS = ['Evidence'];

/** @param title what the document calls the product */
export function importedCsv(csv: string, title: string): Imported | { readonly mistake: string } {
  const rows = rowsOf(csv);
  if (typeof rows === 'string') return { mistake: rows };
  const [header, ...body] = rows;
  if (header === undefined) return { mistake: 'the file holds no rows' };
  const columns = columnsOf(header.cells);
  if (columns.statement === null)
    return {
      mistake: `no column holds the requirements; call one ${STATEMENT_COLUMNS.join(', ')} (there are ${header.cells.join(', ')})`,
    };
  const wide = body.find(({ cells }) => cells.slice(header.cells.length).some((cell) => cell.trim() !== ''));
  if (wide !== undefined)
    return { mistake: `row ${wide.number} has more cells than the header; a cell that holds a comma stands in quotes` };
  const ids = idsOf(body, columns.id);
  const sections = ids.rows.map((row) => section(row, columns));
  const without = ids.rows.filter(({ row }) => oneLine(row.cells[columns.statement ?? 0] ?? '') === '');
  return {
    text: `${frontMatter(title, ids.prefixes)}\n${sections.join('\n')}`,
    count: body.length,
    notes: [
      ...ids.notes,
      ...without.map(({ row, id }) => `row ${row.number}: ${id} says nothing`),
      ...notTaken(columns),
    ],
  };
}

/** With the prefixes named, a row without an obligation word is a requirement as well, and is asked about. */
function frontMatter(title: string, prefixes: readonly string[]): string {
  const ids = prefixes.length === 0 ? '' : `ids: [${prefixes.join(', ')}]\n`;
  return `---\nrequirements: ${JSON.stringify(title)}\n${ids}---\n`;
}

/** Rows that hold anything, with the number that a spreadsheet gives them. */
function rowsOf(csv: string): readonly CsvRow[] | string {
  try {
    const rows: string[][] = parse(csv, { bom: true, delimiter: delimiterOf(csv), relax_column_count: true });
    return rows
      .map((cells, index) => ({ cells, number: index + 1 }))
      .filter(({ cells }) => cells.some((cell) => cell.trim() !== ''));
  } catch (error) {
    return `this is no CSV: ${error instanceof Error ? error.message : String(error)}`;
  }
}

/** Spreadsheets of countries with a decimal comma part cells by semicolons. */
function delimiterOf(csv: string): string {
  const first = csv.slice(0, csv.search(/\r?\n|\r|$/)).replace(/"(?:[^"]|"")*"/g, '');
  if (first.includes(',')) return ',';
  return first.includes(';') ? ';' : first.includes('\t') ? '\t' : ',';
}

interface Columns {
  readonly id: number | null;
  readonly title: number | null;
  readonly statement: number | null;
  readonly attributes: readonly { readonly key: string; readonly column: number }[];
  readonly unknown: readonly string[];
}

function columnsOf(header: readonly string[]): Columns {
  const names = header.map((name) => oneLine(name).toLowerCase());
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

function notTaken({ unknown }: Columns): readonly string[] {
  const named = unknown.map(oneLine).filter((name) => name !== '');
  return named.length === 0 ? [] : [`not taken over, since no attribute is called so: ${named.join(', ')}`];
}

function section({ row, id, replaced }: NumberedId, { title, statement, attributes }: Columns): string {
  const cell = (column: number | null) => (column === null ? '' : oneLine(row.cells[column] ?? ''));
  const lines = attributes.flatMap(({ key, column }) =>
    cell(column) === '' ? [] : [`- ${key}: ${attributeText(key, cell(column))}`],
  );
  // An id that had to give way is still to be found.
  const name = [replaced ?? '', cell(title)].filter((part) => part !== '').join(': ');
  // A dash after an id parts it from its title.
  const head = `## ${id}${/^[:—–-]/.test(name) ? ':' : ''} ${headingText(name)}`.trimEnd();
  const parts = [head, paragraphText(cell(statement)), lines.join('\n')].filter((part) => part !== '');
  return `${parts.join('\n\n')}\n`;
}

function attributeText(key: string, text: string): string {
  if (CONDITIONS.includes(key)) return codeText(text);
  return LINKS.includes(key) ? text : plainText(text);
}

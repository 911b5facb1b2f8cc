/** Rows of a CSV file → the same trees that front matter gives, so that one reader makes facts of both. */
import { parse } from 'csv-parse/sync';
import { type Problem, type Span, spanOf } from '../syntax/span';
import type { YamlEntry, YamlMap, YamlNode, YamlScalar } from '../syntax/yaml-node';

/** How columns become fields: `{from: bom.csv, id: Designator, fields: {cost: Price}, units: {cost: EUR}}`. */
export interface CsvShape {
  readonly from: string;
  /** The column that holds the rows' ids. */
  readonly id: string;
  /** Field by column; empty: every column whose name can be a field's. */
  readonly fields: ReadonlyMap<string, string>;
  /** Units of fields whose cells hold plain numbers. */
  readonly units: ReadonlyMap<string, string>;
}

export interface CsvRows {
  readonly rows: readonly YamlMap[];
  /** Spans are places in the CSV file. */
  readonly problems: readonly Problem[];
}

const FIELD = /^[\p{L}_](?:[\p{L}\p{N}_-]*[\p{L}\p{N}_])?$/u;
const PLAIN_NUMBER = /^[-+]?\d+(?:\.\d+)?$/;

/** The table's shape, where it reads a CSV file; null where it does not. */
export function csvShapeOf(node: YamlMap): CsvShape | null {
  const from = textAt(node, 'from');
  if (from === null) return null;
  return { from, id: textAt(node, 'id') ?? 'id', fields: textsAt(node, 'fields'), units: textsAt(node, 'units') };
}

/** Reads the rows. What is wrong with the file is a problem in it, at the line concerned. */
export function readCsvRows(text: string, shape: CsvShape): CsvRows {
  const records = recordsOf(text);
  if ('problem' in records) return { rows: [], problems: [records.problem] };
  const [header, ...body] = records.records;
  if (header === undefined) return { rows: [], problems: [problem('the file has no header line', spanOf(0, 0))] };
  const columns = header.cells.map((cell) => cell.trim());
  const idColumn = columns.indexOf(shape.id);
  if (idColumn < 0) {
    return {
      rows: [],
      problems: [problem(`no column is called “${shape.id}”; there are ${columns.join(', ')}`, header.span)],
    };
  }
  const fields = fieldColumns(shape, columns);
  const missing = [...fields].filter(([, column]) => column < 0).map(([field]) => shape.fields.get(field) ?? field);
  const problems = missing.map((name) =>
    problem(`no column is called “${name}”; there are ${columns.join(', ')}`, header.span),
  );
  const rows = body
    .filter(({ cells }) => cells.some((cell) => cell.trim() !== ''))
    .map((record) => rowOf(record, idColumn, fields, shape.units));
  return { rows, problems };
}

interface CsvRecord {
  readonly cells: readonly string[];
  readonly span: Span;
}

function recordsOf(text: string): { readonly records: readonly CsvRecord[] } | { readonly problem: Problem } {
  try {
    const parsed = parse(text, {
      bom: true,
      raw: true,
      relaxColumnCount: true,
      skipEmptyLines: false,
    }) as unknown as readonly {
      readonly record: readonly string[];
      readonly raw: string;
    }[];
    let start = 0;
    const records = parsed.map(({ record, raw }) => {
      const span = spanOf(start, start + raw.replace(/[\r\n]+$/, '').length);
      start += raw.length;
      return { cells: record, span };
    });
    return { records };
  } catch (error) {
    return {
      problem: problem(`this is no CSV: ${error instanceof Error ? error.message : String(error)}`, spanOf(0, 0)),
    };
  }
}

/** Which column each field is read from; −1 where there is none of that name. */
function fieldColumns(shape: CsvShape, columns: readonly string[]): ReadonlyMap<string, number> {
  if (shape.fields.size > 0)
    return new Map([...shape.fields].map(([field, column]) => [field, columns.indexOf(column)]));
  const named = columns.map((name, index) => [name, index] as const);
  return new Map(named.filter(([name]) => FIELD.test(name) && name !== shape.id && name !== 'id'));
}

function rowOf(
  record: CsvRecord,
  idColumn: number,
  fields: ReadonlyMap<string, number>,
  units: ReadonlyMap<string, string>,
): YamlMap {
  const entries = [entry('id', scalar(record.cells[idColumn] ?? '', record.span), record.span)];
  for (const [field, column] of fields) {
    const cell = (record.cells[column] ?? '').trim();
    // An empty cell is a field that the row does not have, not one to be determined.
    if (column < 0 || cell === '') continue;
    const unit = units.get(field);
    entries.push(
      entry(
        field,
        scalar(unit !== undefined && PLAIN_NUMBER.test(cell) ? `${cell} ${unit}` : cell, record.span),
        record.span,
      ),
    );
  }
  return { type: 'map', entries, flow: false, span: record.span };
}

function entry(key: string, value: YamlNode, keySpan: Span): YamlEntry {
  return { key, keySpan, value, hasColon: true };
}

function scalar(text: string, span: Span): YamlScalar {
  // A cell is never an expression: a spreadsheet's own formulas begin with = too.
  const isFormula = text.trimStart().startsWith('=');
  return {
    type: 'scalar',
    style: isFormula ? 'quoted' : 'plain',
    text: isFormula ? ` ${text.trimStart()}` : text,
    span,
    textStart: null,
  };
}

function textAt(node: YamlMap, name: string): string | null {
  const value = node.entries.find(({ key }) => key === name)?.value;
  return value?.type === 'scalar' && value.text.trim() !== '' ? value.text.trim() : null;
}

function textsAt(node: YamlMap, name: string): ReadonlyMap<string, string> {
  const value = node.entries.find(({ key }) => key === name)?.value;
  if (value?.type !== 'map') return new Map();
  return new Map(
    value.entries.flatMap((one) => (one.value.type === 'scalar' ? [[one.key, one.value.text.trim()] as const] : [])),
  );
}

function problem(message: string, span: Span): Problem {
  return { code: 'bad-value', message, span };
}

/** The `facts`, `parts` and `rails` of one document's front matter → facts and table rows. */
import { KEYWORDS } from '../../grammar/expression';
import { isInteger, type Rational, sign } from '../quantity/rational';
import type { Problem, Span } from '../syntax/span';
import { doubtIn, type YamlEntry, type YamlList, type YamlMap, type YamlNode } from '../syntax/yaml-node';
import { type CsvShape, csvShapeOf, readCsvRows } from './csv-rows';
import { type Fact, type Row, type RowReference, type TablePart, TEXT_FIELDS, VALUE_KEYS } from './fact';
import { pathBeside } from './paths';
import type { PlacedProblem } from './place';
import { isValueNode, type ReadContent, type ReadingContext, readContent } from './read-content';

/** A CSV file that a table reads its rows from. */
export interface DataFile {
  /** Below the product's folder. */
  readonly path: string;
  /** Where it is named. */
  readonly span: Span;
}

export interface ReadFacts {
  readonly dataFiles: readonly DataFile[];
  readonly facts: readonly Fact[];
  readonly tables: readonly TablePart[];
  /** With the document each stands in: this one, or a CSV file. */
  readonly problems: readonly PlacedProblem[];
}

/** Rows of a table past this are not read. */
const MAXIMUM_ROWS = 10_000;
const TABLE_KEYS = ['defaults', 'rows', 'from', 'id', 'fields', 'units'];
const NAME_PART = /^[\p{L}\p{N}_](?:[\p{L}\p{N}_-]*[\p{L}\p{N}_])?$/u;
const STARTS_WITH_LETTER = /^[\p{L}_]/u;
/** Tables with a place of their own at the top of the front matter; no fact at the root may take these names. */
const ROOT_TABLES = ['parts', 'rails', 'connections'];

/**
 * Reads the design part of a document's front matter. Names that stand twice in one document are joined later.
 *
 * @param split values that a comma ended too early: what is left of them is no value
 */
export function readFacts(
  frontMatter: YamlMap,
  file: string,
  context: ReadingContext,
  split: readonly Problem[],
): ReadFacts {
  const reader = new FactReader(file, context, new Map(split.map((problem) => [problem.span.start, problem])));
  for (const entry of frontMatter.entries) {
    if (entry.key === 'facts') reader.root(entry);
    else if (entry.key === 'parts' || entry.key === 'rails') reader.table([entry.key], entry, null);
  }
  return reader;
}

class FactReader implements ReadFacts {
  readonly facts: Fact[] = [];
  readonly tables: TablePart[] = [];
  readonly problems: PlacedProblem[] = [];
  readonly dataFiles: DataFile[] = [];

  constructor(
    private readonly file: string,
    private readonly context: ReadingContext,
    private readonly split: ReadonlyMap<number, Problem>,
  ) {}

  root({ value, keySpan, doubt }: YamlEntry): void {
    if (value.type === 'map') for (const entry of value.entries) this.entry(entry, [], null, doubt ?? null);
    else if (value.type !== 'scalar' || value.style !== 'empty') {
      this.report('“facts” is a mapping of names to values, such as “supply: {draw: 45 W}”', keySpan);
    }
  }

  /** @param outer what leaves all that it stands in in doubt */
  table(path: readonly string[], { value: node, keySpan, doubt }: YamlEntry, outer: Problem | null): void {
    const { rows, defaults } = tableShape(node);
    const inDoubt = outer ?? doubt ?? null;
    if (node.type === 'map') this.refuseUnknownTableKeys(node);
    const csv = node.type === 'map' ? csvShapeOf(node) : null;
    const imported = csv === null ? [] : this.csvRows(path, csv, keySpan, defaults, inDoubt);
    if (rows === null && csv !== null) {
      this.tables.push({ name: path.join('.'), place: { file: this.file, span: keySpan }, rows: imported });
      return;
    }
    if (rows === null) {
      this.report(`“${path.join('.')}” is a list of rows, each with an id: - {id: soc, power: 12 W}`, keySpan);
      return;
    }
    if (rows.items.length > MAXIMUM_ROWS) {
      this.report(`a table has at most ${MAXIMUM_ROWS} rows; this one has ${rows.items.length}`, keySpan, 'too-large');
      return;
    }
    const read = rows.items.map((row) => this.row(path, row, defaults, inDoubt)).filter((row) => row !== null);
    const joined = [...joinRows(imported, read)];
    this.tables.push({ name: path.join('.'), place: { file: this.file, span: keySpan }, rows: joined });
  }

  /** Rows of a CSV file, with the table's defaults. */
  private csvRows(
    path: readonly string[],
    shape: CsvShape,
    span: Span,
    defaults: YamlMap | null,
    doubt: Problem | null,
  ): readonly Row[] {
    const file = pathBeside(this.file, shape.from);
    this.dataFiles.push({ path: file, span });
    const text = this.context.data.get(file);
    if (text === undefined) return [];
    const { rows, problems } = readCsvRows(text, shape);
    const reader = new FactReader(file, this.context, new Map());
    const read = rows.map((row) => reader.row(path, row, defaults, doubt)).filter((row) => row !== null);
    this.problems.push(...problems.map((problem) => ({ ...problem, file })), ...reader.problems);
    return read;
  }

  private refuseUnknownTableKeys(node: YamlMap): void {
    for (const { key, keySpan } of node.entries) {
      if (!TABLE_KEYS.includes(key)) this.report(`“${key}” is no part of a table: ${TABLE_KEYS.join(', ')}`, keySpan);
    }
  }

  /** One `key: value` of a group or row: a fact, a group of its own, or a table. */
  private entry(entry: YamlEntry, scope: readonly string[], row: RowReference | null, outer: Problem | null): Fact[] {
    const doubt = outer ?? entry.doubt ?? null;
    const key = this.namePath(entry, scope, row);
    if (key === null) return [];
    const path = [...scope, ...key];
    const { value } = entry;
    const field = key[key.length - 1] as string;
    const isText = row === null ? field === 'note' || field === 'source' : TEXT_FIELDS.has(field);
    if (row === null && isTable(value)) {
      this.table(path, entry, outer);
      return [];
    }
    if (value.type === 'map' && !isValueNode(value, this.context)) {
      return value.entries.flatMap((inner) => this.entry(inner, path, row, doubt));
    }
    const content = this.wholeContent(value, isText, doubt);
    const isQuantity = row !== null && scope.length === row.table.split('.').length + 1 && field === 'quantity';
    const read = isQuantity ? asCount(content, value.span) : content;
    const fact: Fact = {
      name: path.join('.'),
      file: this.file,
      nameSpan: entry.keySpan,
      span: value.span.end > value.span.start ? value.span : entry.keySpan,
      scope: path.slice(0, -1),
      row,
      ...read,
    };
    if (row === null) this.facts.push(fact);
    return [fact];
  }

  /** The value, unless a comma ended it early or it is given otherwise as well: then nothing is known of it. */
  private wholeContent(node: YamlNode, isText: boolean, outer: Problem | null): ReadContent {
    const read = readContent(node, this.context, isText);
    const doubt = outer ?? doubtIn(node);
    const problems = [...(this.split.size === 0 ? [] : this.splitIn(node)), ...(doubt === null ? [] : [doubt])];
    return problems.length === 0 ? read : { ...read, content: { type: 'bad' }, problems };
  }

  private splitIn(node: YamlNode): readonly Problem[] {
    if (node.type === 'list') return node.items.flatMap((item) => this.splitIn(item));
    if (node.type === 'map') return node.entries.flatMap(({ value }) => this.splitIn(value));
    const problem = this.split.get(node.span.start);
    return problem === undefined ? [] : [problem];
  }

  private namePath(entry: YamlEntry, scope: readonly string[], row: RowReference | null): readonly string[] | null {
    const parts = entry.key.split('.');
    const wrong = this.nameProblem(parts, scope, row);
    if (wrong === null) return parts;
    this.report(wrong, entry.keySpan);
    return null;
  }

  private nameProblem(parts: readonly string[], scope: readonly string[], row: RowReference | null): string | null {
    const [first = ''] = parts;
    const written = parts.join('.');
    if (!parts.every((part) => NAME_PART.test(part))) {
      return `“${written}” is no name: letters, digits, _ and - only, such as “bit-rate”`;
    }
    if (scope.length === 0 && !STARTS_WITH_LETTER.test(first)) return `“${written}” is no name: it starts with a digit`;
    if (scope.length === 0 && KEYWORDS.has(first))
      return `“${first}” is a word of the expressions, so no fact has that name`;
    if (scope.length === 0 && ROOT_TABLES.includes(first)) return `“${first}” is a table of its own, beside “facts”`;
    if (scope.length === 0 && this.context.modes.has(first)) return `“${first}” is a mode, so no fact has that name`;
    const last = parts[parts.length - 1] as string;
    if (VALUE_KEYS.has(last) && !(row !== null && TEXT_FIELDS.has(last)) && last !== 'note' && last !== 'source') {
      return `“${last}” is part of a value, so no fact has that name`;
    }
    return null;
  }

  row(table: readonly string[], node: YamlNode, defaults: YamlMap | null, doubt: Problem | null): Row | null {
    const idNode = node.type === 'map' ? node.entries.find(({ key }) => key === 'id')?.value : undefined;
    if (node.type !== 'map' || idNode?.type !== 'scalar' || idNode.text.trim() === '') {
      this.report('a row needs an id: - {id: soc, …}', node.span);
      return null;
    }
    const id = idNode.text.trim();
    if (!NAME_PART.test(id)) {
      this.report(`“${id}” is no id of a row: letters, digits, _ and - only`, idNode.span);
      return null;
    }
    const reference = { table: table.join('.'), id };
    const path = [...table, id];
    const own = node.entries.flatMap((entry) => this.entry(entry, path, reference, doubt));
    const written = new Set(node.entries.map(({ key }) => key));
    const filled = defaults?.entries.filter(({ key }) => !written.has(key)) ?? [];
    const inherited = filled.flatMap((entry) => this.entry(entry, path, reference, doubt));
    const fields = new Map([...own, ...inherited].map((fact) => [fact.name.slice(path.join('.').length + 1), fact]));
    return { table: reference.table, id, place: { file: this.file, span: idNode.span }, fields };
  }

  private report(message: string, span: Span, code = 'bad-value'): void {
    this.problems.push({ code, message, span, file: this.file });
  }
}

/** A row stands for so many items: a whole number from 0 on. Units are seen to where it is counted. */
function asCount(read: ReadContent, span: Span): ReadContent {
  const { content } = read;
  if (content.type !== 'value') return read;
  const { value } = content;
  const isCount = value.type === 'quantity' && value.spread === 'exact' && isWhole(value.typical);
  if (isCount || (value.type === 'quantity' && value.unit.dimension.base.size > 0)) return read;
  const message = 'a quantity counts items, so it is a whole number from 0 on';
  return { ...read, content: { type: 'bad' }, problems: [...read.problems, { code: 'bad-value', message, span }] };
}

function isWhole(value: Rational | null): boolean {
  return value !== null && isInteger(value) && sign(value) >= 0;
}

/** Rows of a CSV file and rows that are written here: those of one id are one row, and what is written here adds fields. */
function joinRows(imported: readonly Row[], written: readonly Row[]): Iterable<Row> {
  const joined = new Map(imported.map((row) => [row.id, row]));
  const others: Row[] = [];
  for (const row of written) {
    const known = joined.get(row.id);
    if (known === undefined) others.push(row);
    else joined.set(row.id, { ...known, fields: new Map([...known.fields, ...row.fields]) });
  }
  return [...joined.values(), ...others];
}

function isTable(node: YamlNode): boolean {
  if (node.type === 'list') return node.items.some((item) => item.type === 'map');
  return (
    node.type === 'map' &&
    node.entries.some(
      ({ key, value }) => (key === 'rows' && value.type === 'list') || (key === 'from' && value.type === 'scalar'),
    )
  );
}

function tableShape(node: YamlNode): { readonly rows: YamlList | null; readonly defaults: YamlMap | null } {
  if (node.type === 'list') return { rows: node, defaults: null };
  if (node.type === 'scalar') return { rows: null, defaults: null };
  const rows = node.entries.find(({ key }) => key === 'rows')?.value;
  const defaults = node.entries.find(({ key }) => key === 'defaults')?.value;
  return { rows: rows?.type === 'list' ? rows : null, defaults: defaults?.type === 'map' ? defaults : null };
}

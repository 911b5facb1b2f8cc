/** Every place in a document where something of the product is named, and what it means there. */
import type { Analysis } from '../engine/analysis';
import type { ProductAnalysis } from '../findings/product-analysis';
import { CONFIGURATION_FILE } from '../model/configuration';
import type { Fact, Row } from '../model/fact';
import { lookUp, lookUpTable, type Meaning } from '../model/names';
import type { Table } from '../model/product';
import type { Attribute, Requirement } from '../model/requirement';
import type { Verification } from '../model/verification';
import type { Expression } from '../syntax/expression/ast';
import { children } from '../syntax/expression/ast';
import { parseExpression } from '../syntax/expression/parser';
import type { CodeSpan } from '../syntax/markdown/block';
import { type Span, spanOf } from '../syntax/span';
import { type MapsByStart, mapsByStart, modeKeysOf } from './mode-keys';

/** What a place names. */
export type Target =
  | { readonly type: 'requirement'; readonly requirement: Requirement }
  | { readonly type: 'fact'; readonly fact: Fact; readonly mode: string | null }
  | { readonly type: 'row'; readonly row: Row }
  | { readonly type: 'table'; readonly table: Table }
  /** A field of the rows of a table, as an expression over them names it. */
  | { readonly type: 'field'; readonly table: Table; readonly field: string }
  | { readonly type: 'mode'; readonly mode: string }
  | { readonly type: 'record'; readonly record: Verification };

export interface Occurrence {
  readonly file: string;
  /** All of the name as written: `supply.draw`. */
  readonly span: Span;
  /** Of it the part that spells the thing itself: `draw`, not the `max` of `supply.draw.max`. */
  readonly nameSpan: Span;
  readonly target: Target;
  readonly isDefinition: boolean;
}

/** In text order. Kept for as long as the analysis is. */
export function occurrencesIn(whole: ProductAnalysis, file: string): readonly Occurrence[] {
  const { analysis } = whole;
  const known = kept.get(analysis) ?? new Map<string, readonly Occurrence[]>();
  kept.set(analysis, known);
  const found = known.get(file) ?? findOccurrences(whole, file);
  known.set(file, found);
  return found;
}

/** All files of a product that occurrences stand in. */
export function filesWithOccurrences({ product }: Analysis): readonly string[] {
  return [...product.documents, ...product.setAside].map(({ file }) => file).concat(CONFIGURATION_FILE);
}

/** The innermost occurrence at an offset; the end of a name belongs to it, as a cursor behind a word does. */
export function occurrenceAt(occurrences: readonly Occurrence[], offset: number): Occurrence | null {
  let best: Occurrence | null = null;
  for (const one of occurrences) {
    if (one.span.start > offset || offset > one.span.end) continue;
    if (best === null || one.span.end - one.span.start <= best.span.end - best.span.start) best = one;
  }
  return best;
}

/** Two targets are one thing of the product. */
export function isSameTarget(a: Target, b: Target): boolean {
  return keyOfTarget(a) === keyOfTarget(b);
}

export function keyOfTarget(target: Target): string {
  switch (target.type) {
    case 'requirement':
      return `requirement ${target.requirement.id}`;
    case 'fact':
      return `fact ${target.fact.name}`;
    case 'row':
      return `row ${target.row.table}.${target.row.id}`;
    case 'table':
      return `table ${target.table.name}`;
    case 'field':
      return `field ${target.table.name} ${target.field}`;
    case 'mode':
      return `mode ${target.mode}`;
    case 'record':
      return `record ${target.record.id}`;
  }
}

const kept = new WeakMap<Analysis, Map<string, readonly Occurrence[]>>();

/** What looks like the id of a requirement or of a record: capitals and digits, parted by hyphens. */
const ID = /(?<![\p{L}\p{N}_-])\p{Lu}[\p{Lu}\p{N}]*(?:-[\p{Lu}\p{N}]+)*-\d+[a-z]?(?![\p{L}\p{N}_-])/gu;
const ATTRIBUTES_WITH_IDS = ['Derives from', 'Verify'];
/** Fields of rows that hold names of requirements or of other rows. */
const FIELDS_WITH_NAMES = ['satisfies', 'uses', 'by', 'from'];

function findOccurrences({ analysis, texts, codeSpansOf }: ProductAnalysis, file: string): readonly Occurrence[] {
  const text = texts.get(file) ?? '';
  if (file === CONFIGURATION_FILE) return inConfiguration(analysis, text);
  const { documents, setAside } = analysis.product;
  const document = [...documents, ...setAside].find((one) => one.file === file);
  if (document === undefined) return [];
  const finder = new Finder(analysis, file, text);
  for (const fact of document.facts) finder.fact(fact);
  for (const { name, place, rows } of document.tables) {
    finder.table(name, place.file, place.span);
    for (const row of rows) finder.row(row);
  }
  for (const requirement of document.requirements) finder.requirement(requirement);
  for (const record of document.verifications) finder.record(record);
  for (const code of codeSpansOf(file)) finder.aside(code);
  return finder.found.sort((a, b) => a.span.start - b.span.start || a.span.end - b.span.end);
}

/** Modes, and names in the expressions of *totals*. */
function inConfiguration(analysis: Analysis, text: string): readonly Occurrence[] {
  const finder = new Finder(analysis, CONFIGURATION_FILE, text);
  for (const { text: mode, scalar } of analysis.product.configuration.modes)
    if (scalar !== null) finder.mode(mode, scalar.span, true);
  for (const { scalar } of analysis.product.configuration.totals.values())
    if (scalar !== null && scalar.textStart !== null) finder.total(scalar.text, scalar.textStart);
  return finder.found;
}

/** A table whose rows an expression runs over, and how they are called there. */
interface OverTable {
  readonly table: Table;
  readonly alias: string | null;
}

class Finder {
  readonly found: Occurrence[] = [];
  private readonly definedAt = new Set<number>();
  /** Code spans that are part of a sentence or an attribute, by where they start. */
  private readonly readAt = new Set<number>();
  private readonly byId: ReadonlyMap<string, Target>;
  private maps: MapsByStart | null = null;

  constructor(
    private readonly analysis: Analysis,
    private readonly file: string,
    private readonly text: string,
  ) {
    this.byId = idsOf(analysis);
  }

  fact(fact: Fact): void {
    if (fact.file !== this.file) return;
    // Rows that take a field from the table's defaults share one place: the first names it.
    if (!this.definedAt.has(fact.nameSpan.start)) {
      this.definedAt.add(fact.nameSpan.start);
      this.add(fact.nameSpan, lastPart(this.text, fact.nameSpan), { type: 'fact', fact, mode: null }, true);
    }
    for (const expression of expressionsOf(fact)) this.names(expression, fact.scope, []);
    if (fact.content.type === 'modes') {
      this.maps ??= mapsByStart(this.text);
      for (const { mode, span } of modeKeysOf(fact, this.maps)) this.mode(mode, span, false);
    }
    const field = fact.name.slice(fact.name.lastIndexOf('.') + 1);
    if (fact.row !== null && FIELDS_WITH_NAMES.includes(field)) this.words(fact.span, fact.row.table);
  }

  /** In quotes or not. */
  mode(mode: string, span: Span, isDefinition: boolean): void {
    this.add(span, lastPart(this.text, span), { type: 'mode', mode }, isDefinition);
  }

  table(name: string, file: string, span: Span): void {
    const table = this.analysis.product.tables.get(name);
    if (table !== undefined && file === this.file)
      this.add(span, lastPart(this.text, span), { type: 'table', table }, true);
  }

  row(row: Row): void {
    if (row.place.file === this.file) this.add(row.place.span, row.place.span, { type: 'row', row }, true);
    for (const fact of row.fields.values()) this.fact(fact);
  }

  requirement(requirement: Requirement): void {
    this.add(requirement.idSpan, requirement.idSpan, { type: 'requirement', requirement }, true);
    for (const code of requirement.statement?.codes ?? []) this.code(code);
    for (const attribute of requirement.attributes) this.attribute(attribute, requirement);
  }

  record(record: Verification): void {
    this.add(record.idSpan, record.idSpan, { type: 'record', record }, true);
    for (const { text, span } of record.verifies) {
      const target = this.byId.get(text);
      if (target?.type === 'requirement') this.add(span, span, target, false);
    }
    for (const { measured, at, against, proved } of record.runs) {
      for (const { name, nameSpan } of [...measured, ...at, ...against]) this.path(name, nameSpan);
      for (const { name, nameSpan } of proved ?? []) this.written(name, nameSpan);
    }
  }

  /** `= sum(cost over parts)`. */
  total(text: string, start: number): void {
    const skipped = text.indexOf('=') + 1;
    this.expression(text.slice(skipped), start + skipped, start + text.length);
  }

  /** A code span that nothing reads: it names what it is made of, where it is an expression. */
  aside({ code, span }: CodeSpan): void {
    if (!this.readAt.has(span.start)) this.expression(code, span.start, span.end, 'whole');
  }

  private attribute(attribute: Attribute, { statement }: Requirement): void {
    const { key, codes, span } = attribute;
    if (key === 'Not limits') this.notLimits(attribute, new Set(statement?.codes.map(({ code }) => code.trim())));
    else for (const code of codes) this.code(code);
    if (!ATTRIBUTES_WITH_IDS.includes(key)) return;
    for (const match of this.text.slice(span.start, span.end).matchAll(ID)) {
      const target = this.byId.get(match[0]);
      const at = spanOf(span.start + match.index, span.start + match.index + match[0].length);
      if (target !== undefined) this.add(at, at, target, false);
    }
  }

  /** The very words of the sentence: names of it, as code (see {@link aside}) or not. */
  private notLimits({ valueSpan }: Attribute, named: ReadonlySet<string>): void {
    for (const match of this.text.slice(valueSpan.start, valueSpan.end).matchAll(/[^;]+/gu)) {
      const word = match[0].trim();
      const start = valueSpan.start + match.index + match[0].indexOf(word);
      if (named.has(word)) this.expression(word, start, start + word.length, 'whole');
    }
  }

  private code({ code, span }: CodeSpan): void {
    this.readAt.add(span.start);
    this.expression(code, span.start, span.end);
  }

  /** A criterion as read, as the key of a value: in quotes where it needs them. */
  private written(text: string, span: Span): void {
    const isVerbatim = this.text.startsWith(text, span.start);
    if (isVerbatim || this.text.startsWith(text, span.start + 1))
      this.expression(text, span.start + (isVerbatim ? 0 : 1), span.end);
  }

  /** `whole`: what is no expression from its first to its last sign names nothing. */
  private expression(text: string, from: number, to: number, wanted: 'whole' | 'any part' = 'any part'): void {
    const { expression, problems } = parseExpression(text, this.analysis.product.units, (start, end) =>
      spanOf(Math.min(from + start, to), Math.min(from + end, to)),
    );
    if (wanted === 'any part' || problems.length === 0) this.names(expression, [], []);
  }

  /** Ids of requirements and of rows in a list of names. */
  private words(span: Span, table: string): void {
    for (const match of this.text.slice(span.start, span.end).matchAll(/[\p{L}\p{N}_-]+/gu)) {
      const at = spanOf(span.start + match.index, span.start + match.index + match[0].length);
      const row = this.analysis.product.tables.get(table)?.rowsById.get(match[0]);
      const target = this.byId.get(match[0]) ?? (row === undefined ? undefined : ({ type: 'row', row } as const));
      if (target !== undefined) this.add(at, at, target, false);
    }
  }

  /** A full name as the key of a run's value, in quotes or not. */
  private path(name: string, span: Span): void {
    const start = span.start + (this.text.startsWith(name, span.start) ? 0 : 1);
    if (!this.text.startsWith(name, start)) return;
    const parts = name.split('.');
    this.meant(lookUp(this.analysis.product, parts, []), parts, spanOf(start, start + name.length));
  }

  /** A name, and the mode that it may end with. */
  private meant(meaning: Meaning | null, parts: readonly string[], span: Span): void {
    const target = meaning === null ? null : targetOf(meaning);
    if (target === null) return;
    this.add(span, partAt(parts, span, parts.length - 1 - suffixesOf(meaning)), target, false);
    for (
      let inner: Meaning | null = meaning, last = parts.length - 1;
      inner?.type === 'end' || inner?.type === 'in-mode';
      last -= 1
    ) {
      if (inner.type === 'in-mode') this.mode(inner.mode, partAt(parts, span, last), false);
      inner = inner.of;
    }
  }

  private names(node: Expression, scope: readonly string[], over: readonly OverTable[]): void {
    if (node.type === 'name') this.name(node, scope, over);
    else if (node.type === 'aggregate') this.aggregate(node, scope, over);
    else for (const child of children(node)) this.names(child, scope, over);
  }

  private aggregate(
    node: Expression & { type: 'aggregate' },
    scope: readonly string[],
    over: readonly OverTable[],
  ): void {
    const table = node.table.type === 'name' ? lookUpTable(this.analysis.product, node.table.parts, scope) : null;
    if (table !== null)
      this.add(node.table.span, lastPart(this.text, node.table.span), { type: 'table', table }, false);
    else this.names(node.table, scope, over);
    const inside = table === null ? over : [{ table, alias: node.row }, ...over];
    for (const part of [node.element, node.condition]) if (part !== null) this.names(part, scope, inside);
  }

  private name(node: Expression & { type: 'name' }, scope: readonly string[], over: readonly OverTable[]): void {
    for (const { table, alias } of over) {
      const parts = alias === null ? node.parts : node.parts[0] === alias ? node.parts.slice(1) : [];
      const full = longestField(table, parts);
      if (!table.fieldNames.has(full.join('.'))) continue;
      const skipped = node.parts.length - parts.length;
      this.add(
        node.span,
        partAt(node.parts, node.span, skipped + full.length - 1),
        { type: 'field', table, field: full.join('.') },
        false,
      );
      return;
    }
    this.meant(lookUp(this.analysis.product, node.parts, scope), node.parts, node.span);
  }

  private add(span: Span, nameSpan: Span, target: Target, isDefinition: boolean): void {
    this.found.push({ file: this.file, span, nameSpan, target, isDefinition });
  }
}

function expressionsOf({ content }: Fact): readonly Expression[] {
  switch (content.type) {
    case 'expression':
      return [content.expression];
    case 'ends':
      return [content.low, content.high].filter((end) => end !== null);
    case 'modes':
      return [...content.modes.values()].flatMap((own) => (own.type === 'expression' ? [own.expression] : []));
    case 'curve':
      return [content.of];
    default:
      return [];
  }
}

function targetOf(meaning: Meaning): Target | null {
  switch (meaning.type) {
    case 'fact':
      return { type: 'fact', fact: meaning.fact, mode: null };
    case 'duplicate': {
      const [fact] = meaning.facts;
      return fact === undefined ? null : { type: 'fact', fact, mode: null };
    }
    case 'table':
    case 'row':
    case 'mode':
      return meaning;
    case 'one-item':
      return { type: 'row', row: meaning.row };
    case 'end':
      return targetOf(meaning.of);
    case 'in-mode': {
      const of = targetOf(meaning.of);
      return of?.type === 'fact' ? { ...of, mode: meaning.mode } : of;
    }
  }
}

/** How many parts at the end of a path are no name of the thing: `.max`, `.standby`, a row's unwritten `.quantity`. */
function suffixesOf(meaning: Meaning | null): number {
  if (meaning?.type === 'end' || meaning?.type === 'in-mode') return 1 + suffixesOf(meaning.of);
  return meaning?.type === 'one-item' ? 1 : 0;
}

function longestField({ fieldNames }: Table, parts: readonly string[]): readonly string[] {
  for (let length = parts.length; length > 1; length -= 1)
    if (fieldNames.has(parts.slice(0, length).join('.'))) return parts.slice(0, length);
  return parts.slice(0, 1);
}

function partAt(parts: readonly string[], span: Span, index: number): Span {
  const start = span.start + parts.slice(0, index).reduce((sum, part) => sum + part.length + 1, 0);
  return spanOf(start, start + (parts[index] ?? '').length);
}

/** What stands after the last dot of a key. */
function lastPart(text: string, span: Span): Span {
  const written = text.slice(span.start, span.end);
  const quote = /["']$/.test(written) ? 1 : 0;
  return spanOf(Math.max(span.start + written.lastIndexOf('.') + 1, span.start + quote), span.end - quote);
}

const idsByAnalysis = new WeakMap<Analysis, ReadonlyMap<string, Target>>();

function idsOf(analysis: Analysis): ReadonlyMap<string, Target> {
  const known = idsByAnalysis.get(analysis);
  if (known !== undefined) return known;
  const ids = new Map<string, Target>();
  for (const { verifications } of analysis.product.documents)
    for (const record of verifications) ids.set(record.id, { type: 'record', record });
  // The first of several with one id is the one that others mean.
  for (const requirement of [...analysis.product.requirements].reverse())
    ids.set(requirement.id, { type: 'requirement', requirement });
  idsByAnalysis.set(analysis, ids);
  return ids;
}

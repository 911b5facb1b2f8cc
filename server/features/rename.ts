/** Renaming: every place that names a thing, and the check that afterwards each name still means what it meant. */
import type { ProductAnalysis } from '../findings/product-analysis';
import { CONFIGURATION_FILE } from '../model/configuration';
import { type RowReference, TEXT_FIELDS, VALUE_KEYS } from '../model/fact';
import type { Place } from '../model/place';
import { isId } from '../model/requirement-id';
import { type Edit, type Span, spanOf } from '../syntax/span';
import {
  filesWithOccurrences,
  keyOfTarget,
  type Occurrence,
  occurrenceAt,
  occurrencesIn,
  type Target,
} from './occurrences';

export interface Renamable {
  readonly span: Span;
  readonly name: string;
}

export type Rename =
  | {
      readonly type: 'edits';
      readonly edits: ReadonlyMap<string, readonly Edit[]>;
      /** Where prose mentions the id, which nothing reads: to be confirmed by whoever renames. */
      readonly mentions: ReadonlyMap<string, readonly Edit[]>;
    }
  /** Why it would change what something means, and where. */
  | { readonly type: 'refused'; readonly reason: string; readonly place: Place | null };

/** Judges the product as it would be with these texts in place of its own. */
export type JudgeWith = (texts: ReadonlyMap<string, string>) => ProductAnalysis;

const NAME_PART = /^[\p{L}\p{N}_](?:[\p{L}\p{N}_-]*[\p{L}\p{N}_])?$/u;
/** Fields that mean something to the tool wherever they stand (2-language, Design facts). */
const FIELDS_WITH_MEANING: ReadonlySet<string> = new Set([
  ...TEXT_FIELDS,
  'quantity',
  'spread',
  'power',
  'draws',
  'interfaces',
  'lane-sets',
  'uses',
  'satisfies',
  'optional',
  'volts',
  'from',
  'efficiency',
  'limit',
  'by',
]);

/** Tables that have a place of their own in front matter, and with it their name. */
const ROOT_TABLES: ReadonlySet<string> = new Set(['parts', 'rails', 'connections']);

/** What may be renamed at an offset; null where nothing of ours stands. */
export function renamableAt(whole: ProductAnalysis, file: string, offset: number): Renamable | null {
  const found = subjectAt(whole, file, offset);
  if (found === null) return null;
  const { span } = found;
  return { span, name: (whole.texts.get(file) ?? '').slice(span.start, span.end) };
}

export function renameAt(
  whole: ProductAnalysis,
  file: string,
  offset: number,
  name: string,
  judgeWith: JudgeWith,
): Rename {
  const found = subjectAt(whole, file, offset);
  if (found === null) return refused('nothing of the product stands here', null);
  const { subject } = found;
  const wrong = nameMistake(subject, name);
  if (wrong !== null) return refused(wrong, null);
  if (subject.type === 'mode' && whole.analysis.product.modes.has(name))
    return refused(`there is a mode “${name}”`, null);
  const edits = editsFor(whole, subject, name);
  const texts = new Map([...edits].map(([path, list]) => [path, applied(whole.texts.get(path) ?? '', list)]));
  const after = judgeWith(texts);
  const place = firstDifference(whole, after, subject, name, edits);
  if (place !== null)
    return refused(`with “${name}” the name at the place shown would no longer mean what it means now`, place);
  const other = otherVerdict(whole, after, subject, name);
  if (other !== null) return refused(`with “${name}” ${other} would be judged otherwise than now`, null);
  return { type: 'edits', edits, mentions: mentionsOf(whole, subject, name, edits) };
}

/** What is renamed: a field of one row is the field of all rows of its table. */
type Subject =
  | { readonly type: 'requirement' | 'record'; readonly id: string }
  | { readonly type: 'fact'; readonly name: string }
  | { readonly type: 'row'; readonly table: string; readonly id: string }
  | { readonly type: 'field'; readonly table: string; readonly field: string }
  | { readonly type: 'table'; readonly table: string }
  | { readonly type: 'mode'; readonly mode: string };

function subjectAt(
  whole: ProductAnalysis,
  file: string,
  offset: number,
): { readonly subject: Subject; readonly span: Span } | null {
  const occurrence = occurrenceAt(occurrencesIn(whole, file), offset);
  if (occurrence === null) return null;
  const { target, nameSpan, span } = occurrence;
  const owner = rowOf(target);
  if (owner !== null) {
    const row = pathPart(whole, occurrence, owner, 'row');
    if (row !== null && isIn(row, offset)) return { subject: { type: 'row', ...owner }, span: row };
    const table = pathPart(whole, occurrence, owner, 'table');
    if (table !== null && isIn(table, offset) && !ROOT_TABLES.has(owner.table))
      return { subject: { type: 'table', table: owner.table }, span: table };
  }
  const subject = subjectOf(target);
  if (subject === null || !isIn(nameSpan, offset)) return null;
  return { subject, span: nameSpan.start < span.start ? span : nameSpan };
}

function subjectOf(target: Target): Subject | null {
  switch (target.type) {
    case 'requirement':
      return { type: 'requirement', id: target.requirement.id };
    case 'record':
      return { type: 'record', id: target.record.id };
    case 'row':
      return { type: 'row', table: target.row.table, id: target.row.id };
    case 'field':
      return { type: 'field', table: target.table.name, field: target.field };
    case 'fact': {
      const { row, name } = target.fact;
      if (row === null) return { type: 'fact', name };
      return { type: 'field', table: row.table, field: name.slice(row.table.length + row.id.length + 2) };
    }
    case 'table':
      return ROOT_TABLES.has(target.table.name) ? null : { type: 'table', table: target.table.name };
    case 'mode':
      return { type: 'mode', mode: target.mode };
  }
}

function isIn({ start, end }: Span, offset: number): boolean {
  return start <= offset && offset <= end;
}

function rowOf(target: Target): RowReference | null {
  if (target.type === 'row') return { table: target.row.table, id: target.row.id };
  return target.type === 'fact' ? target.fact.row : null;
}

function nameMistake(subject: Subject, name: string): string | null {
  if (subject.type === 'requirement')
    return isId(name, null) ? null : `“${name}” is no id: capitals and digits, a hyphen, digits, such as TRN-020`;
  if (subject.type === 'record') return /^\S+$/u.test(name) ? null : 'an id has no spaces';
  if (!NAME_PART.test(name)) return `“${name}” is no name: letters, digits, _ and - only, such as “bit-rate”`;
  if (VALUE_KEYS.has(name)) return `“${name}” is part of a value, so nothing has that name`;
  if (subject.type !== 'field') return null;
  const meant = [subject.field, name].find((field) => FIELDS_WITH_MEANING.has(field));
  return meant === undefined ? null : `“${meant}” is a field with a meaning of its own`;
}

function editsFor(whole: ProductAnalysis, subject: Subject, name: string): ReadonlyMap<string, readonly Edit[]> {
  const edits = new Map<string, readonly Edit[]>();
  for (const file of filesWithOccurrences(whole.analysis)) {
    const spans = new Map<number, Span>();
    for (const one of occurrencesIn(whole, file)) {
      const span = spanToRename(whole, subject, one);
      if (span !== null) spans.set(span.start, span);
    }
    const own = [...spans.values()].sort((a, b) => a.start - b.start).map((span) => ({ span, text: name }));
    if (own.length > 0) edits.set(file, own);
  }
  return edits;
}

function spanToRename(whole: ProductAnalysis, subject: Subject, occurrence: Occurrence): Span | null {
  const { target, nameSpan } = occurrence;
  const owner = rowOf(target);
  if (subject.type === 'row' && owner?.id === subject.id && owner.table === subject.table)
    return target.type === 'row' ? nameSpan : pathPart(whole, occurrence, owner, 'row');
  if (subject.type === 'table' && owner?.table === subject.table) return pathPart(whole, occurrence, owner, 'table');
  const own = subjectOf(target);
  return own !== null && JSON.stringify(own) === JSON.stringify(subject) ? nameSpan : null;
}

/** The part of `parts.soc.cost` that spells the row, or the table; null where it is not written. */
function pathPart(
  whole: ProductAnalysis,
  { target, span, nameSpan, file, isDefinition }: Occurrence,
  { table, id }: RowReference,
  part: 'row' | 'table',
): Span | null {
  if (isDefinition) return null;
  const written = (whole.texts.get(file) ?? '').slice(span.start, nameSpan.end).split('.');
  const full = (target.type === 'fact' ? target.fact.name : `${table}.${id}`).split('.');
  const inTable = table.split('.');
  const index = inTable.length - (full.length - written.length) - (part === 'row' ? 0 : 1);
  const name = part === 'row' ? id : (inTable[inTable.length - 1] ?? '');
  if (index < 0 || written[index] !== name) return null;
  const start = span.start + written.slice(0, index).reduce((sum, one) => sum + one.length + 1, 0);
  return spanOf(start, start + name.length);
}

function applied(text: string, edits: readonly Edit[]): string {
  let result = '';
  let at = 0;
  for (const { span, text: inserted } of edits) {
    result += text.slice(at, span.start) + inserted;
    at = span.end;
  }
  return result + text.slice(at);
}

/** Where a name means something else afterwards, in the present text; null where all mean the same. */
function firstDifference(
  before: ProductAnalysis,
  after: ProductAnalysis,
  subject: Subject,
  name: string,
  edits: ReadonlyMap<string, readonly Edit[]>,
): Place | null {
  for (const file of filesWithOccurrences(before.analysis)) {
    const moved = mover(edits.get(file) ?? []);
    const old = occurrencesIn(before, file);
    const now = new Map(
      occurrencesIn(after, file).map(({ span, target }) => [`${span.start} ${keyOfTarget(target)}`, span]),
    );
    const wanted = old.map(({ span, target }) => `${moved(span.start)} ${renamedKey(target, subject, name)}`);
    const lost = wanted.findIndex((key) => !now.has(key));
    if (lost >= 0) return { file, span: old[lost]?.span ?? spanOf(0, 0) };
    const known = new Set(wanted);
    const [, gained = null] = [...now].find(([key]) => !known.has(key)) ?? [];
    if (gained !== null) return { file, span: spanBefore(gained, edits.get(file) ?? []) };
  }
  return null;
}

function mover(edits: readonly Edit[]): (offset: number) => number {
  return (offset) => {
    let growth = 0;
    for (const { span, text } of edits) if (span.end <= offset) growth += text.length - (span.end - span.start);
    return offset + growth;
  };
}

/** Where what stands at a span of the text after the edits stood before them. */
function spanBefore({ start, end }: Span, edits: readonly Edit[]): Span {
  let growth = 0;
  for (const { span, text } of edits) {
    const own = text.length - (span.end - span.start);
    if (span.end + growth + own <= start) growth += own;
  }
  return spanOf(start - growth, end - growth);
}

function renamedKey(target: Target, subject: Subject, name: string): string {
  const key = keyOfTarget(target);
  switch (subject.type) {
    case 'requirement':
    case 'record':
      return key === `${subject.type} ${subject.id}` ? `${subject.type} ${name}` : key;
    case 'fact':
      return key === `fact ${subject.name}` ? `fact ${withLast(subject.name, name)}` : key;
    case 'mode':
      return key === `mode ${subject.mode}` ? `mode ${name}` : key;
    case 'table':
      return renamedTable(key, subject.table, withLast(subject.table, name));
    case 'row': {
      const path = `${subject.table}.${subject.id}`;
      const to = `${subject.table}.${name}`;
      if (key === `row ${path}`) return `row ${to}`;
      return key.startsWith(`fact ${path}.`) ? `fact ${to}${key.slice(`fact ${path}`.length)}` : key;
    }
    case 'field': {
      const own = subjectOf(target);
      if (own?.type !== 'field' || own.table !== subject.table || own.field !== subject.field) return key;
      return key.slice(0, key.length - subject.field.length) + withLast(subject.field, name);
    }
  }
}

function renamedTable(key: string, from: string, to: string): string {
  const [type = ''] = key.split(' ');
  if (key === `table ${from}` || key.startsWith(`field ${from} `))
    return `${type} ${to}${key.slice(type.length + 1 + from.length)}`;
  const isInside = (type === 'row' || type === 'fact') && key.startsWith(`${type} ${from}.`);
  return isInside ? `${type} ${to}${key.slice(type.length + 1 + from.length)}` : key;
}

function withLast(path: string, name: string): string {
  return path.slice(0, path.lastIndexOf('.') + 1) + name;
}

/** A requirement whose verdict or evidence is another afterwards. */
function otherVerdict(before: ProductAnalysis, after: ProductAnalysis, subject: Subject, name: string): string | null {
  const now = new Map(after.analysis.requirements.map((result) => [result.requirement.id, result]));
  for (const { requirement, verdict, evidence } of before.analysis.requirements) {
    const id = subject.type === 'requirement' && subject.id === requirement.id ? name : requirement.id;
    const other = now.get(id);
    if (other === undefined || other.verdict !== verdict || other.evidence.state !== evidence.state)
      return requirement.id;
  }
  return null;
}

/** In documents of the product alone, and not inside of what is renamed already. */
function mentionsOf(
  whole: ProductAnalysis,
  subject: Subject,
  name: string,
  edits: ReadonlyMap<string, readonly Edit[]>,
): ReadonlyMap<string, readonly Edit[]> {
  const mentions = new Map<string, readonly Edit[]>();
  if (subject.type !== 'requirement' && subject.type !== 'record') return mentions;
  for (const [file, text] of whole.texts) {
    const renamed = edits.get(file) ?? [];
    const found = wordsLike(text, subject.id)
      .filter((span) => !renamed.some((edit) => edit.span.start < span.end && span.start < edit.span.end))
      .map((span) => ({ span, text: name }));
    if (found.length > 0 && file !== CONFIGURATION_FILE) mentions.set(file, found);
  }
  return mentions;
}

/** `TRN-02` is no word of `TRN-020`, nor of a link to `#trn-020`. */
function wordsLike(text: string, word: string): readonly Span[] {
  const spans: Span[] = [];
  for (let at = text.indexOf(word); at >= 0; at = text.indexOf(word, at + word.length)) {
    const [before = '', after = ''] = [text[at - 1], text[at + word.length]];
    if (!/[\p{L}\p{N}_-]/u.test(before + after)) spans.push(spanOf(at, at + word.length));
  }
  return spans;
}

function refused(reason: string, place: Place | null): Rename {
  return { type: 'refused', reason, place };
}

/** Renaming: every place that names a thing, and the check that afterwards each name still means what it meant. */
import type { ProductAnalysis } from '../findings/product-analysis';
import { TEXT_FIELDS, VALUE_KEYS } from '../model/fact';
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
  | { readonly type: 'edits'; readonly edits: ReadonlyMap<string, readonly Edit[]> }
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
  const edits = editsFor(whole, subject, name);
  const texts = new Map([...edits].map(([path, list]) => [path, applied(whole.texts.get(path) ?? '', list)]));
  const after = judgeWith(texts);
  const place = firstDifference(whole, after, subject, name, edits);
  if (place !== null)
    return refused(`with “${name}” the name at the place shown would no longer mean what it means now`, place);
  const other = otherVerdict(whole, after, subject, name);
  if (other !== null) return refused(`with “${name}” ${other} would be judged otherwise than now`, null);
  return { type: 'edits', edits };
}

/** What is renamed: a field of one row is the field of all rows of its table. */
type Subject =
  | { readonly type: 'requirement' | 'record'; readonly id: string }
  | { readonly type: 'fact'; readonly name: string }
  | { readonly type: 'row'; readonly table: string; readonly id: string }
  | { readonly type: 'field'; readonly table: string; readonly field: string };

function subjectAt(
  whole: ProductAnalysis,
  file: string,
  offset: number,
): { readonly subject: Subject; readonly span: Span } | null {
  const occurrence = occurrenceAt(occurrencesIn(whole.analysis, file, whole.texts.get(file) ?? ''), offset);
  if (occurrence === null) return null;
  const { target, nameSpan, span } = occurrence;
  const row = target.type === 'fact' && target.fact.row !== null ? rowPart(whole, occurrence) : null;
  if (row !== null && target.type === 'fact' && target.fact.row !== null && row.start <= offset && offset <= row.end)
    return { subject: { type: 'row', ...target.fact.row }, span: row };
  const subject = subjectOf(target);
  if (subject === null || offset < nameSpan.start || offset > nameSpan.end) return null;
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
    case 'mode':
      return null;
  }
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
    for (const one of occurrencesIn(whole.analysis, file, whole.texts.get(file) ?? '')) {
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
  if (subject.type === 'row') {
    if (target.type === 'row')
      return target.row.id === subject.id && target.row.table === subject.table ? nameSpan : null;
    const row = target.type === 'fact' ? target.fact.row : null;
    return row?.id === subject.id && row.table === subject.table ? rowPart(whole, occurrence) : null;
  }
  const own = subjectOf(target);
  return own !== null && JSON.stringify(own) === JSON.stringify(subject) ? nameSpan : null;
}

/** The part of `parts.soc.cost` that spells the row; null where it is not written. */
function rowPart(whole: ProductAnalysis, { target, span, nameSpan, file, isDefinition }: Occurrence): Span | null {
  if (target.type !== 'fact' || target.fact.row === null || isDefinition) return null;
  const written = (whole.texts.get(file) ?? '').slice(span.start, nameSpan.end).split('.');
  const full = target.fact.name.split('.');
  const index = target.fact.row.table.split('.').length - (full.length - written.length);
  if (index < 0 || written[index] !== target.fact.row.id) return null;
  const start = span.start + written.slice(0, index).reduce((sum, part) => sum + part.length + 1, 0);
  return spanOf(start, start + target.fact.row.id.length);
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
    const old = occurrencesIn(before.analysis, file, before.texts.get(file) ?? '');
    const now = new Set(
      occurrencesIn(after.analysis, file, after.texts.get(file) ?? '').map(
        ({ span, target }) => `${span.start} ${keyOfTarget(target)}`,
      ),
    );
    const wanted = old.map(({ span, target }) => `${moved(span.start)} ${renamedKey(target, subject, name)}`);
    const lost = wanted.findIndex((key) => !now.has(key));
    if (lost >= 0) return { file, span: old[lost]?.span ?? spanOf(0, 0) };
    if (new Set(wanted).size !== now.size) return { file, span: edits.get(file)?.[0]?.span ?? spanOf(0, 0) };
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

function renamedKey(target: Target, subject: Subject, name: string): string {
  const key = keyOfTarget(target);
  switch (subject.type) {
    case 'requirement':
    case 'record':
      return key === `${subject.type} ${subject.id}` ? `${subject.type} ${name}` : key;
    case 'fact':
      return key === `fact ${subject.name}` ? `fact ${withLast(subject.name, name)}` : key;
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

function refused(reason: string, place: Place | null): Rename {
  return { type: 'refused', reason, place };
}

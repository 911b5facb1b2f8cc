/** Diagnostics that stand still: what is held back for a moment, so that half-typed figures do not flash through every file. */

import type { FindingCode } from '../../grammar/findings';
import type { Analysis, RequirementResult } from '../engine/analysis';
import type { Verdict } from '../engine/verdict';
import type { Finding, Related } from '../findings/finding';
import type { ProductAnalysis } from '../findings/product-analysis';
import type { Place } from '../model/place';
import { createLineIndex } from '../syntax/line-index';
import { spanOf } from '../syntax/span';
import { difference } from '../syntax/text-difference';

/** So long a new finding on the edited line waits, and a verdict that became undecided keeps what it was; in milliseconds. */
export const HOLDS_FOR = 500;

/** The last edit: where it was, and when. */
export interface LastEdit {
  /** Below the product's folder. */
  readonly file: string;
  /** In the present text. */
  readonly lines: { readonly first: number; readonly last: number };
  /** Milliseconds since 1970. */
  readonly at: number;
}

/** What is shown of a product at a moment. */
export interface Shown {
  readonly findings: readonly Finding[];
  readonly verdicts: ReadonlyMap<string, Verdict>;
  /** By requirement, every name that it rested on when it was last decided. */
  readonly uses: ReadonlyMap<string, ReadonlySet<string>>;
  readonly texts: ReadonlyMap<string, string>;
  /** Something is held back or kept until then; null: all is shown as it is. */
  readonly until: number | null;
}

/** Found at rest only; until it is looked for again, what was found last stays. */
const AT_REST: readonly FindingCode[] = ['over-specified', 'unneeded', 'unused'];

/** What to show of an analysis after what was shown before; `now` in milliseconds since 1970. */
export function standStill(before: Shown | null, whole: ProductAnalysis, edit: LastEdit | null, now: number): Shown {
  const { analysis, texts } = whole;
  const findings = before === null ? whole.findings : [...whole.findings, ...stillStanding(before, whole)];
  const verdicts = new Map(analysis.requirements.map(({ requirement, verdict }) => [requirement.id, verdict]));
  const uses = usesOf(before, analysis.requirements);
  if (before === null || edit === null || now - edit.at >= HOLDS_FOR)
    return { findings, verdicts, uses, texts, until: null };
  const isNew = newness(before, edit, texts);
  const held = newlyUndecided(before, analysis, factsOnLine(analysis, edit, texts));
  const waits = (finding: Finding) => isNew(finding) && (isOnLine(finding, edit, texts) || speaksOf(finding, held));
  const shown = findings.filter((finding) => !waits(finding));
  const kept = held.size === 0 ? [] : keptFindings(before, shown, held, texts);
  const isAsItIs = held.size === 0 && shown.length === findings.length;
  for (const [id, { verdict }] of held) verdicts.set(id, verdict);
  return { findings: [...shown, ...kept], verdicts, uses, texts, until: isAsItIs ? null : edit.at + HOLDS_FOR };
}

function stillStanding(before: Shown, { ranges, texts }: ProductAnalysis): readonly Finding[] {
  if (ranges !== null) return [];
  return before.findings
    .filter(({ code, place }) => AT_REST.includes(code) && texts.has(place.file))
    .map((one) => movedFinding(one, before.texts, texts));
}

interface Held {
  /** The last that it had. */
  readonly verdict: Verdict;
  readonly place: Place;
}

function usesOf(
  before: Shown | null,
  requirements: readonly RequirementResult[],
): ReadonlyMap<string, ReadonlySet<string>> {
  return new Map(
    requirements.map(({ requirement, verdict, uses }) => {
      const last = verdict === 'undecided' ? before?.uses.get(requirement.id) : undefined;
      return [requirement.id, last ?? uses];
    }),
  );
}

/** Names of the figures on the edited line: one of them is being typed. */
function factsOnLine(
  { product }: Analysis,
  { file, lines }: LastEdit,
  texts: ReadonlyMap<string, string>,
): ReadonlySet<string> {
  const index = lineIndexOf(texts.get(file) ?? '');
  const document = product.documents.find((one) => one.file === file);
  const rows = (document?.tables ?? []).flatMap((table) => table.rows.flatMap((row) => [...row.fields.values()]));
  const own = [...(document?.facts ?? []), ...rows].filter((fact) => {
    const { line } = index.positionAt(fact.nameSpan.start);
    return fact.file === file && lines.first <= line && line <= lines.last;
  });
  return new Set(own.map(({ name }) => name));
}

/** Requirements that the edit left undecided though they rest on a figure that is being typed. */
function newlyUndecided(
  before: Shown,
  { requirements }: Analysis,
  typed: ReadonlySet<string>,
): ReadonlyMap<string, Held> {
  const held = new Map<string, Held>();
  for (const { requirement, verdict } of requirements) {
    const last = before.verdicts.get(requirement.id);
    if (verdict !== 'undecided' || last === undefined || last === 'undecided') continue;
    if (![...(before.uses.get(requirement.id) ?? [])].some((name) => typed.has(name))) continue;
    held.set(requirement.id, { verdict: last, place: { file: requirement.file, span: requirement.idSpan } });
  }
  return held;
}

/** A finding on the edited line is known by what it is; elsewhere by its place as well, which does not move while typing. */
function newness(before: Shown, edit: LastEdit, texts: ReadonlyMap<string, string>): (finding: Finding) => boolean {
  const onLine = new Set(before.findings.filter((one) => isOnLine(one, edit, before.texts)).map(kindOf));
  const elsewhere = new Set(before.findings.map((one) => `${kindOf(one)} ${one.message}`));
  return (finding) =>
    isOnLine(finding, edit, texts)
      ? !onLine.has(kindOf(finding))
      : !elsewhere.has(`${kindOf(finding)} ${finding.message}`);
}

function kindOf({ code, requirement, place }: Finding): string {
  return `${code} ${requirement} ${place.file}`;
}

function isOnLine({ place }: Finding, { file, lines }: LastEdit, texts: ReadonlyMap<string, string>): boolean {
  if (place.file !== file) return false;
  const { line } = lineIndexOf(texts.get(file) ?? '').positionAt(place.span.start);
  return lines.first <= line && line <= lines.last;
}

let lastIndexed = { text: '', index: createLineIndex('') };

/** One text is asked about many times in a row. */
function lineIndexOf(text: string): ReturnType<typeof createLineIndex> {
  if (lastIndexed.text !== text) lastIndexed = { text, index: createLineIndex(text) };
  return lastIndexed.index;
}

/** Says why a requirement is undecided whose last verdict still stands. */
function speaksOf({ requirement, related }: Finding, held: ReadonlyMap<string, Held>): boolean {
  if (held.size === 0) return false;
  if (requirement !== null) return held.has(requirement);
  return [...held.values()].some(({ place }) => related.some((other) => isSamePlace(other.place, place)));
}

function isSamePlace(a: Place, b: Place): boolean {
  return a.file === b.file && a.span.start === b.span.start;
}

/** What was found of the requirements whose verdict is kept, moved to where it stands now. */
function keptFindings(
  before: Shown,
  shown: readonly Finding[],
  held: ReadonlyMap<string, Held>,
  texts: ReadonlyMap<string, string>,
): readonly Finding[] {
  const known = new Set(shown.map(kindOf));
  return before.findings
    .filter((one) => one.requirement !== null && held.has(one.requirement) && !known.has(kindOf(one)))
    .map((one) => movedFinding(one, before.texts, texts));
}

function movedFinding(
  finding: Finding,
  before: ReadonlyMap<string, string>,
  after: ReadonlyMap<string, string>,
): Finding {
  const move = (place: Place) => movedPlace(place, before.get(place.file) ?? '', after.get(place.file) ?? '');
  const related = finding.related.map((other): Related => ({ ...other, place: move(other.place) }));
  // A fix made for the text before is none for the text now.
  return { ...finding, place: move(finding.place), related, fixes: [] };
}

function movedPlace({ file, span }: Place, before: string, after: string): Place {
  if (before === after) return { file, span };
  const changed = difference(before, after);
  const oldEnd = before.length - (after.length - changed.end);
  const move = (offset: number) =>
    offset <= changed.start ? offset : offset >= oldEnd ? offset + after.length - before.length : changed.end;
  return { file, span: spanOf(move(span.start), Math.max(move(span.start), move(span.end))) };
}

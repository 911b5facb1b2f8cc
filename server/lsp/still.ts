/** Diagnostics that stand still: what is held back for a moment, so that half-typed figures do not flash through every file. */

import type { FindingCode } from '../../grammar/findings';
import type { Analysis } from '../engine/analysis';
import type { FindingsByFile } from '../findings/collect';
import type { Finding } from '../findings/finding';
import type { ProductAnalysis } from '../findings/product-analysis';
import type { Place } from '../model/place';
import { factsOfDocument } from '../model/product';
import { createLineIndex } from '../syntax/line-index';
import { type Held, heldNow, type LastJudged, restedNow } from './held-verdicts';
import { movedFinding } from './moved-finding';

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

/** What is shown of a product at a moment; what is shown of a file is the same array while it does not change. */
export interface Shown extends LastJudged {
  readonly byFile: FindingsByFile;
  /** All that there is, what waits as well. */
  readonly found: ReadonlyMap<string, Joined>;
  readonly texts: ReadonlyMap<string, string>;
  /** Something is held back or kept until then; null: all is shown as it is. */
  readonly until: number | null;
}

/** Findings of a file: those of now, and those that are looked for at rest only. */
interface Joined {
  readonly quick: readonly Finding[];
  readonly atRest: readonly Finding[];
  readonly all: readonly Finding[];
}

/** Found at rest only; until it is looked for again, what was found last stays. */
const AT_REST: readonly FindingCode[] = ['over-specified', 'unneeded', 'unused'];

export const NOTHING_SHOWN: Shown = {
  byFile: new Map(),
  found: new Map(),
  parts: new Map(),
  held: new Map(),
  rested: new Map(),
  texts: new Map(),
  until: null,
};

const NONE: readonly Finding[] = [];

/** What to show of an analysis after what was shown before; `now` in milliseconds since 1970. */
export function standStill(before: Shown | null, whole: ProductAnalysis, edit: LastEdit | null, now: number): Shown {
  const { analysis, texts } = whole;
  const found = foundNow(before, whole);
  const judged = {
    parts: new Map(analysis.parts.map((part) => [part.file, part])),
    rested: restedNow(before, analysis.parts),
  };
  const all = new Map([...found].map(([file, joined]) => [file, joined.all]));
  if (before === null || edit === null || now - edit.at >= HOLDS_FOR)
    return { ...judged, held: new Map(), found, byFile: all, texts, until: null };
  const held = heldNow(before, analysis.parts, factsOnLine(analysis, edit, texts));
  const byFile = heldBack(before, all, { edit, texts, held });
  const isAsItIs = held.size === 0 && byFile === all;
  return { ...judged, held, found, byFile, texts, until: isAsItIs ? null : edit.at + HOLDS_FOR };
}

/** Between two rests what was found at the last one goes on. */
function foundNow(before: Shown | null, { byFile, ranges, texts }: ProductAnalysis): ReadonlyMap<string, Joined> {
  if (ranges !== null || before === null)
    return new Map([...byFile].map(([file, all]) => [file, { quick: all, atRest: all.filter(isAtRest), all }]));
  const changed = changedFiles(before.texts, texts);
  const found = new Map<string, Joined>();
  for (const file of new Set([...byFile.keys(), ...before.found.keys()])) {
    const last = before.found.get(file);
    const quick = byFile.get(file) ?? NONE;
    const atRest = texts.has(file) ? stillStanding(last?.atRest ?? NONE, changed, before.texts, texts) : NONE;
    const isSame = last !== undefined && last.quick === quick && last.atRest === atRest;
    if (isSame) found.set(file, last);
    else if (quick.length + atRest.length > 0) found.set(file, { quick, atRest, all: [...quick, ...atRest] });
  }
  return found;
}

function isAtRest({ code }: Finding): boolean {
  return AT_REST.includes(code);
}

function changedFiles(before: ReadonlyMap<string, string>, after: ReadonlyMap<string, string>): ReadonlySet<string> {
  const changed = new Set<string>();
  for (const [file, text] of after) if (before.get(file) !== text) changed.add(file);
  return changed;
}

/** The same list where no text that it speaks of has changed. */
function stillStanding(
  last: readonly Finding[],
  changed: ReadonlySet<string>,
  before: ReadonlyMap<string, string>,
  after: ReadonlyMap<string, string>,
): readonly Finding[] {
  const speaksOfChanged = ({ place, related }: Finding) =>
    changed.has(place.file) || related.some((other) => changed.has(other.place.file));
  return last.some(speaksOfChanged) ? last.map((one) => movedFinding(one, before, after)) : last;
}

interface Moment {
  readonly edit: LastEdit;
  readonly texts: ReadonlyMap<string, string>;
  readonly held: ReadonlyMap<string, Held>;
}

/** What is shown without what waits, and with what is kept; the findings themselves where none waits and none is kept. */
function heldBack(before: Shown, all: FindingsByFile, moment: Moment): FindingsByFile {
  const shown = new Map(all);
  let isOther = false;
  for (const file of new Set([...all.keys(), ...before.byFile.keys()])) {
    const [last, found] = [before.byFile.get(file) ?? NONE, all.get(file) ?? NONE];
    if (last === found) continue;
    const list = heldBackIn(file, last, found, before, moment);
    if (list === found) continue;
    isOther = true;
    shown.set(file, list);
  }
  return isOther ? shown : all;
}

function heldBackIn(
  file: string,
  last: readonly Finding[],
  found: readonly Finding[],
  before: Shown,
  { edit, texts, held }: Moment,
): readonly Finding[] {
  const isNew = newness(last, before, edit, texts);
  const waits = (finding: Finding) => isNew(finding) && (isOnLine(finding, edit, texts) || speaksOf(finding, held));
  const shown = found.filter((finding) => !waits(finding));
  const kept = texts.has(file) ? keptFindings(last, shown, before, texts, held) : NONE;
  return shown.length === found.length && kept.length === 0 ? found : [...shown, ...kept];
}

/** Names of the figures on the edited line: one of them is being typed. */
function factsOnLine(
  { part }: Analysis,
  { file, lines }: LastEdit,
  texts: ReadonlyMap<string, string>,
): ReadonlySet<string> {
  const index = lineIndexOf(texts.get(file) ?? '');
  const document = part(file)?.document ?? null;
  const own = (document === null ? [] : factsOfDocument(document)).filter((fact) => {
    const { line } = index.positionAt(fact.nameSpan.start);
    return fact.file === file && lines.first <= line && line <= lines.last;
  });
  return new Set(own.map(({ name }) => name));
}

/** A finding on the edited line is known by what it is; elsewhere by what it says as well, which does not change while typing. */
function newness(
  last: readonly Finding[],
  before: Shown,
  edit: LastEdit,
  texts: ReadonlyMap<string, string>,
): (finding: Finding) => boolean {
  const onLine = new Set(last.filter((one) => isOnLine(one, edit, before.texts)).map(kindOf));
  const elsewhere = new Set(last.map((one) => `${kindOf(one)} ${one.message}`));
  return (finding) =>
    isOnLine(finding, edit, texts)
      ? !onLine.has(kindOf(finding))
      : !elsewhere.has(`${kindOf(finding)} ${finding.message}`);
}

function kindOf({ code, requirement }: Finding): string {
  return `${code} ${requirement}`;
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
  last: readonly Finding[],
  shown: readonly Finding[],
  before: Shown,
  texts: ReadonlyMap<string, string>,
  held: ReadonlyMap<string, Held>,
): readonly Finding[] {
  if (held.size === 0) return NONE;
  const known = new Set(shown.map(kindOf));
  return last
    .filter((one) => one.requirement !== null && held.has(one.requirement) && !known.has(kindOf(one)))
    .map((one) => movedFinding(one, before.texts, texts));
}

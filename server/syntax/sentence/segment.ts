/** Cuts a sentence at punctuation and at the words that open clauses, and tells conditions from what is promised. */
import type { Segment, Sentence } from './reading';
import type { SentenceRange } from './sentence';
import type { Term } from './term';
import { keyOf, type Token } from './token';

/** The tokens of a statement with the terms by the token they begin at. */
export interface Marked {
  readonly tokens: readonly Token[];
  readonly brackets: readonly number[];
  readonly termAt: ReadonlyMap<number, Term>;
}

const DATE_WORDS: ReadonlySet<string> = new Set(['before', 'after', 'until', 'till']);
const COORDINATORS: ReadonlySet<string> = new Set(['and', 'or', 'but', 'nor']);
const BEING: ReadonlySet<string> = new Set(['be', 'is', 'are', 'was', 'were', 'been', 'being', 'as']);
const VERB_COMPANIONS: ReadonlySet<string> = new Set([
  'by',
  'with',
  'for',
  'in',
  'at',
  'to',
  'from',
  'on',
  'as',
  'via',
]);

export function readSentence(marked: Marked, range: SentenceRange, lead: number | null): Sentence {
  const segments = joinOpeningLists(marked, cutAtModals(marked, cutSegments(marked, range)));
  return { from: range.from, to: range.to, segments, obligation: firstModal(marked, segments), lead };
}

function cutSegments(marked: Marked, range: SentenceRange): readonly Segment[] {
  const segments: Segment[] = [];
  let from = range.from;
  const cut = (to: number) => {
    if (to > from) segments.push(segmentOf(marked, from, to));
    from = to;
  };
  for (let index = range.from; index < range.to; index++) {
    if (isOutside(marked, index) && opensClause(marked, index)) cut(index);
    if (isOutside(marked, index) && endsClause(marked, index)) cut(index + 1);
  }
  cut(range.to);
  return segments;
}

function isOutside(marked: Marked, index: number): boolean {
  return marked.brackets[index] === -1;
}

function segmentOf(marked: Marked, from: number, to: number): Segment {
  const isCondition = isOpener(marked, from);
  const opener = isCondition ? keyOf(marked.tokens[from]) : null;
  return {
    from,
    to,
    kind: isCondition ? 'condition' : 'main',
    opener: openerName(opener, marked, from),
    isOpening: false,
  };
}

/** "only when", "except where" open like the word they end with. */
function openerName(opener: string | null, marked: Marked, from: number): string | null {
  return opener === 'only' || opener === 'except' ? keyOf(marked.tokens[from + 1]) : opener;
}

function opensClause(marked: Marked, index: number): boolean {
  return isOpener(marked, index) || marked.termAt.get(index)?.meaning.kind === 'relative';
}

function isOpener(marked: Marked, index: number): boolean {
  const term = marked.termAt.get(index);
  if (term?.meaning.kind !== 'opener') return false;
  const word = keyOf(marked.tokens[index]);
  const next = marked.tokens[term.to];
  if (DATE_WORDS.has(word) && next?.type === 'date') return false;
  if (word !== 'provided') return true;
  return !BEING.has(keyOf(marked.tokens[index - 1])) && !VERB_COMPANIONS.has(keyOf(next));
}

function endsClause(marked: Marked, index: number): boolean {
  const key = keyOf(marked.tokens[index]);
  if (key === ';') return true;
  if (key === ':') return marked.tokens[index + 1] !== undefined && !followsExtreme(marked, index);
  return key === ',' && !isAbsorbedComma(marked, index);
}

/** "minimum: 5 V", "maximum power (`draw`): 60 W": the colon leads to the figure of the minimum or maximum. */
function followsExtreme(marked: Marked, index: number): boolean {
  const isExtreme = (at: number) => marked.termAt.get(at)?.meaning.kind === 'extreme';
  if (isExtreme(index - 1)) return true;
  const isLed = marked.termAt.get(index + 1)?.meaning.kind === 'relation';
  if (marked.tokens[index + 1]?.type !== 'number' && !isLed) return false;
  for (let at = index - 1; at >= Math.max(0, index - MOST_WORDS_TO_COLON); at--) {
    if (isExtreme(at)) return true;
    const token = marked.tokens[at];
    const isPlain = token?.type === 'code' || (token?.type === 'word' && !marked.termAt.has(at));
    if (!isPlain && !['.', '(', ')'].includes(keyOf(token))) return false;
  }
  return false;
}

const MOST_WORDS_TO_COLON = 10;

/** The commas of "shall have, at a minimum, one switch" and of "20 Hz, ± 0.1 Hz". */
function isAbsorbedComma(marked: Marked, index: number): boolean {
  if (['±', '+/-'].includes(keyOf(marked.tokens[index + 1]))) return true;
  const behind = marked.termAt.get(index + 1);
  if (behind && isEither(behind) && keyOf(marked.tokens[behind.to]) === ',') return true;
  for (let from = index - 1; from >= Math.max(0, index - 5); from--) {
    const term = marked.termAt.get(from);
    if (!term) continue;
    if (term.to !== index || !isEither(term)) return false;
    return keyOf(marked.tokens[from - 1]) === ',' || marked.tokens[index + 1]?.type === 'number';
  }
  return false;
}

function isEither(term: Term): boolean {
  return term.meaning.kind === 'relation' && term.meaning.either;
}

/**
 * A condition never reaches past an obligation word: without the comma ("When idle the unit shall draw …") what the
 * condition holds cannot be told, but what is promised can. In a trailing condition only *shall* and *must* count.
 */
function cutAtModals(marked: Marked, segments: readonly Segment[]): readonly Segment[] {
  let isAfterModal = false;
  return segments.flatMap((segment) => {
    const modal = modalIn(marked, segment, segment.kind === 'condition' && isAfterModal);
    if (segment.kind === 'main') isAfterModal ||= modal !== null;
    if (segment.kind === 'main' || modal === null) return [{ ...segment, isOpening: !isAfterModal }];
    const promise: Segment = { from: modal, to: segment.to, kind: 'main', opener: null, isOpening: false };
    const opening = { ...segment, to: modal, isOpening: !isAfterModal };
    isAfterModal = true;
    return modal === segment.from ? [promise] : [opening, promise];
  });
}

function modalIn(marked: Marked, segment: { from: number; to: number }, onlyBinding: boolean): number | null {
  for (let index = segment.from; index < segment.to; index++) {
    const meaning = marked.termAt.get(index)?.meaning;
    if (meaning?.kind === 'modal' && (meaning.binding || !onlyBinding) && isOutside(marked, index)) return index;
  }
  return null;
}

/** "When A, B, or C, the unit shall …": what follows an opening condition up to its last *and*, *or* goes on with it. */
function joinOpeningLists(marked: Marked, segments: readonly Segment[]): readonly Segment[] {
  let opener: string | null = null;
  const result = [...segments];
  let pending: number[] = [];
  for (const [index, segment] of segments.entries()) {
    if (!segment.isOpening) break;
    if (segment.kind === 'condition') {
      opener = segment.opener;
      pending = [];
      continue;
    }
    if (opener === null) continue;
    pending.push(index);
    if (!COORDINATORS.has(keyOf(marked.tokens[segment.from]))) continue;
    for (const at of pending) result[at] = { ...(result[at] ?? segment), kind: 'condition', opener };
    pending = [];
  }
  return result;
}

function firstModal(marked: Marked, segments: readonly Segment[]): number | null {
  for (const segment of segments) {
    const modal = segment.kind === 'main' ? modalIn(marked, segment, false) : null;
    if (modal !== null) return modal;
  }
  return null;
}

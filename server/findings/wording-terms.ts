/** Finds the words of a promise that keep it from being checked; knows nothing of the design. */
import { DOWNWARD, UPWARD } from '../../grammar/limit-phrases';
import { QUIET_PHRASES, WORDING_KINDS, type WordingGuard, type WordingRow } from '../../grammar/wording';
import { FIGURE_WORDS } from '../../grammar/wording-figures';
import * as rational from '../quantity/rational';
import type { Sentence, StatementReading } from '../syntax/sentence/reading';
import type { Term } from '../syntax/sentence/term';
import { keyOf, type Token } from '../syntax/sentence/token';
import { buildTrie, longestMatch, type Row } from '../syntax/sentence/trie';

/** Token indexes; `to` is exclusive. */
export interface WordingTerm {
  readonly from: number;
  readonly to: number;
  readonly row: WordingRow;
}

/**
 * In text order, never overlapping; at each place the longest phrase. Quoted words and names (a capital inside a
 * sentence) are no words of the promise. Linear time.
 *
 * @param sentences those of the reading that promise something
 */
export function findWording(reading: StatementReading, sentences: readonly Sentence[]): readonly WordingTerm[] {
  const quoted = quotedTokens(reading.tokens);
  const limits = limitsOf(reading);
  return sentences.flatMap((sentence) => {
    const guards = guardsOf(reading, sentence, limits);
    return termsIn(reading.tokens, sentence, quoted).filter(({ from, row }) => !guards(from, row.unless));
  });
}

const QUIET = 'quiet';
const ROWS: readonly Row<WordingRow | typeof QUIET>[] = [
  ...WORDING_KINDS.flatMap(({ rows }) => rows.map((row) => ({ meaning: row, phrases: row.phrases }))),
  { meaning: QUIET, phrases: QUIET_PHRASES },
];
const trie = buildTrie(ROWS);
const CLASSES: ReadonlyMap<string, string> = new Map([
  ...['shall', 'must', 'should'].map((word) => [word, '<modal>'] as const),
  ...UPWARD.map((word) => [word, '<up>'] as const),
  ...DOWNWARD.map((word) => [word, '<down>'] as const),
]);

function termsIn(tokens: readonly Token[], { from, to }: Sentence, quoted: ReadonlySet<number>): WordingTerm[] {
  const terms: WordingTerm[] = [];
  let index = from;
  while (index < to) {
    const found = longestMatch(trie, index, (at) => (at < to && !quoted.has(at) ? keysOf(tokens[at]) : []));
    const end = index + (found?.length ?? 0);
    if (found && found.meaning !== QUIET && !isName(tokens, index, end, from))
      terms.push({ from: index, to: end, row: found.meaning });
    index = Math.max(end, index + 1);
  }
  return terms;
}

function keysOf(token: Token | undefined): readonly string[] {
  const key = keyOf(token);
  if (key === '') return [];
  const group = CLASSES.get(key);
  return [key, ...(group === undefined ? [] : [group]), ...(token?.type === 'word' ? ['<any>'] : [])];
}

/** "the Easy Loader": a word that begins with a capital where no sentence begins. */
function isName(tokens: readonly Token[], from: number, to: number, first: number): boolean {
  return tokens.slice(Math.max(from, first + 1), to).some((token) => token.type === 'word' && token.capitals === 1);
}

const CLOSING: ReadonlyMap<string, string> = new Map([
  ['"', '"'],
  ['“', '”'],
  ['„', '“'],
  ['«', '»'],
]);

/** Tokens between quotation marks of one line; a mark without its partner quotes nothing. */
function quotedTokens(tokens: readonly Token[]): ReadonlySet<number> {
  const quoted = new Set<number>();
  let open: { readonly at: number; readonly closing: string } | null = null;
  for (const [index, token] of tokens.entries()) {
    const key = keyOf(token);
    if (key === '\n') open = null;
    else if (open !== null && key === open.closing) {
      for (let at = open.at; at <= index; at++) quoted.add(at);
      open = null;
    } else if (open === null) {
      const closing = CLOSING.get(key);
      open = closing === undefined ? null : { at: index, closing };
    }
  }
  return quoted;
}

/** Where limit phrases begin and end in a reading. */
interface Limits {
  readonly begin: ReadonlySet<number>;
  readonly end: ReadonlySet<number>;
}

function limitsOf({ terms }: StatementReading): Limits {
  const limits = terms.filter(isLimit);
  return { begin: new Set(limits.map(({ from }) => from)), end: new Set(limits.map(({ to }) => to)) };
}

function isLimit({ meaning }: Term): boolean {
  return ['relation', 'extreme', 'speed', 'after', 'ask', 'within'].includes(meaning.kind);
}

/** Whether a guard holds for the words at a token of the sentence. */
function guardsOf(
  { tokens }: StatementReading,
  { segments }: Sentence,
  limits: Limits,
): (at: number, guard: WordingGuard | undefined) => boolean {
  const segmentAt = new Map<number, number>();
  const withFigure = new Set<number>();
  let lastLimit = -1;
  for (const [index, { from, to, kind }] of segments.entries()) {
    for (let at = from; at < to; at++) {
      segmentAt.set(at, index);
      if (isFigure(tokens[at], limits.end.has(at))) withFigure.add(index);
      if (tokens[at]?.type === 'code' || (kind === 'main' && limits.begin.has(at))) lastLimit = at;
    }
  }
  const isBound = withFigure.size > 0 || segments.some(({ kind }) => kind === 'condition');
  return (at, guard) => {
    if (guard === 'figure') return withFigure.has(segmentAt.get(at) ?? -1);
    if (guard === 'bound') return isBound;
    return guard === 'limit' && lastLimit > at;
  };
}

/** "no more than one" is a figure, "better than the old one" is none. */
function isFigure(token: Token | undefined, isBehindLimit: boolean): boolean {
  if (token?.type === 'number') return isBehindLimit || !(token.spelled && rational.equals(token.value, rational.ONE));
  return token?.type === 'date' || token?.type === 'code' || FIGURE_WORDS.has(keyOf(token));
}

/** The words of a sentence that mean something to the language: relations, negations, obligations, openers. */
import { DOWNWARD, LIMIT_ROWS, type LimitMeaning, UPWARD } from '../../../grammar/limit-phrases';
import { WORD_ROWS, type WordMeaning } from '../../../grammar/sentence-words';
import { keyOf, type Token } from './token';
import { buildTrie, longestMatch, type Match, type Row } from './trie';

export type Meaning = LimitMeaning | WordMeaning;

/** A phrase of the language; token indexes, `to` exclusive. */
export interface Term {
  readonly from: number;
  readonly to: number;
  readonly meaning: Meaning;
}

const ROWS: readonly Row<Meaning>[] = [...LIMIT_ROWS, ...WORD_ROWS];
const trie = buildTrie(ROWS);
const CLASSES: ReadonlyMap<string, string> = new Map([
  ...UPWARD.map((word) => [word, '<up>'] as const),
  ...DOWNWARD.map((word) => [word, '<down>'] as const),
]);

/** In text order, never overlapping; at each place the longest phrase. */
export function findTerms(tokens: readonly Token[]): readonly Term[] {
  const terms: Term[] = [];
  let index = 0;
  while (index < tokens.length) {
    const term = termAt(tokens, index);
    if (term) terms.push(term);
    index = term ? term.to : index + 1;
  }
  return terms;
}

function termAt(tokens: readonly Token[], from: number): Term | null {
  const found = longestMatch(trie, from, (index) => keysOf(tokens[index]));
  if (!found || isOtherwiseMeant(tokens, from, found)) return null;
  return { from, to: from + found.length, meaning: found.meaning };
}

function keysOf(token: Token | undefined): readonly string[] {
  const key = keyOf(token);
  if (key === '') return [];
  const group = CLASSES.get(key);
  if (group) return [key, group, '<any>'];
  return token?.type === 'word' ? [key, '<any>'] : [key];
}

function isOtherwiseMeant(tokens: readonly Token[], from: number, { meaning, length }: Match<Meaning>): boolean {
  if (isMonth(tokens, from, meaning) || isFrequency(tokens, from, meaning)) return true;
  return isAlternative(tokens, from + length, meaning) || isComparison(tokens, from, from + length, meaning);
}

/** "below 36 V or above 57 V", "or more than 57 V": the words lead the figure behind them. */
function isAlternative(tokens: readonly Token[], next: number, meaning: Meaning): boolean {
  if (meaning.kind !== 'after') return false;
  return keyOf(tokens[next]) === 'than' || tokens[next]?.type === 'number';
}

/** "at least as long as 3 m" compares; "as long as the lid is open" is a condition. */
function isComparison(tokens: readonly Token[], from: number, next: number, meaning: Meaning): boolean {
  return meaning.kind === 'opener' && keyOf(tokens[from]) === 'as' && tokens[next]?.type === 'number';
}

/** "in May 2027" obliges nobody. */
function isMonth(tokens: readonly Token[], index: number, meaning: Meaning): boolean {
  const token = tokens[index];
  if (meaning.kind !== 'modal' || token?.type !== 'word' || token.key !== 'may' || token.capitals !== 1) return false;
  return tokens[index + 1]?.type === 'number' || tokens[index - 1]?.type === 'number';
}

/** "once every 5 s", "once a day" count; "once the lid is open" is a condition. */
function isFrequency(tokens: readonly Token[], index: number, meaning: Meaning): boolean {
  if (meaning.kind !== 'opener' || keyOf(tokens[index]) !== 'once') return false;
  const next = keyOf(tokens[index + 1]);
  return ['every', 'per', 'a', 'an', 'each', 'in', 'or', ''].includes(next) || keyOf(tokens[index - 1]) === 'at';
}

/** Reads a requirement's statement into sentences, clauses and the words that matter; knows no units and no names. */
import type { Prose } from '../markdown/block';
import { findBrackets } from './bracket';
import type { Sentence, StatementReading } from './reading';
import { type Marked, readSentence } from './segment';
import { findSentences } from './sentence';
import { keyOf } from './token';
import { wordsOf } from './words';

export type { StatementReading } from './reading';

/**
 * Reads a statement; any text has a reading, in linear time. A line break in the prose ends a sentence: items of a list
 * under a statement are joined with line breaks, and take over its obligation when it ends with a colon.
 */
export function readStatement(prose: Prose): StatementReading {
  const before = known.get(prose);
  if (before !== undefined) return before;
  const reading = read(prose);
  known.set(prose, reading);
  return reading;
}

/** Pairing and wording ask for the same reading. */
const known = new WeakMap<Prose, StatementReading>();

function read(prose: Prose): StatementReading {
  const { tokens, terms } = wordsOf(prose);
  const brackets = findBrackets(tokens);
  const marked: Marked = { tokens, brackets, termAt: new Map(terms.map((term) => [term.from, term])) };
  const sentences: Sentence[] = [];
  let lead: number | null = null;
  for (const range of findSentences(tokens, brackets)) {
    const sentence = readSentence(marked, range, lead);
    if (endsWithColon(marked, range.to)) lead = sentence.obligation === null ? null : sentences.length;
    sentences.push(sentence.obligation === null ? sentence : { ...sentence, lead: null });
  }
  return { prose, tokens, terms, brackets, sentences };
}

/** The range ends with `:`, before its line break. */
function endsWithColon(marked: Marked, to: number): boolean {
  const last = keyOf(marked.tokens[to - 1]) === '\n' ? to - 2 : to - 1;
  return keyOf(marked.tokens[last]) === ':';
}

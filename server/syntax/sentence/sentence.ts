/** Where sentences end: at a full stop that belongs to no abbreviation, unit or figure, and at a line break. */
import { ABBREVIATIONS } from '../../../grammar/sentence-words';
import { keyOf, type Token } from './token';

export interface SentenceRange {
  readonly from: number;
  readonly to: number;
}

const ENDS: ReadonlySet<string> = new Set(['.', '!', '?', '\n']);

/** Token ranges without gaps; blank lines make no sentence of their own. */
export function findSentences(tokens: readonly Token[], brackets: readonly number[]): readonly SentenceRange[] {
  const ranges: SentenceRange[] = [];
  let from = 0;
  for (const [index, token] of tokens.entries()) {
    if (!ENDS.has(keyOf(token)) || !endsSentence(tokens, brackets, index)) continue;
    ranges.push({ from, to: index + 1 });
    from = index + 1;
  }
  if (from < tokens.length) ranges.push({ from, to: tokens.length });
  return ranges;
}

function endsSentence(tokens: readonly Token[], brackets: readonly number[], index: number): boolean {
  if (keyOf(tokens[index]) === '\n') return true;
  if (brackets[index] !== -1) return false;
  const next = tokens[index + 1];
  const stop = tokens[index];
  if (!next || !stop) return true;
  if (next.start === stop.end && keyOf(next) !== '\n') return isClosing(next);
  if (next.type === 'word' && next.capitals === 0) return false;
  return !isAbbreviation(tokens, index);
}

function isClosing(token: Token): boolean {
  return ['"', '”', '’', "'", ')', ']'].includes(keyOf(token));
}

/** "max. 60 W", "No. 5", "U.S. airspace"; but "60 W max. The fan …" ends one sentence and begins the next. */
function isAbbreviation(tokens: readonly Token[], stop: number): boolean {
  const word = tokens[stop - 1];
  if (word?.type !== 'word' || word.end !== tokens[stop]?.start) return false;
  if (!ABBREVIATIONS.has(word.key) && !word.key.includes('.')) return false;
  const next = tokens[stop + 1];
  const isCapital = next?.type === 'word' && next.capitals > 0;
  return !(isCapital && followsNumber(tokens, stop - 1));
}

function followsNumber(tokens: readonly Token[], index: number): boolean {
  return tokens.slice(Math.max(0, index - 3), index).some((token) => token.type === 'number');
}

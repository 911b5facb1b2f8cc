/** Finds numbers that are short of a unit, and units that are short of a number. */
import { NEVER_UNITS } from '../../grammar/sentence-words';
import { AFTER_FIGURE, MEASURE_LINKS, MEASURED_NOUNS } from '../../grammar/wording-figures';
import type { UnitTable } from '../quantity/unit-table';
import type { Sentence, StatementReading } from '../syntax/sentence/reading';
import type { Term } from '../syntax/sentence/term';
import { keyOf, type NumberToken, type Token } from '../syntax/sentence/token';

export interface LoneFigure {
  readonly type: 'number' | 'unit';
  /** Offsets into the prose's text. */
  readonly start: number;
  readonly end: number;
  /** What the number measures, where it stands. */
  readonly noun: string;
}

/** In text order. Only numbers behind the name of what is measured count: "a temperature of 85". */
export function findLoneFigures(
  reading: StatementReading,
  sentences: readonly Sentence[],
  units: UnitTable,
): readonly LoneFigure[] {
  const termFrom = new Map(reading.terms.map((term) => [term.from, term]));
  const inLimit = tokensOf(reading.terms.filter(({ meaning }) => meaning.kind !== 'opener'));
  return sentences.flatMap(({ from, to }) => {
    const found: LoneFigure[] = [];
    for (let index = from; index < to; index++) {
      const token = reading.tokens[index];
      const lone =
        token?.type === 'number'
          ? loneNumber(reading, index, token, inLimit, units)
          : loneUnit(reading, termFrom.get(index), units);
      if (lone !== null) found.push(lone);
    }
    return found;
  });
}

function tokensOf(terms: readonly Term[]): ReadonlySet<number> {
  const tokens = new Set<number>();
  for (const { from, to } of terms) for (let index = from; index < to; index++) tokens.add(index);
  return tokens;
}

function loneNumber(
  { prose, tokens }: StatementReading,
  index: number,
  token: NumberToken,
  inLimit: ReadonlySet<number>,
  units: UnitTable,
): LoneFigure | null {
  const { start, end } = token;
  if (token.doubt !== null || token.touches !== null || !endsFigure(tokens[index + 1])) return null;
  if (tokens[index + 2]?.type === 'number' && CONNECTING.has(keyOf(tokens[index + 1]))) return null;
  if (units.scan(prose.text, /^\s/.test(prose.text.slice(end, end + 1)) ? end + 1 : end) !== null) return null;
  const noun = nounBefore(tokens, index, inLimit);
  return noun === null ? null : { type: 'number', start, end, noun };
}

const CONNECTING: ReadonlySet<string> = new Set(['to', 'and', 'or', ',']);

/** Nothing behind it that could be its unit or what it counts. */
function endsFigure(token: Token | undefined): boolean {
  if (token === undefined || token.type === 'code') return true;
  if (token.type === 'mark') return ['.', ',', ';', ':', '(', ')', '\n', '!', '?'].includes(token.key);
  return token.type === 'word' && AFTER_FIGURE.has(token.key);
}

const MOST_LINKS = 8;
const SIGNS: ReadonlySet<string> = new Set(['-', '−', '–', '+', '±', ':']);

/** The measured noun that the number belongs to, past "shall be at least" and the like. */
function nounBefore(tokens: readonly Token[], index: number, inLimit: ReadonlySet<number>): string | null {
  for (let at = index - 1; at >= Math.max(0, index - MOST_LINKS); at--) {
    const token = tokens[at];
    const key = keyOf(token);
    if (inLimit.has(at) || MEASURE_LINKS.has(key) || SIGNS.has(key) || token?.type === 'number') continue;
    return MEASURED_NOUNS.has(key) ? key : null;
  }
  return null;
}

/** "no more than W": a unit right behind a relation, and nothing behind it that it could belong to. */
function loneUnit({ prose, tokens }: StatementReading, term: Term | undefined, units: UnitTable): LoneFigure | null {
  if (term === undefined || !takesFigure(term)) return null;
  const word = tokens[term.to];
  if (word?.type !== 'word' || NEVER_UNITS.has(word.key) || OTHER_WORDS.has(word.key)) return null;
  const unit = units.scan(prose.text, word.start);
  if (unit === null) return null;
  let next = term.to + 1;
  while ((tokens[next]?.start ?? Number.POSITIVE_INFINITY) < unit.end) next++;
  const behind = tokens[next];
  const isSure = unit.end - word.start > 1 || behind?.type !== 'word';
  return isSure && endsFigure(behind) ? { type: 'unit', start: word.start, end: unit.end, noun: '' } : null;
}

/** Ordinary words that are spelled like a unit. */
const OTHER_WORDS: ReadonlySet<string> = new Set(['in', 'min', 'max', 'mean', 'second', 'bar', 'turn']);

function takesFigure({ meaning }: Term): boolean {
  return meaning.kind === 'within' || (meaning.kind === 'relation' && !meaning.weak);
}

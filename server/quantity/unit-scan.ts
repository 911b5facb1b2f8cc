/** Finds the longest unit that stands at a place in running text. */

import { AFTER_PREPOSITION_IN, MARK_WORDS, SPACED_PAIRS } from '../../grammar/units';
import { foldText, SPACE_CLASS } from './fold';
import { matchAt } from './match-at';
import { marked, productOf } from './unit-arithmetic';
import { listOf } from './unit-definition';
import { compositeSpellings, type KnownWord, rateWord } from './unit-dictionary';
import type { ScannedUnit, UnitWords } from './unit-table';

/** One word of a unit with its power, and where it ends in the text. */
interface Term {
  readonly known: KnownWord;
  readonly text: string;
  readonly exponent: number;
  readonly end: number;
}

/** *blocked*: letters that make the whole no unit, so that its first half is never taken alone (`kW-rated`, `10/hp`). */
type Attempt = Term | 'none' | 'blocked';

/** A unit under way. `offset` is where the next part would begin. */
interface Progress {
  readonly terms: readonly Term[];
  readonly offset: number;
  /** A solidus stands before; `·` after it would leave open what it divides (ISO 80000-1:2009, 7.2.2 and 7.2.3). */
  readonly divided: boolean;
}

const LONGEST_WORD = 40;
const MOST_TERMS = 12;
const LARGEST_EXPONENT = 12;
const SECONDS: ReadonlySet<string> = new Set(['s', 'sec', 'second']);
const SUPERSCRIPTS = '⁰¹²³⁴⁵⁶⁷⁸⁹';

const LETTERS = `[\\p{L}_][\\p{L}\\d_]{0,${LONGEST_WORD}}`;
const WORD = new RegExp(`[€£¥$]|[\\p{Lu}]{1,2}\\$|[°º]\\p{L}{0,2}|[℃℉‰]|%(?:RH(?![\\p{L}\\d]))?|√?${LETTERS}`, 'uy');
const HYPHENATED = new RegExp(`${LETTERS}(?:-\\p{L}[\\p{L}\\d_]{0,${LONGEST_WORD}}){1,4}`, 'uy');
const EXPONENT = /\^([-+\u2212]?)(\d{1,3})|([⁺⁻]?)([⁰¹²³⁴⁵⁶⁷⁸⁹]{1,3})/uy;
/** `d.o.f.`, `V.max`: an abbreviation or a path, of which the first letter is no unit. */
const POINT_AND_LETTER = /\.\p{L}/uy;
const LETTER = /\p{L}/uy;
const HYPHEN_AND_LETTER = /-\p{L}/uy;
const MIDDLE_DOT = new RegExp(`[${SPACE_CLASS}]*[·⋅∙][${SPACE_CLASS}]*`, 'uy');
const SOLIDUS = /\/(\()?/uy;
const PER = new RegExp(`[${SPACE_CLASS}]+per[${SPACE_CLASS}]+`, 'uy');
const LEADING = new RegExp(`1/|per[${SPACE_CLASS}]+`, 'uy');
const SPACES = new RegExp(`[${SPACE_CLASS}]+`, 'uy');
const MARK = new RegExp(`[${SPACE_CLASS}]+(p-p|\\p{L}{2,3})(?![\\p{L}\\d_]|[-/]\\p{L})`, 'uy');
const NEXT_WORD = new RegExp(`[${SPACE_CLASS}]+(\\d|\\p{L}+)`, 'uy');
const POWER_WORD = new RegExp(`(square|cubic)[${SPACE_CLASS}]+`, 'uy');

const pairs: ReadonlySet<string> = new Set(SPACED_PAIRS);
const marks: ReadonlyMap<string, string> = new Map(
  MARK_WORDS.flatMap(([units, words, kind]) =>
    listOf(units).flatMap((unit) => listOf(words).map((word) => [`${unit} ${word}`, kind] as const)),
  ),
);
const composites = compositesByFirstWord();

/** The longest unit at `offset`, or null. Looks a bounded way ahead, whatever the text. */
export function scanUnit(text: string, offset: number, words: UnitWords): ScannedUnit | null {
  const leading = matchAt(LEADING, text, offset);
  const first = readTerm(text, leading ? offset + leading[0].length : offset, words);
  if (first === 'none' || first === 'blocked' || isPreposition(first, text)) return null;
  const start: Progress = leading
    ? { terms: [{ ...first, exponent: -first.exponent }], offset: first.end, divided: true }
    : { terms: [first], offset: first.end, divided: false };
  const mark = leading ? null : readMark(start, text, offset);
  if (mark) return mark;
  const progress = readFurtherTerms(start, text, words);
  return progress && { unit: unitOf(progress, symbolOf(text, offset, progress.offset)), end: progress.offset };
}

/** For each term the unit it counts where it stands above `/s` and counts something (`MT/s`), else null. */
export function withRateWords<T extends { readonly exponent: number }>(
  terms: readonly T[],
  wordOf: (term: T) => string,
): readonly (KnownWord | null)[] {
  const isRate = terms.some((term) => term.exponent === -1 && SECONDS.has(wordOf(term)));
  return terms.map((term) => (isRate && term.exponent === 1 ? rateWord(wordOf(term)) : null));
}

function readFurtherTerms(start: Progress, text: string, words: UnitWords): Progress | null {
  let progress = start;
  while (progress.terms.length < MOST_TERMS) {
    const next = readNext(progress, text, words);
    if (next === 'blocked') return null;
    if (next === 'none') return progress;
    progress = next;
  }
  return progress;
}

function readNext(progress: Progress, text: string, words: UnitWords): Progress | 'none' | 'blocked' {
  const { offset } = progress;
  // Most figures stand at the end of their text.
  if (offset === text.length) return 'none';
  const dot = matchAt(MIDDLE_DOT, text, offset);
  if (dot) return progress.divided ? 'blocked' : append(progress, readTerm(text, offset + dot[0].length, words), 1);
  const solidus = matchAt(SOLIDUS, text, offset);
  if (solidus?.[1]) return readBracket(progress, text, offset + solidus[0].length, words);
  const per = solidus ?? matchAt(PER, text, offset);
  if (per) return append({ ...progress, divided: true }, readTerm(text, offset + per[0].length, words), -1);
  return readPair(progress, text, words);
}

/** `(m·K)` or `(m K)` after a solidus, all of it below the line. */
function readBracket(
  progress: Progress,
  text: string,
  offset: number,
  words: UnitWords,
): Progress | 'none' | 'blocked' {
  const first = readTerm(text, offset, words);
  if (first === 'none' || first === 'blocked') return first;
  let inside: Progress = { terms: [first], offset: first.end, divided: false };
  while (text[inside.offset] !== ')') {
    const dot = matchAt(MIDDLE_DOT, text, inside.offset) ?? matchAt(SPACES, text, inside.offset);
    const term = dot ? readTerm(text, inside.offset + dot[0].length, words) : 'none';
    if (term === 'none' || term === 'blocked' || inside.terms.length === MOST_TERMS) return 'none';
    inside = { terms: [...inside.terms, term], offset: term.end, divided: false };
  }
  const below = inside.terms.map((term) => ({ ...term, exponent: -term.exponent }));
  return { terms: [...progress.terms, ...below], offset: inside.offset + 1, divided: true };
}

/** `kW h`, `N m`, `ft-lbf`: two units that are read as a product although nothing says so. */
function readPair(progress: Progress, text: string, words: UnitWords): Progress | 'none' | 'blocked' {
  const isHyphenated = matchAt(HYPHEN_AND_LETTER, text, progress.offset) !== null;
  const last = progress.terms.at(-1);
  const gap = isHyphenated ? '-' : matchAt(SPACES, text, progress.offset)?.[0];
  if (!last || gap === undefined) return 'none';
  const term = readTerm(text, progress.offset + gap.length, words);
  const isPair =
    term !== 'none' &&
    term !== 'blocked' &&
    Math.abs(last.exponent) === 1 &&
    pairs.has(`${last.known.family} ${term.known.family}`);
  if (isPair) return append(progress, term, last.exponent);
  return isHyphenated ? 'blocked' : 'none';
}

function append(progress: Progress, term: Attempt, sign: number): Progress | 'none' | 'blocked' {
  if (term === 'none' || term === 'blocked') return term;
  const terms = [...progress.terms, { ...term, exponent: sign * term.exponent }];
  return { terms, offset: term.end, divided: progress.divided };
}

function readTerm(text: string, offset: number, words: UnitWords): Attempt {
  const powerWord = matchAt(POWER_WORD, text, offset);
  if (powerWord) return readPowerOfName(powerWord, text, offset, words);
  const word = readWord(text, offset, words);
  if (word === 'none' || word === 'blocked') return word;
  if (word.end === text.length) return word;
  if (matchAt(POINT_AND_LETTER, text, word.end)) return 'blocked';
  const exponent = matchAt(EXPONENT, text, word.end);
  if (!exponent) return word;
  const value = exponentOf(exponent);
  const end = word.end + exponent[0].length;
  if (Math.abs(value) > LARGEST_EXPONENT || value === 0 || matchAt(LETTER, text, end)) return 'blocked';
  return { ...word, exponent: value, end };
}

function readPowerOfName(power: RegExpExecArray, text: string, offset: number, words: UnitWords): Attempt {
  const word = readWord(text, offset + power[0].length, words);
  if (word === 'none' || word === 'blocked') return word;
  return { ...word, exponent: power[1] === 'square' ? 2 : 3 };
}

function readWord(text: string, offset: number, words: UnitWords): Attempt {
  const single = matchAt(WORD, text, offset)?.[0];
  if (single === undefined) return 'none';
  const isHyphenated = text[offset + single.length] === '-';
  const hyphenated = isHyphenated ? (matchAt(HYPHENATED, text, offset)?.[0] ?? '') : '';
  const candidates = [...compositesAt(text, offset, single), hyphenated, single];
  for (const candidate of candidates) {
    const spelling = foldText(candidate);
    const known = candidate === '' ? null : words.known(spelling);
    if (known) return { known, text: spelling, exponent: 1, end: offset + candidate.length };
  }
  return words.ambiguity(foldText(single)) === null ? 'none' : 'blocked';
}

/** Spellings of several words that begin with this one and stand here whole. */
function compositesAt(text: string, offset: number, first: string): readonly string[] {
  const spellings = composites.get(foldText(first)) ?? [];
  return spellings.map((spelling) => matchAt(spelling, text, offset)?.[0] ?? '');
}

function compositesByFirstWord(): ReadonlyMap<string, readonly RegExp[]> {
  const result = new Map<string, RegExp[]>();
  for (const spelling of compositeSpellings()) {
    const first = matchAt(WORD, spelling, 0)?.[0] ?? spelling;
    const pattern = spelling.replace(/[()]/g, '\\$&').replace(/ /g, `[${SPACE_CLASS}]`);
    result.set(first, [...(result.get(first) ?? []), new RegExp(`${pattern}(?![\\p{L}\\d_])`, 'uy')]);
  }
  return result;
}

/** A mark as a word of its own: `V DC`, `A RMS`, `% RH`. */
function readMark(progress: Progress, text: string, start: number): ScannedUnit | null {
  const [term] = progress.terms;
  const found = matchAt(MARK, text, progress.offset);
  const kind = term && found ? marks.get(`${term.known.family} ${found[1]}`) : undefined;
  if (!term || !found || kind === undefined || term.exponent !== 1) return null;
  const end = progress.offset + found[0].length;
  return { unit: marked(term.known.unit, kind, symbolOf(text, start, end)), end };
}

/** `in` is no inch before a number or a word that goes with the preposition: "1 in 10", "6 in parallel". */
function isPreposition(term: Term, text: string): boolean {
  if (term.text !== 'in' || term.exponent !== 1) return false;
  const next = matchAt(NEXT_WORD, text, term.end)?.[1];
  return next !== undefined && (/\d/.test(next) || AFTER_PREPOSITION_IN.has(next));
}

function unitOf({ terms }: Progress, symbol: string) {
  const rates = withRateWords(terms, (term) => term.text);
  return productOf(
    terms.map((term, index) => ({ unit: (rates[index] ?? term.known).unit, exponent: term.exponent })),
    symbol,
  );
}

function symbolOf(text: string, start: number, end: number): string {
  const folded = foldText(text.slice(start, end)).replace(/\s+/g, ' ');
  return folded.replace(/℃/g, '°C').replace(/℉/g, '°F').replace(/º/g, '°');
}

function exponentOf(found: RegExpExecArray): number {
  const [, sign = '', digits, raisedSign = '', raised = ''] = found;
  const plain = digits ?? [...raised].map((digit) => SUPERSCRIPTS.indexOf(digit)).join('');
  return sign === '-' || sign === '\u2212' || raisedSign === '⁻' ? -Number(plain) : Number(plain);
}

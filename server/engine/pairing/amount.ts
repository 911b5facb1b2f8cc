/** Reads one number with its sign, its money sign and its unit. */
import { BACKWARD_SCALES } from '../../../grammar/limit-phrases';
import {
  GROUP_NOUNS,
  LARGER_NUMBER_WORDS,
  NAME_INTRODUCERS,
  NEVER_UNITS,
  PART_WORDS,
} from '../../../grammar/sentence-words';
import { DATE } from '../../quantity/calendar';
import { SPACE_CLASS } from '../../quantity/fold';
import type { Rational } from '../../quantity/rational';
import * as rational from '../../quantity/rational';
import type { Unit } from '../../quantity/unit';
import type { NumberDoubt, NumberToken, Token } from '../../syntax/sentence/token';
import { type Context, isMoney, keyAt, touchesNext } from './context';
import type { Amount } from './figure';

const MINUS_SIGNS: ReadonlySet<string> = new Set(['-', '−', '–', '‐', '‑', '﹣', '－']);
/** A hyphen or dash apart from its number is a sign only behind these. */
const SIGN_LEADS: ReadonlySet<string> = new Set([
  'to',
  'and',
  'between',
  'from',
  'than',
  'of',
  'at',
  'is',
  'be',
  'through',
  '(',
  ',',
  '',
]);
const TIMES_SIGNS: ReadonlySet<string> = new Set(['×', 'x', '*']);
const SPACES = new RegExp(`[${SPACE_CLASS}]*`, 'uy');
const LONG_WORD = /\p{L}{4,30}(?![\p{L}\d])/uy;
const MULTIPLIER = /[kM](?![\p{L}\d/·^])/uy;

/** A figure with this doubt has one right way to be written. */
export const DECIMAL_COMMA = 'has a decimal comma: write a point';

const DOUBTS: Readonly<Record<NumberDoubt, string>> = {
  grouping: 'may be one number or two: write it without the space, or name the parts',
  'decimal-comma': DECIMAL_COMMA,
  'mixed-fraction': 'may be one number or a count and a fraction: write it as a decimal',
  slash: 'may be a fraction or two alternatives: write one number',
  product: 'is a product of sizes: write one figure for each name',
  'number-words': 'is written in words: write it in digits',
  suffix: 'has a sign behind it whose meaning is open: write the relation and the unit out',
  'too-large': 'is past ±10^99',
  'no-such-day': 'is no day of the calendar',
};

const DOLLAR = 'does not say whose dollar: write USD, AUD, CAD …';

/** The amount that begins at a token; null when none does, or when the digits belong to a name. */
export function readAmount(context: Context, index: number): Amount | null {
  const known = context.amounts.get(index);
  if (known !== undefined) return known;
  const amount = mayBegin(context.tokens[index]) ? amountAt(context, index) : null;
  context.amounts.set(index, amount);
  return amount;
}

/** Most tokens are words in lower case, with which no amount begins. */
function mayBegin(token: Token | undefined): boolean {
  if (token?.type === 'word') return token.capitals > 0 || LARGER_NUMBER_WORDS.has(token.key);
  return token !== undefined && token.type !== 'name' && token.type !== 'code';
}

function amountAt(context: Context, index: number): Amount | null {
  const first = context.tokens[index];
  if (!first) return null;
  if (first.type === 'date') return dateAmount(first.value, first.doubt, index, first);
  const sign = signAt(context, index);
  const afterSign = sign === null ? index : index + 1;
  const money = moneyAt(context, afterSign);
  const at = money ? money.next : afterSign;
  const number = context.tokens[at];
  if (number?.type !== 'number') return sign === null && money === null ? readNumberWords(context, index) : null;
  const head: Head = { index, at, negative: sign === -1, number, start: first.start };
  return money ? moneyAmount(context, head, money) : plainAmount(context, head);
}

/** +1 or -1 when a sign stands here that belongs to the number behind it; else null. */
export function signAt(context: Context, index: number): 1 | -1 | null {
  const key = keyAt(context, index);
  if (key !== '+' && !MINUS_SIGNS.has(key)) return null;
  const next = context.tokens[index + 1];
  if (next?.type !== 'number' && !(next && moneyAt(context, index + 1))) return null;
  if (key === '+') return 1;
  if (key === '−' || touchesNext(context, index)) return -1;
  const isLed = SIGN_LEADS.has(keyAt(context, index - 1)) && context.tokens[index - 1]?.type !== 'number';
  return isLed || context.termTo.has(index) ? -1 : null;
}

interface Head {
  readonly index: number;
  /** Token of the number. */
  readonly at: number;
  readonly negative: boolean;
  readonly number: NumberToken;
  readonly start: number;
}

interface Money {
  readonly unit: Unit | null;
  readonly next: number;
}

/** `EUR`, `€`, `US$` with a number behind it; a bare `$` has no unit. */
function moneyAt(context: Context, index: number): Money | null {
  const token = context.tokens[index];
  if (!token || (token.type !== 'word' && token.type !== 'mark')) return null;
  const isPrefixed = token.type === 'word' && keyAt(context, index + 1) === '$' && touchesNext(context, index);
  const next = isPrefixed ? index + 2 : index + 1;
  if (context.tokens[next]?.type !== 'number') return null;
  if (token.key === '$') return { unit: null, next };
  if (token.type === 'word' && token.capitals === 0) return null;
  const unit = context.units.word(context.text.slice(token.start, context.tokens[next - 1]?.end));
  return unit && isMoney(unit) ? { unit, next } : null;
}

function moneyAmount(context: Context, head: Head, money: Money): Amount {
  const multiplied = multiplierAt(context, head.number);
  const own = multiplied?.end ?? head.number.end;
  const next = behindNumberWords(context, nextToken(context, own, head.at));
  const end = Math.max(own, context.tokens[next - 1]?.end ?? own);
  const doubt = money.unit
    ? (doubtOf(context, head) ?? groupingPoint(context, head, money.unit) ?? doubtBehind(context, next, money.unit))
    : DOLLAR;
  return amountOf(head, money.unit, end, next, { doubt, factor: multiplied?.factor ?? rational.ONE });
}

function plainAmount(context: Context, head: Head): Amount | null {
  const { number } = head;
  const found = unitBehind(context, number);
  if (found === 'name' || (found === null && isPartOfName(context, head))) return null;
  const multiplied = found === null ? multiplierAt(context, number) : null;
  if (found === null && multiplied === null && number.touches !== null) return null;
  const own = found?.end ?? multiplied?.end ?? number.end;
  const next = behindNumberWords(context, nextToken(context, own, head.at));
  const end = Math.max(own, context.tokens[next - 1]?.end ?? own);
  const unit = found?.unit ?? null;
  const doubt =
    doubtOf(context, head) ?? groupingPoint(context, head, unit) ?? found?.doubt ?? doubtBehind(context, next, unit);
  const fraction = number.isFraction && !found?.unit ? 'is a fraction without a unit: write it as a decimal' : null;
  return amountOf(head, found?.unit ?? null, end, next, {
    doubt: doubt ?? fraction,
    factor: multiplied?.factor ?? rational.ONE,
  });
}

function amountOf(
  head: Head,
  unit: Unit | null,
  end: number,
  next: number,
  { doubt, factor }: { doubt: string | null; factor: Rational },
): Amount {
  const scaled = rational.multiply(head.number.value, factor);
  const number = head.negative ? rational.negate(scaled) : scaled;
  const half = rational.multiply(rational.multiply(head.number.place, factor), HALF);
  return {
    start: head.start,
    end,
    first: head.index,
    next,
    number,
    unit,
    value: unit ? rational.add(rational.multiply(number, unit.factor), unit.offset) : number,
    halfPlace: unit ? rational.absolute(rational.multiply(half, unit.factor)) : half,
    doubt,
    spelled: head.number.spelled,
    isOne: head.number.spelled && rational.equals(head.number.value, rational.ONE),
  };
}

const HALF = rational.fraction(1n, 2n);

function dateAmount(value: Rational, doubt: NumberDoubt | null, index: number, { start, end }: Token): Amount {
  return {
    start,
    end,
    first: index,
    next: index + 1,
    number: value,
    unit: DATE,
    value,
    halfPlace: rational.ZERO,
    doubt: doubt && DOUBTS[doubt],
    spelled: false,
    isOne: false,
  };
}

interface FoundUnit {
  readonly unit: Unit | null;
  readonly end: number;
  readonly doubt: string | null;
}

/** The unit behind a number; 'name' when what touches it makes the whole a name (`5 V-tolerant` is none, `2-wire` is). */
function unitBehind(context: Context, number: NumberToken): FoundUnit | 'name' | null {
  const offset = number.touches === 'hyphen' ? number.end + 1 : skipSpaces(context.text, number.end);
  const scanned = context.units.scan(context.text, offset) ?? scanCapitalised(context, offset);
  const written = scanned ? context.text.slice(offset, scanned.end) : '';
  if (scanned && !NEVER_UNITS.has(written)) return { unit: scanned.unit, end: scanned.end, doubt: null };
  if (number.touches === 'hyphen') return 'name';
  if (context.text[offset] === '$') return { unit: null, end: offset + 1, doubt: DOLLAR };
  const word = wordAt(context, offset);
  const ambiguity = word === null ? null : context.units.ambiguity(word);
  if (word !== null && ambiguity !== null) return { unit: null, end: offset + word.length, doubt: ambiguity };
  return blockedUnit(context, offset, word);
}

/** "99.9 % per month", "60 W/hp": a unit begins, but goes on with what is none; its beginning is never taken alone. */
function blockedUnit(context: Context, offset: number, word: string | null): FoundUnit | null {
  const sign = /^[%‰°]/u.exec(context.text.slice(offset, offset + 1))?.[0] ?? null;
  const start = sign ?? word;
  if (start === null || (sign === null && (NEVER_UNITS.has(start) || context.units.word(start) === null))) return null;
  const goesOn = /^(?:\s+per\s|\s*[/·])/u.test(context.text.slice(offset + start.length, offset + start.length + 8));
  return goesOn
    ? {
        unit: null,
        end: offset + start.length,
        doubt: 'has a unit that cannot be read to its end: write one that is known',
      }
    : null;
}

/** Long names are units with a capital as well: "15 Joules". */
function scanCapitalised(context: Context, offset: number): { unit: Unit; end: number } | null {
  const word = wordAt(context, offset);
  if (word === null || word === word.toLowerCase()) return null;
  const scanned = context.units.scan(word.toLowerCase(), 0);
  return scanned && scanned.end === word.length ? { unit: scanned.unit, end: offset + word.length } : null;
}

function wordAt(context: Context, offset: number): string | null {
  LONG_WORD.lastIndex = offset;
  const long = LONG_WORD.exec(context.text)?.[0];
  if (long !== undefined) return long;
  return /^\p{L}{1,3}(?![\p{L}\d])/u.exec(context.text.slice(offset, offset + 8))?.[0] ?? null;
}

/** `1k`, `5M` joined to the number where no unit begins. */
function multiplierAt(context: Context, number: NumberToken): { end: number; factor: Rational } | null {
  if (number.touches !== 'letter') return null;
  MULTIPLIER.lastIndex = number.end;
  const letter = MULTIPLIER.exec(context.text)?.[0];
  if (letter === undefined) return null;
  return { end: number.end + 1, factor: rational.integer(letter === 'k' ? 1000 : 1_000_000) };
}

/** The first token that begins at or behind `end`. */
export function nextToken(context: Context, end: number, from: number): number {
  let index = from + 1;
  while ((context.tokens[index]?.start ?? Number.POSITIVE_INFINITY) < end) index++;
  return index;
}

function skipSpaces(text: string, offset: number): number {
  SPACES.lastIndex = offset;
  return offset + (SPACES.exec(text)?.[0].length ?? 0);
}

/** "USB 3.2", "class 2", "Bluetooth 5": a number without a unit behind a name or a word that numbers things. */
function isPartOfName(context: Context, { index, number }: Head): boolean {
  const before = context.tokens[index - 1];
  if (number.spelled || context.termTo.has(index)) return false;
  if (before?.type === 'name') return true;
  if (
    keyAt(context, index - 1) === '.' &&
    ['no', 'nos', 'sec', 'fig', 'ch', 'rev', 'vol'].includes(keyAt(context, index - 2))
  )
    return true;
  if (before?.type === 'mark' || LISTING.has(keyAt(context, index - 1))) return isInNumberedList(context, index);
  if (before?.type !== 'word') return false;
  if (NAME_INTRODUCERS.has(before.key) || before.capitals >= 2) return true;
  return before.capitals === 1 && before.end - before.start > 1 && !isFirstWord(context, index - 1);
}

const LISTING: ReadonlySet<string> = new Set([',', 'and', 'or', 'to', 'through', '-', '–']);
const LONGEST_LIST = 16;

/** "ports 1 to 4", "channels 1, 2 and 3": numbers in a list behind a plural that numbers things. */
function isInNumberedList(context: Context, index: number): boolean {
  for (let at = index - 1; at > index - LONGEST_LIST; at--) {
    if (context.tokens[at]?.type === 'number' || LISTING.has(keyAt(context, at))) continue;
    const key = keyAt(context, at);
    return (
      key.endsWith('s') && key !== 'class' && NAME_INTRODUCERS.has(key) && context.tokens[at + 1]?.type === 'number'
    );
  }
  return false;
}

function isFirstWord(context: Context, index: number): boolean {
  const before = keyAt(context, index - 1);
  return index === 0 || ['.', '!', '?', '\n', ':'].includes(before);
}

function doubtOf(context: Context, { index, at, number }: Head): string | null {
  if (number.doubt) return DOUBTS[number.doubt];
  if (isTakenInPart(context, index)) return 'is taken in part or several times: write the figure that comes out';
  const isMultiplied = TIMES_SIGNS.has(keyAt(context, index - 1)) && isNumber(context, index - 2, index - 3);
  if (isMultiplied || isTimes(context, at + 1)) return DOUBTS.product;
  if (LARGER_NUMBER_WORDS.has(keyAt(context, index - 1))) return DOUBTS['number-words'];
  return context.tokens[index - 1]?.type === 'number' ? 'stands right behind another number: write one figure' : null;
}

/** "half of 100 W", "twice 5 W", "a third of the 9 V": the figure itself is not the limit. */
function isTakenInPart(context: Context, index: number): boolean {
  let before = index - 1;
  for (let words = 0; words < 2 && ['of', 'the', 'a', 'an'].includes(keyAt(context, before)); words++) before -= 1;
  return PART_WORDS.has(keyAt(context, before));
}

/** "1.000 EUR": three decimals of money may be thousands, grouped as on the European mainland (common practice, no source). */
function groupingPoint(context: Context, { number }: Head, unit: Unit | null): string | null {
  if (unit === null || !isMoney(unit)) return null;
  const written = context.text.slice(number.start, number.end);
  return /^[1-9]\d{0,2}\.\d{3}$/.test(written)
    ? 'may be thousands or have three decimals: write it without the point, or with two decimals'
    : null;
}

function isNumber(context: Context, ...indexes: readonly number[]): boolean {
  return indexes.some((index) => context.tokens[index]?.type === 'number');
}

function isTimes(context: Context, index: number): boolean {
  return TIMES_SIGNS.has(keyAt(context, index)) && isNumber(context, index + 1);
}

/** "5 thousand", "two hundred and fifty": the number goes on in words. */
function behindNumberWords(context: Context, from: number): number {
  if (!LARGER_NUMBER_WORDS.has(keyAt(context, from))) return from;
  let next = from;
  while (LARGER_NUMBER_WORDS.has(keyAt(context, next)) || context.tokens[next]?.type === 'number') next++;
  return next;
}

function doubtBehind(context: Context, next: number, unit: Unit | null): string | null {
  if (isTimes(context, next)) return DOUBTS.product;
  if (LARGER_NUMBER_WORDS.has(keyAt(context, next - 1))) return DOUBTS['number-words'];
  if (isOutOfMany(context, next)) return 'counts items out of many: write the ratio, such as 0.1 % or 1 in 1000';
  if (unit !== null) return null;
  const key = keyAt(context, next) === 'per' ? keyAt(context, next + 1) : keyAt(context, next);
  if (GROUP_NOUNS.has(key)) return 'is counted in groups or parts: write the number itself, with % where it is a share';
  return BACKWARD_SCALES.has(key)
    ? 'is on a scale that runs backwards or has no order: write what it stands for'
    : null;
}

/** "1 part in 1000", "2 records per 10 000". */
function isOutOfMany(context: Context, next: number): boolean {
  if (context.tokens[next]?.type !== 'word' || !['in', 'per', 'of'].includes(keyAt(context, next + 1))) return false;
  const many = context.tokens[next + 2];
  return many?.type === 'number' && rational.compare(many.value, rational.integer(100)) >= 0;
}

/** "ninety (90)" takes the figure; "ninety" alone is asked about. */
function readNumberWords(context: Context, index: number): Amount | null {
  const token = context.tokens[index];
  if (token?.type !== 'word' || !LARGER_NUMBER_WORDS.has(token.key)) return null;
  const next = behindNumberWords(context, index);
  const end = context.tokens[next - 1]?.end ?? token.end;
  return {
    start: token.start,
    end,
    first: index,
    next,
    number: rational.ZERO,
    unit: null,
    value: rational.ZERO,
    halfPlace: rational.ZERO,
    doubt: DOUBTS['number-words'],
    spelled: true,
    isOne: false,
  };
}

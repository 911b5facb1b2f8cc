/** The numbers, dates and names that begin with a digit; what can be read in two ways keeps its doubt. */
import { dateToBase } from '../../quantity/calendar';
import { SPACE_CLASS } from '../../quantity/fold';
import type { Rational } from '../../quantity/rational';
import * as rational from '../../quantity/rational';
import { isDoubtfulGroup, scanNumber } from '../quantity/number';
import type { DateToken, NameToken, NumberDoubt, NumberToken } from './token';

type FigureToken = NumberToken | DateToken | NameToken;

const DATE = /(\d{4})-(\d{2})-(\d{2})(?![\d\p{L}-])/uy;
const DIGITS = /\d+/y;
/** Dots, slashes, colons or hyphens in a row of digits: versions, clauses, alternatives, times, part numbers. */
const DOTTED_NAME = /\d+\.\d+(?:\.\d+)+[\p{L}\d]*|\d+(?:\/\d+){2,}|\d+(?::\d+)+|\d+\/\d+(?:[-.]\d)+|\d+(?:['’_]\d+)+/uy;
/** A letter between digits: `4k7`, `3V3`, `88E15`, `720p60`; an ordinal: `3rd`. */
const LETTERED_NAME = /\d[\d.]*(?:[\p{L}]+\d[\p{L}\d]*|(?:st|nd|rd|th)(?![\p{L}\d]))/uy;
const EXPONENT = /\d[\d.]*(?:e[-+\u2212]?|E[-+\u2212])\d{1,5}(?![\p{L}\d])/uy;
const DOUBTFUL_GROUP = /\d{1,3} \d{3}(?:\.\d+)?/y;
const COMMA_AND_DIGITS = /[\d.]*\d(?:,\d+)+(?:\.\d+)?/y;
const SPACED_FRACTION = new RegExp(`\\d+[${SPACE_CLASS}](?:\\d+/\\d+|[¼½¾⅐-⅞])`, 'uy');
const SLASH = /(\d+)\/(\d+)/y;
const SUFFIX = /[+"”″'′’²³⁰¹⁴-⁹^]/uy;
const PLUS_NUMBER = /\+\d/y;
const LONGEST_RUN = 400;

/** The token that begins with the digit (or `.5`, `½`) at `start`; always one character long at least. */
export function scanFigure(text: string, start: number): FigureToken {
  return scanDate(text, start) ?? scanName(text, start) ?? scanDoubtful(text, start) ?? scanPlain(text, start);
}

export function spelledNumber(value: number, start: number, end: number): NumberToken {
  const exact = rational.integer(value);
  const base = { type: 'number', value: exact, place: rational.ONE, doubt: null } as const;
  return { ...base, spelled: true, isFraction: false, touches: null, start, end };
}

function scanDate(text: string, start: number): DateToken | null {
  const found = match(DATE, text, start);
  if (!found) return null;
  const value = dateToBase(Number(found[1]), Number(found[2]), Number(found[3]));
  const end = start + found[0].length;
  return { type: 'date', value: value ?? rational.ZERO, doubt: value ? null : 'no-such-day', start, end };
}

function scanName(text: string, start: number): NameToken | null {
  const dotted = match(DOTTED_NAME, text, start)?.[0];
  const isGrouped = dotted !== undefined && /^\d+(?:\/\d+)?$/.test(dotted);
  if (dotted !== undefined && !isGrouped) return nameOf(text, start, start + dotted.length);
  if (match(EXPONENT, text, start)) return null;
  const lettered = match(LETTERED_NAME, text, start)?.[0];
  return lettered === undefined ? null : nameOf(text, start, start + lettered.length);
}

function nameOf(text: string, start: number, end: number): NameToken {
  return { type: 'name', key: text.slice(start, end).toLowerCase(), start, end };
}

/** Forms that have more than one reading; the value is the likeliest, so that a message can show it. */
function scanDoubtful(text: string, start: number): NumberToken | null {
  const run = match(DIGITS, text, start)?.[0].length ?? 0;
  if (run > LONGEST_RUN) return doubted(text, start, start + run, 'too-large', rational.ZERO);
  if (isDoubtfulGroup(text, start)) {
    const group = match(DOUBTFUL_GROUP, text, start)?.[0];
    if (group !== undefined) return doubted(text, start, start + group.length, 'grouping', decimal(group));
  }
  const commas = match(COMMA_AND_DIGITS, text, start)?.[0];
  if (commas !== undefined && scanNumber(text, start, PROSE)?.end !== start + commas.length) {
    return doubted(text, start, start + commas.length, 'decimal-comma', decimal(commas.replace(/,/g, '.')));
  }
  const mixed = match(SPACED_FRACTION, text, start)?.[0];
  if (mixed !== undefined) return doubted(text, start, start + mixed.length, 'mixed-fraction', rational.ZERO);
  const slash = match(SLASH, text, start);
  if (!slash || isPlainFraction(slash[1] ?? '', slash[2] ?? '')) return null;
  return doubted(text, start, start + slash[0].length, 'slash', rational.ZERO);
}

const PROSE = { signed: false, prose: true } as const;

function scanPlain(text: string, start: number): NumberToken {
  // A decimal without its zero (`.5`) is a number in a sentence, though not in an expression.
  const offset = text[start] === '.' ? start + 1 : start;
  const found = scanNumber(text, offset, PROSE);
  const end = found?.end ?? offset + (match(DIGITS, text, offset)?.[0].length ?? 1);
  const value = text[start] === '.' ? decimal(text.slice(start, end)) : (found?.value ?? null);
  const hasSuffix = match(SUFFIX, text, end) !== null && match(PLUS_NUMBER, text, end) === null;
  const doubt = value === null ? 'too-large' : hasSuffix ? 'suffix' : null;
  const token = doubted(text, start, hasSuffix ? end + 1 : end, doubt, value ?? rational.ZERO);
  return { ...token, isFraction: found?.isFraction ?? false };
}

function doubted(
  text: string,
  start: number,
  end: number,
  doubt: NumberDoubt | null,
  value: Rational | null,
): NumberToken {
  const known = value ?? rational.ZERO;
  const place = placeOf(text.slice(start, Math.min(end, start + LONGEST_RUN)), known);
  return {
    type: 'number',
    value: known,
    place,
    doubt,
    spelled: false,
    isFraction: false,
    touches: touching(text, end),
    start,
    end,
  };
}

/** Halves to sixty-fourths and the like; everything else with a slash is asked about. */
function isPlainFraction(numerator: string, denominator: string): boolean {
  return numerator.length <= 2 && denominator.length <= 2 && Number(numerator) < Number(denominator);
}

function touching(text: string, end: number): 'letter' | 'hyphen' | null {
  if (/^[\p{L}]/u.test(text.slice(end, end + 2))) return 'letter';
  return /^[-‐‑]\p{L}/u.test(text.slice(end, end + 3)) ? 'hyphen' : null;
}

/** The last digit's unit: trailing zeros of a whole number say nothing about its digits. */
function placeOf(written: string, value: Rational): Rational {
  const mantissa = /^[\d,. \u00a0\u2007\u2009\u202f]*/u.exec(written)?.[0].replace(/[^\d.]/g, '') ?? '';
  const [whole = '', decimals] = mantissa.split('.');
  const zeros = decimals === undefined ? (/0*$/.exec(whole)?.[0].length ?? 0) : -decimals.length;
  const plain = rational.fromDecimal(mantissa) ?? rational.ONE;
  const scale = rational.sign(plain) === 0 ? rational.ONE : rational.divide(value, plain);
  const place = rational.powerOfTen(Math.max(-99, Math.min(99, zeros)));
  return rational.absolute(rational.multiply(place, rational.sign(scale) === 0 ? rational.ONE : scale));
}

function decimal(text: string): Rational | null {
  return rational.fromDecimal(text.replace(/[^\d.]/g, ''));
}

function match(pattern: RegExp, text: string, offset: number): RegExpExecArray | null {
  pattern.lastIndex = offset;
  return pattern.exec(text);
}

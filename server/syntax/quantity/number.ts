/** Numbers as they stand in expressions, and the further forms that front matter and sentences allow. */

import { SPACE_CLASS } from '../../quantity/fold';
import { matchAt } from '../../quantity/match-at';
import type { Rational } from '../../quantity/rational';
import * as rational from '../../quantity/rational';

export interface NumberForms {
  /** A sign may stand directly before the first digit. */
  readonly signed: boolean;
  /** Groups of three digits, fractions before a unit, and `k` or `M` before a word are read as well. */
  readonly prose: boolean;
}

export interface ScannedNumber {
  /** Null when the number lies outside ±10^99. */
  readonly value: Rational | null;
  readonly end: number;
  /** Written `1/2` or `½`: a number only in front of a unit. */
  readonly isFraction: boolean;
}

const PLAIN = /\d+(?:\.\d+)?/y;
const EXPONENT = /(?:e[-+\u2212]?|E[-+\u2212])(\d{1,5})(?![\p{L}\d_.])/uy;
const POWER_OF_TEN = new RegExp(
  `[${SPACE_CLASS}]*[×x][${SPACE_CLASS}]*10(?:\\^([-+\\u2212]?\\d{1,5})|([⁺⁻]?[⁰¹²³⁴⁵⁶⁷⁸⁹]{1,5}))(?![\\p{L}\\d_]|\\.\\d)`,
  'uy',
);
const BARE_POWER_OF_TEN = /10(?:\^([-+\u2212]?\d{1,5})|([⁺⁻]?[⁰¹²³⁴⁵⁶⁷⁸⁹]{1,5}))(?![\p{L}\d_]|\.\d)/uy;
/** Commas, and the spaces that no author types by chance, join groups wherever they stand. */
const JOINED_GROUPS = /[1-9]\d{0,2}([,\u00a0\u2007\u2009\u202f])\d{3}(?:\1\d{3})*(?:\.\d+)?(?![\d,])/y;
const SPACED_GROUPS = /[1-9]\d{0,2}(?: \d{3})+(?:\.\d+)?(?!\d)/y;
const RATIO = /(?:(\d+) )?(\d+)\/(\d+)(?![\d/.])/y;
const VULGAR = /(\d*) ?([¼½¾⅐-⅞])/uy;
const THOUSANDS = new RegExp(`([kM])(?=[${SPACE_CLASS}]+\\p{L})`, 'uy');
const COMMON_DENOMINATORS: ReadonlySet<string> = new Set(['2', '3', '4', '8', '16', '32', '64']);
const SUPERSCRIPTS = '⁰¹²³⁴⁵⁶⁷⁸⁹';

/** The number that begins at `offset`, or null. `text` need not be folded: a thin space groups where a plain one may not. */
export function scanNumber(text: string, offset: number, forms: NumberForms): ScannedNumber | null {
  const sign = forms.signed ? matchAt(/[-+\u2212]/y, text, offset)?.[0] : undefined;
  const start = sign === undefined ? offset : offset + 1;
  const found = (forms.prose ? scanFraction(text, start) : null) ?? scanUnsigned(text, start, forms);
  if (!found) return null;
  const isNegative = sign === '-' || sign === '\u2212';
  return isNegative && found.value ? { ...found, value: rational.negate(found.value) } : found;
}

/** Whether digits are grouped by one plain space in a way that can be read as two numbers: `2 100`. */
export function isDoubtfulGroup(text: string, offset: number): boolean {
  const found = matchAt(SPACED_GROUPS, text, offset)?.[0];
  return found !== undefined && !isSurelyGrouped(found);
}

function scanUnsigned(text: string, start: number, forms: NumberForms): ScannedNumber | null {
  const bare = matchAt(BARE_POWER_OF_TEN, text, start);
  if (bare) return numberOf('1', exponentText(bare), start + bare[0].length);
  const digits = (forms.prose ? groupedDigits(text, start) : null) ?? matchAt(PLAIN, text, start)?.[0];
  if (digits === undefined) return null;
  const end = start + digits.length;
  // `1.2.3` is a version and no number; its parts are never taken alone.
  if (/^\.\d/.test(text.slice(end, end + 2))) return null;
  const plain = digits.replace(/[^\d.]/g, '');
  const power = matchAt(POWER_OF_TEN, text, end);
  if (power) return numberOf(plain, exponentText(power), end + power[0].length);
  const exponent = matchAt(EXPONENT, text, end);
  if (exponent) return numberOf(plain, exponent[0].slice(1), end + exponent[0].length);
  const thousands = forms.prose ? matchAt(THOUSANDS, text, end)?.[1] : undefined;
  if (thousands) return numberOf(plain, thousands === 'k' ? '3' : '6', end + 1);
  return numberOf(plain, '0', end);
}

function groupedDigits(text: string, start: number): string | null {
  const joined = matchAt(JOINED_GROUPS, text, start)?.[0];
  if (joined !== undefined) return joined;
  const spaced = matchAt(SPACED_GROUPS, text, start)?.[0];
  return spaced !== undefined && isSurelyGrouped(spaced) ? spaced : null;
}

/** Three groups or more, or a later group that no number begins with: `1 200 000`, `200 000`. */
function isSurelyGrouped(digits: string): boolean {
  const groups = digits.split(' ');
  return groups.length >= 3 || groups.slice(1).some((group) => group.startsWith('0'));
}

function scanFraction(text: string, start: number): ScannedNumber | null {
  const ratio = matchAt(RATIO, text, start);
  if (ratio && isCommonFraction(ratio[2] ?? '', ratio[3] ?? ''))
    return fractionOf(ratio[1] ?? '0', ratio[2] ?? '', ratio[3] ?? '', start + ratio[0].length);
  const vulgar = matchAt(VULGAR, text, start);
  if (!vulgar) return null;
  const [numerator = '', denominator = ''] = (vulgar[2] ?? '').normalize('NFKC').split('\u2044');
  return fractionOf(vulgar[1] || '0', numerator, denominator, start + vulgar[0].length);
}

/** `5/12 V` and `10/100 Mbit/s` are as often two values: only fractions that rulers and recipes have are taken for one. */
function isCommonFraction(numerator: string, denominator: string): boolean {
  return COMMON_DENOMINATORS.has(denominator) && Number(numerator) < Number(denominator) && !/^0/.test(numerator);
}

function fractionOf(whole: string, numerator: string, denominator: string, end: number): ScannedNumber | null {
  if (whole.length > rational.MAXIMUM_DECIMAL_EXPONENT) return null;
  const part = rational.fraction(BigInt(numerator), BigInt(denominator));
  return { value: rational.add(rational.integer(BigInt(whole)), part), end, isFraction: true };
}

function numberOf(digits: string, exponent: string, end: number): ScannedNumber {
  const written = exponent === '0' ? digits : `${digits}e${exponent.replace('\u2212', '-')}`;
  return { value: rational.fromDecimal(written), end, isFraction: false };
}

function exponentText([, plain, raised = '']: RegExpExecArray): string {
  return (
    plain ??
    raised.replace(/./gu, (mark) => (mark === '⁻' ? '-' : mark === '⁺' ? '+' : `${SUPERSCRIPTS.indexOf(mark)}`))
  );
}

/** Front-matter values that were meant as figures and are none: what is wrong, and what was meant. */
import { foldText, SPACE_CLASS } from '../../quantity/fold';
import type { UnitTable } from '../../quantity/unit-table';
import { offsetAfterSpaces } from './amount';
import { isDoubtfulGroup, scanNumber } from './number';

export interface Misreading {
  readonly type: 'bad';
  readonly message: string;
  readonly fix: string | null;
}

/** Whether a text reads as a figure, to try what might have been meant. */
type IsFigure = (text: string) => boolean;

type Check = (text: string, units: UnitTable, isFigure: IsFigure) => Misreading | null;

/** Why a text that is no figure should be one; null when it is simply text. The first check that answers is the message. */
export function misreading(text: string, units: UnitTable, isFigure: IsFigure): Misreading | null {
  for (const check of CHECKS) {
    const found = check(text, units, isFigure);
    if (found) return found;
  }
  return null;
}

const CHECKS: readonly Check[] = [
  barePoint,
  dollarInFront,
  relationInFront,
  aroundZero,
  doubtfulGroup,
  decimalComma,
  joinedNumbers,
  hyphenatedUnit,
  wrongWord,
  unreadableTolerance,
];

const NUMBER = '[-+\u2212\u2013]?\\d+(?:\\.\\d+)?';
const SPACES = `[${SPACE_CLASS}]*`;

/** `.5 A` */
function barePoint(text: string, _units: UnitTable, isFigure: IsFigure): Misreading | null {
  const fix = text.replace(/^([-+\u2212]?)\./, '$10.');
  return fix !== text && isFigure(fix) ? bad('a digit stands before the decimal point', fix) : null;
}

function dollarInFront(text: string, units: UnitTable): Misreading | null {
  const message = /^\$\s*\d/.test(text) ? units.ambiguity('$') : null;
  return message === null ? null : bad(message, null);
}

/** `<= 60 W`, `~ 5 V` */
function relationInFront(text: string, _units: UnitTable, isFigure: IsFigure): Misreading | null {
  const [relation] = /^(?:[<>]=?|[≤≥~≈=])\s*/u.exec(text) ?? [];
  if (relation === undefined || !isFigure(text.slice(relation.length))) return null;
  return bad('a fact is a figure and no limit; write {max: …}, {min: …} or a tolerance', null);
}

/** `± 5 V` */
function aroundZero(text: string, _units: UnitTable, isFigure: IsFigure): Misreading | null {
  const [sign] = /^(?:±|\+\/[-\u2212])\s*/u.exec(text) ?? [];
  if (sign === undefined || !isFigure(text.slice(sign.length))) return null;
  return bad('a tolerance needs a value before it; for a range write both ends, `-a to a`', null);
}

/** `2 100 W`: one number, or two. */
function doubtfulGroup(text: string, _units: UnitTable, isFigure: IsFigure): Misreading | null {
  const start = /^[-+\u2212]/.test(text) ? 1 : 0;
  if (!isDoubtfulGroup(text, start)) return null;
  const fix = text.replace(/(\d) (?=\d{3}(?!\d))/, '$1');
  return isFigure(fix) ? bad('a space inside a number can be read two ways; write it without', fix) : null;
}

/** `3,3 V` */
function decimalComma(text: string, _units: UnitTable, isFigure: IsFigure): Misreading | null {
  if (!/^[-+\u2212]?\d+,\d+(?![\d,])/.test(text)) return null;
  const fix = text.replace(/(\d),(?=\d)/g, '$1.');
  return isFigure(fix) ? bad('decimals follow a point, not a comma', fix) : null;
}

const JOINED = new RegExp(
  `^(${NUMBER})(.*?)${SPACES}(?:[-\u2013\u2014\u2212]|\\.{2,3}|…)${SPACES}(${NUMBER})([^\\d]*)$`,
  'u',
);

/** `36-57 V`, `36 V..57 V`, `36…57 V` */
function joinedNumbers(text: string, _units: UnitTable, isFigure: IsFigure): Misreading | null {
  const [, low, lowRest = '', high, highRest = ''] = JOINED.exec(text) ?? [];
  if (low === undefined || high === undefined || /\d/.test(lowRest)) return null;
  const first = withUnit(low, lowRest.trim() === '' ? highRest.trim() : lowRest.trim());
  const second = withUnit(high, highRest.trim());
  // `5 V -12 V` may be two supplies; only a hyphen with the same on both sides is surely meant as “to”.
  const isDoubtful = /\s[-\u2212]\d/.test(text.slice(1));
  if (isFigure(`${first} to ${second}`)) {
    return bad('a range is written with “to”', isDoubtful ? null : `${first} to ${second}`);
  }
  if (lowRest === '' && highRest === '') {
    return bad('two numbers are no value; a range is written with “to”, a text in quotes', null);
  }
  return isFigure(`${second} to ${first}`) ? bad('its ends are in the wrong order', `${second} to ${first}`) : null;
}

/** `12-bit`, `5-V` */
function hyphenatedUnit(text: string, _units: UnitTable, isFigure: IsFigure): Misreading | null {
  const fix = text.replace(new RegExp(`^(${NUMBER})-(?=\\p{L})`, 'u'), '$1 ');
  return fix !== text && isFigure(fix) ? bad('a space stands between number and unit', fix) : null;
}

/** `5 V ± 5 percent of range`: begins as a figure with a tolerance, and goes on as something else. */
function unreadableTolerance(text: string, units: UnitTable): Misreading | null {
  if (!/^[-+\u2212]?\d[^±]*(?:±|\+\/[-\u2212])/u.test(text)) return null;
  const word = unknownWord(text.slice(text.search(/±|\+\//u)).replace(/^(?:±|\+\/[-\u2212])\s*/u, ''), units);
  return bad(word ? `“${word}” is no unit` : 'the tolerance cannot be read; write ± and a number with its unit', null);
}

/** The number is there, what follows it is no unit. */
function wrongWord(text: string, units: UnitTable, isFigure: IsFigure): Misreading | null {
  const number = scanNumber(text, 0, { signed: true, prose: true });
  if (!number) return null;
  const start = offsetAfterSpaces(text, number.end);
  const rest = text.slice(start);
  if (/^[kM]$/.test(rest)) {
    return bad(`${rest} is a prefix and no unit; write all digits, or the unit with its prefix`, null);
  }
  const together = /^[\p{L}°º%µ_$][^\s±]*/u.exec(foldText(rest))?.[0];
  if (together === undefined) return null;
  const wrong = firstWrongWord(together, units);
  const ambiguity = wrong && units.ambiguity(wrong.word);
  if (ambiguity) return bad(ambiguity, null);
  const meant = wrong && misspelt(text, start + wrong.at, wrong.word, units, isFigure);
  const isJoined = start === number.end;
  return meant ?? (isJoined ? null : unknown(text, number.end, units, isFigure));
}

/** The first of the words that stand together behind a number (`Kbit/s`) that is no unit. */
function firstWrongWord(together: string, units: UnitTable): { readonly word: string; readonly at: number } | null {
  for (const found of together.matchAll(/[\p{L}°º%_$][\p{L}\d_$]*/gu)) {
    if (units.word(found[0]) === null) return { word: found[0], at: found.index };
  }
  return null;
}

function misspelt(text: string, at: number, word: string, units: UnitTable, isFigure: IsFigure): Misreading | null {
  const corrected = (near: string) => text.slice(0, at) + near + text.slice(at + word.length);
  const meant = nearest(word, units).filter((near) => isFigure(corrected(near)));
  const [only] = meant;
  if (only === undefined) return null;
  if (meant.length > 1) return bad(`“${word}” is no unit; did you mean ${meant.join(' or ')}?`, null);
  return bad(`“${word}” is no unit; ${only} is`, corrected(only));
}

/** Units alike but for case; only without any, those one edit away that begin alike. */
function nearest(word: string, units: UnitTable): readonly string[] {
  const lower = word.toLowerCase();
  const near = units.nearest(word).map((candidate) => ({ candidate, lower: candidate.toLowerCase() }));
  const alike = near.filter((one) => one.lower === lower);
  const chosen = alike.length > 0 ? alike : near.filter((one) => one.lower[0] === lower[0]);
  return chosen.map((one) => one.candidate);
}

/** `6 cameras`: one word that is no unit. Several words are text. */
function unknown(text: string, numberEnd: number, units: UnitTable, isFigure: IsFigure): Misreading | null {
  const rest = text.slice(numberEnd).trim();
  if (/\s/u.test(rest)) return null;
  if (/\/[^/(]*[·⋅∙]/u.test(rest)) {
    return bad(`what ${rest} divides by can be read two ways; use brackets, W/(m·K)`, null);
  }
  const alone = text.slice(0, numberEnd);
  const fix = /^[\p{L}_]+$/u.test(rest) && isFigure(alone) ? alone : null;
  return bad(`“${unknownWord(rest, units) ?? rest}” is no unit; write the number alone, or the text in quotes`, fix);
}

/** The first word behind an optional number that no unit begins with. */
function unknownWord(text: string, units: UnitTable): string | null {
  const [, word] = /^[\d.\s]*([\p{L}_]+)/u.exec(text) ?? [];
  return word !== undefined && units.word(word) === null ? word : null;
}

function withUnit(number: string, unit: string): string {
  return unit === '' ? number : `${number} ${unit}`;
}

function bad(message: string, fix: string | null): Misreading {
  return { type: 'bad', message, fix };
}

/** Front-matter values that were meant as figures and are none: what is wrong, and what was meant. */
import { SPACE_CLASS } from '../../quantity/fold';
import type { UnitTable } from '../../quantity/unit-table';
import { bad, type Check, type IsFigure, type Misreading } from './misreading';
import { unknownWord, wrongWord } from './wrong-word';

/** Why a text that is no figure should be one; null when it is simply text. The first check that answers is the message. */
export function misreading(text: string, units: UnitTable, isFigure: IsFigure): Misreading | null {
  for (const check of CHECKS) {
    const found = check(text, units, isFigure);
    if (found) return found;
  }
  return null;
}

/** A spelling that reads as a figure once it is rewritten. */
interface Rewriting {
  readonly pattern: RegExp;
  readonly replacement: string;
  readonly message: string;
}

const NUMBER = '[-+\u2212\u2013]?\\d+(?:\\.\\d+)?';
const SPACES = `[${SPACE_CLASS}]*`;

/** What the author meant is certain, and the rewritten text is the fix. */
const CERTAIN: readonly Rewriting[] = [
  { pattern: /^([-+\u2212]?)\./, replacement: '$10.', message: 'a digit stands before the decimal point' },
  { pattern: /^([-+\u2212])\s+(?=\d)/, replacement: '$1', message: 'a sign touches its number' },
  { pattern: /(\d),(?=\d)/g, replacement: '$1.', message: 'decimals follow a point, not a comma' },
  { pattern: /(\d) (?=\d{3}(?!\d))/g, replacement: '$1', message: 'a space inside a number can be read two ways' },
  {
    pattern: new RegExp(`^(${NUMBER})-(?=\\p{L})`, 'u'),
    replacement: '$1 ',
    message: 'a space stands between number and unit',
  },
  { pattern: /\s*(?:\+-|-\+|plus or minus)\s*/, replacement: ' ± ', message: 'a tolerance is written with ±' },
  { pattern: /[()]/g, replacement: ' ', message: 'a figure has no brackets' },
  { pattern: /^from\s+/, replacement: '', message: 'a range begins with its number' },
  { pattern: /^(\d{4})[/.](\d{2})[/.](\d{2})$/, replacement: '$1-$2-$3', message: 'a date is written 2026-10-02' },
];

/** The text is near a figure, but more than one may be meant: it is asked about. */
const DOUBTFUL: readonly Rewriting[] = [
  {
    pattern: /^(?:[<>]=?|[≤≥~≈]|(?:max|min|typ|maximum|minimum|approx|about|up to|at least|at most)\b\.?)\s*/u,
    replacement: '',
    message: 'a fact is a figure and no limit; write {max: …}, {min: …} or a tolerance',
  },
  {
    pattern: /\s+(?:max|min|typ|maximum|minimum|typical)\.?$/,
    replacement: '',
    message: 'write one end of a figure as {max: …}, {min: …} or {typ: …}',
  },
  {
    pattern: /^(?:±|\+\/[-\u2212])\s*/u,
    replacement: '',
    message: 'a tolerance needs a value before it; for a range write both ends, `-a to a`',
  },
  {
    pattern: /^\d+\/(?=\d+\s*[^\d\s/.])/,
    replacement: '',
    message: 'it may be a fraction or two values; write one number, or a list [a, b]',
  },
  {
    pattern: /\s*\(?TBD\)?$/,
    replacement: '',
    message: 'TBD says that there is no value; one that is to be resolved or confirmed has TBR or TBC',
  },
  { pattern: /^(\d{4}-\d{2}-\d{2})[T ].*$/, replacement: '$1', message: 'a date stands alone, without a time' },
  {
    pattern: /(?<=\d.*)\s*[-+\u2212]\s*\d[\d.]*\s*\S{0,20}$/,
    replacement: '',
    message: 'a tolerance names both sides, `+10 % / -0 %`',
  },
];

const CHECKS: readonly Check[] = [
  misspeltMarker,
  dollarInFront,
  certainRewriting,
  joinedNumbers,
  doubtfulRewriting,
  wrongWord,
  unreadableTolerance,
];

function certainRewriting(text: string, _units: UnitTable, isFigure: IsFigure): Misreading | null {
  return rewriting(CERTAIN, text, isFigure);
}

function doubtfulRewriting(text: string, _units: UnitTable, isFigure: IsFigure): Misreading | null {
  const found = rewriting(DOUBTFUL, text, isFigure);
  return found && bad(found.message, null);
}

function rewriting(rewritings: readonly Rewriting[], text: string, isFigure: IsFigure): Misreading | null {
  for (const { pattern, replacement, message } of rewritings) {
    const rewritten = text.replace(pattern, replacement).replace(/\s+/g, ' ').trim();
    if (rewritten !== text && isFigure(rewritten)) return bad(message, rewritten);
  }
  return null;
}

/** `tbd`, `T.B.D.` */
function misspeltMarker(text: string): Misreading | null {
  return /^t\.?b\.?[dcr]\.?$/i.test(text) ? bad('a value that is not known is TBD', 'TBD') : null;
}

function dollarInFront(text: string, units: UnitTable): Misreading | null {
  const message = /^\$\s*\d/.test(text) ? units.ambiguity('$') : null;
  return message === null ? null : bad(message, null);
}

const JOINED = new RegExp(
  `^(${NUMBER})(.*?)${SPACES}(?:[-\u2013\u2014\u2212]|\\.{2,3}|…|/(?=\\+))${SPACES}(${NUMBER})([^\\d]*)$`,
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

/** `5 V ± 5 percent of range`: begins as a figure with a tolerance, and goes on as something else. */
function unreadableTolerance(text: string, units: UnitTable): Misreading | null {
  if (!/^[-+\u2212]?\d[^±]*(?:±|\+\/[-\u2212])/u.test(text)) return null;
  const word = unknownWord(text.slice(text.search(/±|\+\//u)).replace(/^(?:±|\+\/[-\u2212])\s*/u, ''), units);
  return bad(word ? `“${word}” is no unit` : 'the tolerance cannot be read; write ± and a number with its unit', null);
}

function withUnit(number: string, unit: string): string {
  return unit === '' ? number : `${number} ${unit}`;
}

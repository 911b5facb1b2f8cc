/** A number is there, but the word behind it is no unit: which one was meant. */
import { foldText } from '../../quantity/fold';
import type { UnitTable } from '../../quantity/unit-table';
import { offsetAfterSpaces } from './amount';
import { bad, type IsFigure, type Misreading } from './misreading';
import { scanNumber } from './number';

/** A unit of three letters is one edit away from too many others for one of them to be the right edit. */
const SHORTEST_FOR_FIX = 4;

/** The number is there, what follows it is no unit. */
export function wrongWord(text: string, units: UnitTable, isFigure: IsFigure): Misreading | null {
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
  const isSure = only.toLowerCase() === word.toLowerCase() || word.length >= SHORTEST_FOR_FIX;
  if (meant.length > 1 || !isSure) return bad(`“${word}” is no unit; did you mean ${meant.join(' or ')}?`, null);
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
export function unknownWord(text: string, units: UnitTable): string | null {
  const [, word] = /^[\d.\s]*([\p{L}_]+)/u.exec(text) ?? [];
  return word !== undefined && units.word(word) === null ? word : null;
}

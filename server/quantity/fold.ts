/** Text folding for figures and units: one UTF-16 unit for one, so that offsets into the folded text are offsets into the text. */
import { FOLDED_CHARACTERS } from '../../grammar/folding';

/** Characters that stand for a space in a figure or between words of a unit, as the inside of a character class. */
export const SPACE_CLASS = ' \\t\\u00a0\\u2002-\\u200a\\u202f';

/**
 * The text with look-alikes made equal (µ and μ, Ω and OHM SIGN, minus and hyphen, kinds of space); as long as before.
 * Combining sequences stay as they are, since composing them would move what follows.
 */
export function foldText(text: string): string {
  return IS_ASCII.test(text) ? text : text.replace(/[^\0-\x7f]/gu, foldCharacter);
}

const IS_ASCII = /^[\0-\x7f]*$/;

function foldCharacter(character: string): string {
  const folded = FOLDED_CHARACTERS.get(character);
  if (folded !== undefined) return folded;
  const composed = character.normalize('NFC');
  if (composed.length !== character.length) return character;
  // EN QUAD composes to EN SPACE, which is a look-alike in turn.
  return FOLDED_CHARACTERS.get(composed) ?? composed;
}

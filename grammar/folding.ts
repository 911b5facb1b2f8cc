/** Text folding: characters that look alike and mean the same in a figure or a unit. Case is never folded. */

/**
 * Each character on the left reads as the one on the right; one UTF-16 unit for one, so that offsets stay.
 * Singleton canonical equivalents (Ω OHM SIGN, K KELVIN SIGN, Å ANGSTROM SIGN) come from Unicode normalization form C.
 */
export const FOLDED_CHARACTERS: ReadonlyMap<string, string> = new Map([
  ['\u03bc', '\u00b5'], // GREEK SMALL LETTER MU: the sign that keyboards type is MICRO SIGN
  ['\u2212', '-'], // MINUS SIGN
  ['\u00a0', ' '], // NO-BREAK SPACE
  ['\u2002', ' '], // EN SPACE
  ['\u2003', ' '], // EM SPACE
  ['\u2004', ' '], // THREE-PER-EM SPACE
  ['\u2005', ' '], // FOUR-PER-EM SPACE
  ['\u2006', ' '], // SIX-PER-EM SPACE
  ['\u2007', ' '], // FIGURE SPACE
  ['\u2008', ' '], // PUNCTUATION SPACE
  ['\u2009', ' '], // THIN SPACE
  ['\u200a', ' '], // HAIR SPACE
  ['\u202f', ' '], // NARROW NO-BREAK SPACE
]);

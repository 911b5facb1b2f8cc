/** Single words as units of the language: exact spellings first, then currencies, then a prefix and a unit. */
import { AMBIGUOUS_UNITS } from '../../grammar/ambiguous-units';
import { CURRENCY_CODES, CURRENCY_SIGNS } from '../../grammar/currencies';
import { BINARY_PREFIXES, DECIMAL_PREFIXES, type PrefixRow } from '../../grammar/prefixes';
import { RATE_WORDS } from '../../grammar/units';
import { dimension } from './dimension';
import type { Rational } from './rational';
import * as rational from './rational';
import { UNITY, type Unit } from './unit';
import { productOf, scaled } from './unit-arithmetic';
import { type DefinedUnit, defineUnits, listOf } from './unit-definition';
import { arranged, type Spellings } from './unit-nearest';

/** A word that is a unit; `family` is what the unit is called without its prefix, `V` for `mV`. */
export interface KnownWord {
  readonly unit: Unit;
  readonly family: string;
}

interface Prefix {
  readonly symbol: string;
  readonly name: string;
  readonly factor: Rational;
  readonly isLarge: boolean;
  readonly isBinary: boolean;
}

type Prefixes = ReadonlyMap<string, Prefix>;

const { symbols, names } = defineUnits();
const symbolPrefixes = prefixesBy(([spellings]) => spellings);
const namePrefixes = prefixesBy(([, name]) => [name]);
const currencyCodes: ReadonlySet<string> = new Set(CURRENCY_CODES);
const ambiguous: ReadonlyMap<string, string> = new Map(
  AMBIGUOUS_UNITS.flatMap(([words, message]) => listOf(words).map((word) => [word, `${word} ${message}`] as const)),
);
const rateWords: ReadonlyMap<string, KnownWord> = new Map(
  RATE_WORDS.flatMap(([prefixes, word, counted]) =>
    listOf(prefixes).map((prefix) => [prefix + word, countedBy(prefix, counted, prefix + word)] as const),
  ),
);
/** Words already worked out: one object for one spelling, and no second search. Holds known words only, so it is bounded. */
const workedOut = new Map<string, KnownWord>();
/** Worked out when the first word is misspelt. */
let proposals: Spellings | null = null;

/** A word of the language, with or without prefix; null when it is none or ambiguous. */
export function languageWord(word: string): KnownWord | null {
  const before = workedOut.get(word);
  if (before) return before;
  if (ambiguous.has(word)) return null;
  const found = symbols.get(word) ?? names.get(word) ?? currency(word) ?? prefixed(word) ?? squareOrCube(word);
  if (found) workedOut.set(word, found);
  return found;
}

/** Why a word is refused as a unit, with what to write instead; null for every other word. */
export function languageAmbiguity(word: string): string | null {
  return ambiguous.get(word) ?? null;
}

/** What a word counts where it stands before `/s` and its letters alone would say something else: `MT` in `MT/s`. */
export function rateWord(word: string): KnownWord | null {
  return rateWords.get(word) ?? null;
}

/** Spellings that a single run of letters does not reach: `degrees Celsius`, `dB(A)`. */
export function compositeSpellings(): readonly string[] {
  return [...symbols.keys(), ...names.keys()].filter((spelling) => /[ (]/.test(spelling));
}

/** What may be proposed for a misspelt unit: every spelling with every prefix it takes, everyday prefixes first. */
export function languageSpellings(): Spellings {
  if (proposals) return proposals;
  // `b` is understood, but the standard's symbol is `bit`; proposing both would leave `GIB` without one right edit.
  const proposed = new Map([...symbols].filter(([spelling]) => spelling !== 'b'));
  const spellings = [...spellingsOf(proposed, symbolPrefixes), ...spellingsOf(names, namePrefixes), ...currencyCodes];
  proposals = arranged(spellings);
  return proposals;
}

function spellingsOf(units: ReadonlyMap<string, DefinedUnit>, prefixes: Prefixes): readonly string[] {
  const prefixedOnes = [...prefixes].flatMap(([text, prefix]) =>
    [...units].filter(([, unit]) => takes(unit, prefix)).map(([spelling]) => text + spelling),
  );
  return [...units.keys(), ...prefixedOnes];
}

function prefixesBy(spellings: (row: PrefixRow) => readonly string[]): Prefixes {
  const decimal = DECIMAL_PREFIXES.map((row) => ({ row, prefix: prefixOf(row, 10, false) }));
  const binary = BINARY_PREFIXES.map((row) => ({ row, prefix: prefixOf(row, 1024, true) }));
  return new Map(
    [...decimal, ...binary].flatMap(({ row, prefix }) => spellings(row).map((text) => [text, prefix] as const)),
  );
}

function prefixOf([spellings, name, exponent]: PrefixRow, base: number, isBinary: boolean): Prefix {
  return {
    symbol: spellings[0] ?? name,
    name,
    factor: rational.power(rational.integer(base), exponent),
    isLarge: exponent >= 3 || isBinary,
    isBinary,
  };
}

function takes(unit: DefinedUnit, prefix: Prefix): boolean {
  if (prefix.isBinary) return unit.prefixes === 'binary';
  return unit.prefixes === 'si' || (unit.prefixes !== 'none' && prefix.isLarge);
}

function prefixed(word: string): KnownWord | null {
  for (const length of [1, 2]) {
    const found = withPrefix(symbolPrefixes.get(word.slice(0, length)), symbols.get(word.slice(length)), word);
    if (found) return found;
  }
  for (const [text, prefix] of namePrefixes) {
    const found = word.startsWith(text) ? withPrefix(prefix, names.get(word.slice(text.length)), word) : null;
    if (found) return found;
  }
  return null;
}

function withPrefix(prefix: Prefix | undefined, unit: DefinedUnit | undefined, symbol: string): KnownWord | null {
  if (!prefix || !unit || !takes(unit, prefix)) return null;
  // A unit that has only names (frame) takes the prefix's name as well, so that the whole reads back.
  const canonical = (symbols.has(unit.family) ? prefix.symbol : prefix.name) + unit.family;
  return { unit: { ...scaled(unit.unit, prefix.factor), symbol, canonical }, family: unit.family };
}

function currency(word: string): KnownWord | null {
  const code = CURRENCY_SIGNS.get(word) ?? word;
  if (!currencyCodes.has(code)) return null;
  return {
    unit: { ...UNITY, symbol: word, canonical: code, dimension: dimension({ [`money:${code}`]: 1 }) },
    family: code,
  };
}

/** Units whose squares and cubes are typed with a plain digit. */
const DIGIT_POWERS: ReadonlySet<string> = new Set(['m', 'in', 'ft', 'yd', 'mi', 's']);

/** `mm2`, `ft3`, `m/s2`: the trade's spelling of squares and cubes (common practice, no source). */
function squareOrCube(word: string): KnownWord | null {
  const exponent = Number(word.at(-1));
  if (exponent !== 2 && exponent !== 3) return null;
  const length = languageWord(word.slice(0, -1));
  if (!length || !DIGIT_POWERS.has(length.family)) return null;
  return { unit: productOf([{ unit: length.unit, exponent }], word), family: word };
}

function countedBy(prefix: string, name: string, symbol: string): KnownWord {
  const unit = names.get(name)?.unit;
  if (unit === undefined) throw new Error(`a rate counts ${name}, which is no unit`);
  const factor = symbolPrefixes.get(prefix)?.factor ?? rational.ONE;
  return { unit: { ...scaled(unit, factor), symbol, canonical: symbol }, family: name };
}

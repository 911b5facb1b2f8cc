/** Which words are units, for one product: the language's table and the product's own units and currencies. */
import { CURRENCY_SIGNS } from '../../grammar/currencies';
import { dimension } from './dimension';
import { foldText } from './fold';
import type { Rational } from './rational';
import { UNITY, type Unit } from './unit';
import { asLength, productOf, scaled, symbolOf } from './unit-arithmetic';
import { type KnownWord, languageAmbiguity, languageSpellings, languageWord } from './unit-dictionary';
import { nearestWords } from './unit-nearest';
import { scanUnit, withRateWords } from './unit-scan';

/** One word of a unit with its power: `m/s^2` is [{word: 'm', exponent: 1}, {word: 's', exponent: -2}]. */
export interface UnitFactor {
  readonly word: string;
  readonly exponent: number;
}

/** A unit found in running text. */
export interface ScannedUnit {
  readonly unit: Unit;
  /** Offset after its last character. */
  readonly end: number;
}

export interface UnitTable {
  /** A single word with or without a prefix, in any known spelling; null when it is no unit. Case is never folded. */
  word(text: string): Unit | null;
  /** The product of factors, or the first word that is no unit. */
  resolve(factors: readonly UnitFactor[]): Unit | { readonly unknown: string };
  /** The longest unit that stands at `offset`: `mV/m`, `degrees Celsius`, `m/s²`, `N·m`, `W h`. Null when none does. */
  scan(text: string, offset: number): ScannedUnit | null;
  /** Known words within one edit, or alike but for case; nearest first. */
  nearest(word: string): readonly string[];
  /** Why a word that names several units is refused, with what to write instead; null for every other word. */
  ambiguity(word: string): string | null;
}

/** A unit of the product's own, from its configuration. */
export type OwnUnit =
  /** Counts something and mixes with nothing else. */
  | { readonly type: 'kind' }
  /** `factor` of another unit. With `spread` the declared value is a fact of its own (`units.NAME`) and no factor. */
  | { readonly type: 'scaled'; readonly factor: Rational; readonly of: Unit; readonly spread: boolean };

/** How words become units; what a scanner needs of a table. */
export interface UnitWords {
  known(word: string): KnownWord | null;
  ambiguity(word: string): string | null;
}

/** The units of the language and, before them, the product's own. */
export function createUnitTable(own: ReadonlyMap<string, OwnUnit> = new Map()): UnitTable {
  const ownWords = new Map([...own].map(([name, unit]) => [foldText(name), knownOf(foldText(name), unit)]));
  const words: UnitWords = {
    known: (word) => ownWord(word, ownWords) ?? languageWord(word) ?? ownPlural(word, ownWords),
    ambiguity: (word) => (ownWords.has(word) ? null : languageAmbiguity(word)),
  };
  return {
    word: (text) => words.known(foldText(text))?.unit ?? null,
    resolve: (factors) => resolve(factors, words),
    scan: (text, offset) => scanUnit(text, offset, words),
    nearest: (word) => nearestWords(foldText(word), [...ownWords.keys()], languageSpellings()),
    ambiguity: (word) => words.ambiguity(foldText(word)),
  };
}

function knownOf(name: string, own: OwnUnit): KnownWord {
  return { unit: unitOf(name, own), family: name };
}

function unitOf(name: string, own: OwnUnit): Unit {
  if (own.type === 'kind') return { ...UNITY, symbol: name, canonical: name, dimension: dimension({}, { [name]: 1 }) };
  const of = asLength(own.of);
  if (!own.spread) return { ...scaled(of, own.factor), symbol: name, canonical: name };
  const rate = `units.${name}`;
  return { ...of, symbol: name, canonical: name, rates: new Map([...of.rates, [rate, (of.rates.get(rate) ?? 0) + 1]]) };
}

/** An own unit by its name, or an own currency by its sign. */
function ownWord(word: string, ownWords: ReadonlyMap<string, KnownWord>): KnownWord | null {
  const known = ownWords.get(CURRENCY_SIGNS.get(word) ?? word);
  return known ? { ...known, unit: { ...known.unit, symbol: word } } : null;
}

/** `6 lanes` where `lane` is an own unit. */
function ownPlural(word: string, ownWords: ReadonlyMap<string, KnownWord>): KnownWord | null {
  const singular = word.endsWith('s') ? ownWords.get(word.slice(0, -1)) : undefined;
  return singular ? { unit: { ...singular.unit, symbol: word }, family: singular.family } : null;
}

function resolve(factors: readonly UnitFactor[], words: UnitWords): Unit | { readonly unknown: string } {
  const folded = factors.map(({ word, exponent }) => ({ word: foldText(word), exponent }));
  const rates = withRateWords(folded, ({ word }) => word);
  const powers = [];
  for (const [index, { word, exponent }] of folded.entries()) {
    const known = rates[index] ?? words.known(word);
    if (!known) return { unknown: word };
    powers.push({ unit: known.unit, exponent });
  }
  return productOf(
    powers,
    symbolOf(powers, (unit) => unit.symbol),
  );
}

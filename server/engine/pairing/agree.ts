/** Phrases that a comparison inside a code span, or a check, says again (2 · rules 3 and 4). */
import * as dimensions from '../../quantity/dimension';
import { UNITY } from '../../quantity/unit';
import type { CodeType, InnerComparison } from '../pairing';
import type { Context } from './context';
import { fits, measureOf, type Name } from './fit';
import type { Ledger } from './ledger';
import { around } from './near';
import { type Atom, atomsOf, isBare, type Phrase } from './phrase';
import { wordsDisagree } from './problem';
import type { CodePlace } from './roles';
import { figureText } from './text';

/** `same`: relation and quantity. `other`: the quantity with another relation. */
type Agreement = 'same' | 'other' | 'none';

/** Uses up the phrases of a sentence that the comparisons of its code spans state as well. */
export function agreeWithCode(
  context: Context,
  ledger: Ledger,
  phrases: readonly Phrase[],
  places: readonly CodePlace[],
  names: readonly Name[],
  types: readonly CodeType[],
): void {
  const nameOf = new Map(names.map((name) => [name.code, name]));
  for (const { code, token } of places) {
    const type = types[code];
    if (type?.type !== 'quantity' && type?.type !== 'condition') continue;
    if (type.comparisons.length === 0) continue;
    const near = nearestFirst(phrases, token);
    for (const phrase of near) useUp(context, ledger, phrase, near, type.comparisons, nameOf.get(code) ?? null, types);
  }
}

function nearestFirst(phrases: readonly Phrase[], token: number): readonly Phrase[] {
  const near = [...around(phrases, token, ({ first }) => first)];
  return near.sort((a, b) => Math.abs(a.first - token) - Math.abs(b.first - token));
}

function useUp(
  context: Context,
  ledger: Ledger,
  phrase: Phrase,
  all: readonly Phrase[],
  comparisons: readonly InnerComparison[],
  name: Name | null,
  types: readonly CodeType[],
): void {
  if (ledger.usedPhrases.has(phrase)) return;
  const agreement = agreementWith(phrase, comparisons, types);
  if (agreement === 'none') return;
  const isOwn = name !== null && fits(name, phrase, types);
  if (isOwn && (agreement === 'other' || !hasAnother(ledger, phrase, all, name, types))) return;
  ledger.usedPhrases.add(phrase);
  ledger.limitedClauses.add(phrase.clause);
  if (agreement === 'other')
    ledger.problems.push(wordsDisagree(context, phrase, comparisonText(context, comparisons, phrase, types)));
}

function hasAnother(
  ledger: Ledger,
  phrase: Phrase,
  all: readonly Phrase[],
  name: Name,
  types: readonly CodeType[],
): boolean {
  return all.some((other) => other !== phrase && !ledger.usedPhrases.has(other) && fits(name, other, types));
}

/** How the phrase compares with the comparisons; a bare figure and one that was asked about agree with any relation. */
export function agreementWith(
  phrase: Phrase,
  comparisons: readonly InnerComparison[],
  types: readonly CodeType[],
): Agreement {
  const measure = measureOf(phrase, types);
  if (!measure || phrase.figure.base !== null || phrase.figure.doubt !== null) return 'none';
  const alike = comparisons.filter(({ value }) => {
    const { unit } = value;
    return dimensions.isComparable(unit.dimension, measure.dimension) && unit.point === measure.point;
  });
  const atoms = alike.flatMap(atomsOfComparison);
  const wanted = wantedAtoms(phrase);
  if (!wanted.every((atom) => atoms.some((other) => isSameValue(atom, other)))) return 'none';
  const isOpen = isBare(phrase) || phrase.question !== null;
  const isSame =
    isOpen ||
    wanted.every((atom) => atoms.some((other) => isSameValue(atom, other) && atom.relation === other.relation));
  return isSame ? 'same' : 'other';
}

function wantedAtoms(phrase: Phrase): readonly Atom[] {
  return isBare(phrase) ? [{ relation: '=', value: phrase.figure.low }] : atomsOf(phrase);
}

function atomsOfComparison({ relation, value }: InnerComparison): readonly Atom[] {
  const { low, high } = value;
  if (relation === 'within' || relation === 'spans') {
    return [
      ...(low ? [{ relation: '>=', value: low } as const] : []),
      ...(high ? [{ relation: '<=', value: high } as const] : []),
    ];
  }
  return low ? [{ relation, value: low }] : [];
}

function isSameValue(a: Atom, b: Atom): boolean {
  return a.value.numerator === b.value.numerator && a.value.denominator === b.value.denominator;
}

/** The comparison that measures the same as the phrase, for a message. */
export function comparisonText(
  context: Context,
  comparisons: readonly InnerComparison[],
  phrase: Phrase,
  types: readonly CodeType[],
): string {
  const found = comparable(comparisons, phrase, types);
  if (!found) return 'the condition';
  const { low, high, unit } = found.value;
  const figure = { low: low ?? high, high: high ?? low, unit: unit === UNITY ? null : unit };
  if (!figure.low || !figure.high) return 'the condition';
  const isPair = found.relation === 'within' || found.relation === 'spans';
  const text = figureText(context, {
    ...phrase.figure,
    low: figure.low,
    high: figure.high,
    lowUnit: figure.unit,
    highUnit: figure.unit,
    form: isPair ? 'ends' : 'plain',
  });
  return `the condition, which says \`${found.relation} ${text}\``;
}

/** A comparison that measures the same as the phrase. */
export function comparable(
  comparisons: readonly InnerComparison[],
  phrase: Phrase,
  types: readonly CodeType[],
): InnerComparison | undefined {
  const measure = measureOf(phrase, types);
  if (!measure) return undefined;
  return comparisons.find(
    ({ value: { unit } }) => dimensions.isComparable(unit.dimension, measure.dimension) && unit.point === measure.point,
  );
}

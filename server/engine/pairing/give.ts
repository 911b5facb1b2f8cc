/** Gives a phrase to a name: as a limit, or as the question that it raises. */
import type * as rational from '../../quantity/rational';
import { UNITY, type Unit } from '../../quantity/unit';
import { asLength } from '../../quantity/unit-arithmetic';
import type { QuantityValue } from '../../quantity/value';
import type { Relation } from '../../syntax/sentence/limit';
import type { LimitEnd, LimitTrace, ProseLimit } from '../pairing';
import type { Context } from './context';
import type { Figure } from './figure';
import type { Name } from './fit';
import type { Ledger } from './ledger';
import type { Part, Phrase, Question } from './phrase';
import { bareFigure, restatementDiffers, whichReading, withinOrSpans } from './problem';
import { spanAt } from './text';

export function give(context: Context, ledger: Ledger, phrase: Phrase, name: Name): void {
  ledger.usedPhrases.add(phrase);
  ledger.settledNames.add(name);
  ledger.phrasesOf.set(name, [...(ledger.phrasesOf.get(name) ?? []), phrase]);
  ledger.limitedClauses.add(name.clause);
  ledger.limitedClauses.add(phrase.clause);
  const problem = problemOf(context, phrase, name);
  if (problem) ledger.problems.push(problem);
  else ledger.limits.push(...phrase.parts.map((part) => limitOf(context, phrase, part, name)));
}

function problemOf(context: Context, phrase: Phrase, name: Name) {
  const differing = phrase.parts.find(({ figure }) => figure.contradiction !== null)?.figure.contradiction;
  if (phrase.parts.length === 0) return bareFigure(context, phrase, name, false);
  if (phrase.question) return whichReading(context, phrase, name);
  if (boundsCapability(phrase, name)) return whichReading(context, { ...phrase, question: ONE_END }, name);
  if (differing) return restatementDiffers(context, phrase, differing.start, differing.end);
  const hasEnds = phrase.parts.some(({ relation }) => relation === 'ends');
  const isOpen = phrase.verb === 'unclear' || (phrase.verb === 'other' && name.type.isRange);
  return hasEnds && isOpen ? withinOrSpans(context, phrase, name) : null;
}

const ONE_END: Question = {
  why: 'is one bound on a range that is to be handled: write both ends, or put the limit on its min or max',
  readings: [],
};

/** "tolerate at least −20 °C" of a fact with a range: which of its two ends is meant is open. */
function boundsCapability(phrase: Phrase, { type }: Name): boolean {
  const [only] = phrase.parts;
  return phrase.verb === 'capability' && type.isRange && phrase.parts.length === 1 && only?.relation !== 'ends';
}

function limitOf(context: Context, phrase: Phrase, { relation, figure, relationPlace }: Part, name: Name): ProseLimit {
  const words: Relation = relation === 'ends' ? (phrase.verb === 'capability' ? 'spans' : 'within') : relation;
  const isLower = relation === '>=' || relation === '>';
  const isUpper = relation === '<=' || relation === '<';
  return {
    code: name.code,
    relation: words,
    low: isUpper ? null : endOf(figure, 'low'),
    high: isLower ? null : endOf(figure, 'high'),
    trace: {
      relation: relationPlace && spanAt(context, relationPlace.start, relationPlace.end),
      ...figurePlaces(context, figure),
    },
    provisional: figure.provisional,
  };
}

/** Which words give the number and which the unit. */
function figurePlaces(context: Context, figure: Figure): Omit<LimitTrace, 'relation'> {
  const quantity = spanAt(context, figure.start, figure.end);
  const numbers = context.tokens
    .slice(figure.first, figure.next)
    .filter(({ type }) => type === 'number' || type === 'date');
  const [first, last] = [numbers[0], numbers.at(-1)];
  if (!first || !last) return { quantity, number: null, unit: null };
  const behind = wordsBetween(context, last.end, figure.end);
  const unit = behind ?? wordsBetween(context, figure.start, first.start);
  return { quantity, number: spanAt(context, first.start, last.end), unit };
}

/** The place of what stands between two offsets, spaces left out; null where that is nothing. */
function wordsBetween(context: Context, start: number, end: number) {
  const text = context.text.slice(start, end);
  const from = start + text.length - text.trimStart().length;
  return text.trim() === '' ? null : spanAt(context, from, from + text.trim().length);
}

function endOf(figure: Figure, end: 'low' | 'high'): LimitEnd {
  if (figure.base !== null) return { type: 'relative', factor: figure.low, code: figure.base };
  const unit = (end === 'low' ? figure.lowUnit : figure.highUnit) ?? UNITY;
  return { type: 'quantity', value: exactly(figure[end], figure.form === 'around-zero' ? asLength(unit) : unit) };
}

/** A known value in base units. */
function exactly(value: rational.Rational, unit: Unit): QuantityValue {
  return { type: 'quantity', spread: 'exact', low: value, typical: value, high: value, unit, form: { type: 'plain' } };
}

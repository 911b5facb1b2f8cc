/** What is left when every name that could has its limit: questions, mismatches, and promises that nothing checks. */
import { CIRCUMSTANCE_LEADS, LARGER_NUMBER_WORDS, NAMED_THINGS } from '../../../grammar/sentence-words';
import * as dimensions from '../../quantity/dimension';
import type { InnerComparison } from '../pairing';
import { agreementWith, comparable, comparisonText } from './agree';
import { DECIMAL_COMMA } from './amount';
import type { Assignment } from './assign';
import { directionOf } from './bounds';
import { type Context, keyAt } from './context';
import { fits, measureOf, type Name } from './fit';
import { give } from './give';
import { around } from './near';
import { isBare, type Phrase } from './phrase';
import {
  bareFigure,
  limitless,
  onlyInCondition,
  severalFit,
  shareBesideLimit,
  unchecked,
  unitMismatch,
  whichReading,
  wordsDisagree,
} from './problem';

export interface Leftovers extends Assignment {
  /** Bare figures of main clauses. */
  readonly bare: readonly Phrase[];
  /** Phrases and figures inside conditions. */
  readonly inConditions: readonly Phrase[];
  /** Sentences with a name whose value or type is not known: reported where the cause is. */
  readonly undecidedSentences: ReadonlySet<number>;
  /** Comparisons of the conditions in the code spans of each sentence. */
  readonly comparisons: ReadonlyMap<number, readonly InnerComparison[]>;
  readonly checks: readonly InnerComparison[];
  readonly namesInConditions: readonly Name[];
  /** Sentences with a limit phrase outside conditions. */
  readonly limitSentences: ReadonlySet<number>;
  /** Lists of names and phrases by sentence. */
  readonly namesOfSentence: ReadonlyMap<number, readonly Name[]>;
}

/** Settles everything that is left, in the order of how much each reading explains. */
export function settleLeftovers(work: Leftovers): void {
  const isFree = (phrase: Phrase) => !work.ledger.usedPhrases.has(phrase);
  for (const phrase of [...work.phrases, ...work.bare]) if (phrase.isShare) settleShare(work, phrase);
  for (const phrase of work.phrases.filter(isFree)) settleSecondBound(work, phrase);
  for (const phrase of work.bare.filter(isFree)) settleBareForName(work, phrase);
  for (const phrase of work.phrases.filter(isFree)) settlePhrase(work, phrase);
  for (const phrase of work.bare.filter(isFree)) settleBare(work, phrase);
  for (const name of work.names) if (!work.ledger.settledNames.has(name)) settleName(work, name);
  for (const name of work.namesInConditions) settleNameInCondition(work, name);
}

const TIMED: ReadonlySet<string> = new Set(['after', 'before', 'until', 'till', 'once']);

/**
 * "shall shut down after 10 min (`timeout`)": where the figure right behind such a word is the only one of its sentence
 * and fits the name beside it, a reader may take it for what is promised.
 */
function settleNameInCondition(work: Leftovers, name: Name): void {
  const clause = work.clauses[name.clause];
  if (
    !clause ||
    !TIMED.has(clause.opener ?? '') ||
    namesOf(work, name.sentence) ||
    work.limitSentences.has(name.sentence)
  )
    return;
  const phrase = around(work.inConditions, name.token, ({ first }) => first).find(
    ({ first }) => first === clause.from + 1,
  );
  if (phrase && fits(name, phrase, work.types)) work.ledger.problems.push(onlyInCondition(work.context, phrase, name));
}

function namesOf(work: Leftovers, sentence: number): boolean {
  return (work.namesOfSentence.get(sentence) ?? []).length > 0;
}

/** A share of items beside another limit of its clause; one with the only limit of its clause is a limit like others. */
function settleShare(work: Leftovers, phrase: Phrase): void {
  const { ledger, context } = work;
  const near = around(work.phrases, phrase.first, ({ first }) => first);
  const isBeside = (other: Phrase) =>
    other.clause === phrase.clause || (isOpening(work, phrase) && other.sentence === phrase.sentence);
  const isAlone = !near.some((other) => other !== phrase && isBeside(other));
  if (isAlone || isUndecided(work, phrase)) return;
  ledger.usedPhrases.add(phrase);
  ledger.problems.push(shareBesideLimit(context, phrase));
}

/** "For 95 % of the units, …": stands before the obligation word, and speaks of all that follows. */
function isOpening(work: Leftovers, phrase: Phrase): boolean {
  return !phrase.isObliged && work.clauses[phrase.clause]?.kind === 'main';
}

/** "at least 36 V (`bus`) and at most 57 V": the other bound of the only name that it fits. */
function settleSecondBound(work: Leftovers, phrase: Phrase): void {
  const [part] = phrase.parts;
  if (!part || phrase.parts.length !== 1 || phrase.question || !beginsClause(work, phrase)) return;
  const fitting = namesNear(work, phrase).filter((name) => fits(name, phrase, work.types));
  const [name] = fitting;
  const owned = name && work.ledger.phrasesOf.get(name);
  if (!name || fitting.length !== 1 || owned?.length !== 1 || name.clause >= phrase.clause) return;
  const [first] = owned;
  if (first?.parts.length !== 1 || first.question) return;
  const directions = [directionOf(first.parts[0]?.relation ?? null), directionOf(part.relation)];
  if (directions.includes('lower') && directions.includes('upper')) give(work.context, work.ledger, phrase, name);
}

/** Nothing but *and*, *but* or a comma stands between the phrase and the clause before it. */
function beginsClause({ clauses, context, hasModal }: Leftovers, phrase: Phrase): boolean {
  const from = clauses[phrase.clause]?.from ?? 0;
  if (hasModal[phrase.clause] ?? false) return false;
  const isFirst = phrase.first === from && [',', ''].includes(keyAt(context, from - 1));
  return isFirst || (phrase.first === from + 1 && ['and', 'but'].includes(keyAt(context, from)));
}

function namesNear(work: Leftovers, phrase: Phrase): readonly Name[] {
  return around(work.namesOfSentence.get(phrase.sentence) ?? [], phrase.first, ({ token }) => token);
}

/** A bare figure for a name without a limit (2 · rule 6). */
function settleBareForName(work: Leftovers, phrase: Phrase): void {
  if (phrase.figure.isOne) return;
  const wanting = namesNear(work, phrase).filter(
    (name) => !work.ledger.settledNames.has(name) && fits(name, phrase, work.types),
  );
  const [name] = wanting;
  if (!name || !mayMean(phrase, name)) return;
  give(work.context, work.ledger, phrase, nearestOf(wanting, phrase) ?? name);
}

/** A figure before the obligation word is a name's only where it stands in its clause. */
function mayMean(phrase: Phrase, name: Name): boolean {
  return phrase.isObliged || phrase.clause === name.clause;
}

function nearestOf(names: readonly Name[], phrase: Phrase): Name | undefined {
  const gap = ({ token }: Name) => Math.abs(token - phrase.first);
  return names.reduce<Name | undefined>((best, name) => (!best || gap(name) < gap(best) ? name : best), undefined);
}

function settlePhrase(work: Leftovers, phrase: Phrase): void {
  const { ledger, context } = work;
  if (isUndecided(work, phrase) || settleAgainstChecks(work, phrase)) return;
  if (isSilentCircumstance(work, phrase)) return;
  const mismatched = mismatchedName(work, phrase);
  if (mismatched) {
    const isDoubtful = phrase.figure.doubt !== null;
    ledger.settledNames.add(mismatched);
    ledger.problems.push(isDoubtful ? whichReading(context, phrase, null) : unitMismatch(context, phrase, mismatched));
    return;
  }
  const owner = namesNear(work, phrase).find((name) => name.clause === phrase.clause && fits(name, phrase, work.types));
  const owned = owner ? (ledger.phrasesOf.get(owner) ?? []) : [];
  if (phrase.question && phrase.figure.doubt !== null)
    ledger.problems.push(whichReading(context, phrase, owner ?? null));
  else if (owner && owned.length > 0) ledger.problems.push(severalFit(context, [owner], [...owned, phrase]));
  else ledger.problems.push(unchecked(context, phrase));
}

function isUndecided(work: Leftovers, phrase: Phrase): boolean {
  return work.undecidedSentences.has(phrase.sentence);
}

/** A condition in a code span or a check that measures the same must say the same. */
function settleAgainstChecks(work: Leftovers, phrase: Phrase): boolean {
  const { ledger, context, types, checks } = work;
  const inSentence = work.comparisons.get(phrase.sentence) ?? [];
  if (agreementWith(phrase, checks, types) === 'same') return true;
  const isBareAside = isBare(phrase) && (!phrase.isObliged || phrase.bracket !== -1 || phrase.isCircumstance);
  if (isBareAside || isSilentCircumstance(work, phrase)) return false;
  const comparisons = comparable(inSentence, phrase, types) ? inSentence : checks;
  if (!comparable(comparisons, phrase, types) && checks.length === 0) return false;
  if (isBare(phrase) && !comparable(comparisons, phrase, types)) return false;
  if (mismatchedName(work, phrase)) return false;
  const other = comparable(comparisons, phrase, types)
    ? comparisonText(context, comparisons, phrase, types)
    : 'every check';
  ledger.problems.push(wordsDisagree(context, phrase, other));
  return true;
}

/** "at loads above 20 W", "from 20 Hz to 20 kHz" beside a limit: under which circumstances it holds. */
function isSilentCircumstance(work: Leftovers, phrase: Phrase): boolean {
  const isEnds = phrase.parts.some(({ relation }) => relation === 'ends') && phrase.verb !== 'capability';
  const isSetApart = isApart(work, phrase);
  const isAside = (phrase.isCircumstance || isSetApart) && (phrase.isWeak || isEnds) && phrase.bracket === -1;
  if (!isAside || phrase.figure.doubt !== null) return false;
  return work.ledger.limitedClauses.has(phrase.clause) || (isSetApart && isLimitedSentence(work, phrase.sentence));
}

function isLimitedSentence({ namesOfSentence, ledger }: Leftovers, sentence: number): boolean {
  return (namesOfSentence.get(sentence) ?? []).some((name) => ledger.phrasesOf.has(name));
}

/** A clause that begins with a preposition and has no obligation word: "For loads above 20 W, …", "Between 0 °C and 40 °C, …". */
function isApart({ clauses, context, hasModal }: Leftovers, phrase: Phrase): boolean {
  const from = clauses[phrase.clause]?.from ?? 0;
  const isBefore = !phrase.isObliged && phrase.first - from <= MOST_LEAD_WORDS;
  if ((hasModal[phrase.clause] ?? false) && !isBefore) return false;
  const lead = keyAt(context, from);
  return lead === 'between' || CIRCUMSTANCE_LEADS.has(lead);
}

const MOST_LEAD_WORDS = 4;

/** A name without a limit in the phrase's clause, or the only one of its sentence. */
function mismatchedName(work: Leftovers, phrase: Phrase): Name | null {
  if (isBare(phrase) || (phrase.isWeak && phrase.isCircumstance)) return null;
  const wanting = namesNear(work, phrase).filter(
    (name) => !work.ledger.settledNames.has(name) && !fits(name, phrase, work.types),
  );
  const near = wanting.filter(({ clause }) => clause === phrase.clause);
  return nearestOf(near, phrase) ?? (wanting.length === 1 ? (wanting[0] ?? null) : null);
}

function settleBare(work: Leftovers, phrase: Phrase): void {
  const { ledger, context } = work;
  if (phrase.figure.isOne || isUndecided(work, phrase)) return;
  if (phrase.figure.doubt === DECIMAL_COMMA) {
    ledger.problems.push(whichReading(context, phrase, null));
    return;
  }
  if (!phrase.isObliged || phrase.bracket !== -1 || phrase.isCircumstance || isReference(context, phrase)) return;
  if (settleAgainstChecks(work, phrase)) return;
  const borrowed = borrowedFrom(work, phrase);
  if (borrowed) ledger.problems.push(bareFigure(context, phrase, null, true));
  else if (phrase.figure.doubt !== null) ledger.problems.push(whichReading(context, phrase, null));
  else ledger.problems.push(unchecked(context, phrase));
}

/** "the 5 V rail", "the two rails": said of a thing that is known already. */
function isReference(context: Context, { figure }: Phrase): boolean {
  const lead = keyAt(context, figure.first - 1);
  if (!['the', 'these', 'those', 'its', 'their', 'both', 'of'].includes(lead)) return false;
  if (figure.lowUnit !== null) return lead !== 'of' && NAMED_THINGS.has(keyAt(context, figure.next));
  const isPlural = lead !== 'of' || keyAt(context, figure.first - 2) === 'both';
  return figure.spelled && isPlural && !LARGER_NUMBER_WORDS.has(keyAt(context, figure.first));
}

/** "at most 60 W running and 5 W in standby": a limit before it in the sentence that measures the same. */
function borrowedFrom({ phrases, types }: Leftovers, phrase: Phrase): Phrase | undefined {
  const measure = measureOf(phrase, types);
  return around(phrases, phrase.first, ({ first }) => first).find((other) => {
    if (other.sentence !== phrase.sentence || other.first > phrase.first) return false;
    const own = measureOf(other, types);
    const isAlike = own !== null && measure !== null && own.point === measure.point;
    return isAlike && dimensions.isComparable(own.dimension, measure.dimension);
  });
}

function settleName(work: Leftovers, name: Name): void {
  const { ledger, context, types } = work;
  if (work.undecidedSentences.has(name.sentence) && hasFreePhrase(work, name)) return;
  const inCondition = around(work.inConditions, name.token, ({ first }) => first).find(
    (phrase) => phrase.sentence === name.sentence && !isBare(phrase) && fits(name, phrase, types),
  );
  ledger.settledNames.add(name);
  ledger.problems.push(limitless(context, name, inCondition ?? null));
}

/** Beside an unknown name it is not known whose the phrase is. */
function hasFreePhrase({ phrases, ledger, types }: Leftovers, name: Name): boolean {
  return phrases.some(
    (phrase) => phrase.sentence === name.sentence && !ledger.usedPhrases.has(phrase) && fits(name, phrase, types),
  );
}

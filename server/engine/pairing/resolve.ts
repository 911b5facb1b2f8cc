/** From relation words, negations and verbs to what each phrase says, or what has to be asked. */
import { CIRCUMSTANCE_LEADS, DETERMINERS } from '../../../grammar/sentence-words';
import type { RawPhrase } from './attach';
import { isBound, joinOf } from './bounds';
import type { Clause } from './clause';
import { type Context, keyAt } from './context';
import { withUnitOf } from './ends';
import type { Figure } from './figure';
import { isBare, type Part, type PartRelation, type Phrase, type Question, type VerbKind } from './phrase';
import { type Surroundings, sayOf } from './say';
import { isRatio } from './tolerance';
import type { Capability } from './verb';

/** The phrases in text order, the two bounds of one limit joined. */
export function resolvePhrases(
  context: Context,
  raw: readonly RawPhrase[],
  surroundings: (index: number) => Surroundings,
): readonly Phrase[] {
  const result: Phrase[] = [];
  for (let index = 0; index < raw.length; index++) {
    const phrase = raw[index];
    if (!phrase) continue;
    const next = raw[index + 1];
    const around = surroundings(index);
    const joint =
      next && surroundings(index + 1).clauseIndex === around.clauseIndex ? joinOf(context, phrase, next) : null;
    if (next && joint !== null) {
      result.push(joinedPhrase(context, phrase, next, around, surroundings(index + 1), joint));
      index += 1;
    } else result.push(singlePhrase(context, phrase, around));
  }
  return withLists(context, result);
}

/** "at 20 %, 50 % and 100 % of the load": figures in a list after one that is led say the same kind of thing. */
function withLists(context: Context, phrases: readonly Phrase[]): readonly Phrase[] {
  const result: Phrase[] = [];
  for (const phrase of phrases) {
    const last = result.at(-1);
    const goesOn = last?.isCircumstance && isBare(last) && isBare(phrase) && isJoined(context, last.next, phrase.first);
    result.push(goesOn ? { ...phrase, isCircumstance: true } : phrase);
  }
  return result;
}

function isJoined(context: Context, from: number, to: number): boolean {
  if (to === from || to - from > 2) return false;
  for (let index = from; index < to; index++) if (![',', 'and', 'or'].includes(keyAt(context, index))) return false;
  return true;
}

function singlePhrase(context: Context, raw: RawPhrase, around: Surroundings): Phrase {
  const said = sayOf(context, raw, around);
  const isLimit = isBound(raw) || raw.figure.base !== null;
  const parts = isLimit && said.relation !== null ? [partOf(context, raw, said.relation)] : [];
  const isAlternative = parts.length > 0 && keyAt(context, around.clause.from) === 'or';
  return { parts, question: said.question ?? (isAlternative ? ALTERNATIVE : null), ...baseOf(context, raw, around) };
}

function joinedPhrase(
  context: Context,
  first: RawPhrase,
  second: RawPhrase,
  around: Surroundings,
  aroundSecond: Surroundings,
  joint: string,
): Phrase {
  const low = { ...first, figure: withUnitOf(first.figure, second.figure) };
  const said = [sayOf(context, low, around), sayOf(context, second, aroundSecond)] as const;
  const parts = [partOf(context, low, said[0].relation ?? '='), partOf(context, second, said[1].relation ?? '=')];
  const isGoverned = around.negation.governing > (first.negation ? 1 : 0);
  const question = said[0].question ?? said[1].question ?? (joint === 'or' || isGoverned ? OPEN_JOINT : null);
  const base = baseOf(context, low, around);
  return { ...base, parts, question, next: second.next, end: endOf(context, second), isWeak: false };
}

const ALTERNATIVE: Question = {
  why: 'stands behind “or”, which leaves open whether this must hold as well: make it a requirement of its own or write one condition',
  readings: [],
};

const OPEN_JOINT: Question = {
  why: 'joins two bounds with “or” or under a negation, which leaves open whether both hold',
  readings: [],
};

function baseOf(
  context: Context,
  raw: RawPhrase,
  { clause, clauseIndex, verb, capability, distributor }: Surroundings,
): Omit<Phrase, 'parts' | 'question'> {
  const { figure, first, next } = raw;
  const sentence = context.reading.sentences[clause.sentence];
  return {
    figure,
    isWeak: raw.leading.some(({ meaning }) => meaning.kind === 'relation' && meaning.weak),
    isCircumstance: isCircumstance(context, raw, clause),
    distributes: distributor !== null && distributor < first,
    isShare: isShare(context, figure),
    isObliged: isObliged(context, clause.sentence, first),
    bracket: context.reading.brackets[figure.first] ?? -1,
    verb: verbKind(verb, capability, first),
    first,
    next,
    start: Math.min(context.tokens[first]?.start ?? figure.start, figure.start),
    end: endOf(context, raw),
    clause: clauseIndex,
    sentence: sentence ? clause.sentence : 0,
  };
}

function endOf(context: Context, { figure, trailing }: RawPhrase): number {
  return trailing ? (context.tokens[trailing.to - 1]?.end ?? figure.end) : figure.end;
}

function isObliged(context: Context, sentence: number, token: number): boolean {
  const { sentences } = context.reading;
  const own = sentences[sentence];
  if (!own) return false;
  if (own.obligation !== null) return token > own.obligation;
  return context.firstObliged === -1 || context.firstObliged < sentence;
}

function partOf(context: Context, raw: RawPhrase, relation: PartRelation): Part {
  const term = raw.leading[0] ?? raw.trailing ?? raw.distant;
  if (!term) return { relation, figure: raw.figure, relationPlace: null };
  const from = term === raw.leading[0] ? (raw.negation?.from ?? term.from) : term.from;
  const last = raw.leading.at(-1) ?? term;
  const start = context.tokens[from]?.start ?? raw.figure.start;
  const end = context.tokens[(term === raw.leading[0] ? last.to : term.to) - 1]?.end ?? raw.figure.start;
  return { relation, figure: raw.figure, relationPlace: { start, end } };
}

const MOST_LEAD_WORDS = 4;
const LEAD_WINDOW = 12;

/** A preposition leads the phrase, near it and with nothing in between that has a limit: "at loads above 20 W". */
function isCircumstance(context: Context, raw: RawPhrase, clause: Clause): boolean {
  if (CIRCUMSTANCE_LEADS.has(keyAt(context, raw.first))) return true;
  const reach = isBound(raw) ? MOST_LEAD_WORDS : 1;
  let words = 0;
  const floor = Math.max(clause.from, raw.first - LEAD_WINDOW);
  for (let index = raw.first - 1; index >= floor && words < reach; index--) {
    const key = keyAt(context, index);
    if (CIRCUMSTANCE_LEADS.has(key)) return true;
    if (context.tokens[index]?.type !== 'word' || STATIVE_VERBS.has(key)) return isLedByAt(context, raw.first);
    if (context.termFrom.get(index)?.meaning.kind === 'modal') return false;
    if (!DETERMINERS.has(key)) words += 1;
  }
  return isLedByAt(context, raw.first);
}

/** With these the phrase is what is promised: "shall stay above 20 W". */
const STATIVE_VERBS: ReadonlySet<string> = new Set('be is are stay stays remain remains keep kept lie lies'.split(' '));

/** "at an input of 48 V", "at a load of 75 %". */
function isLedByAt(context: Context, first: number): boolean {
  if (keyAt(context, first - 1) !== 'of') return false;
  return [3, 4, 5].some(
    (back) => keyAt(context, first - back) === 'at' && DETERMINERS.has(keyAt(context, first - back + 1)),
  );
}

/** Of each clause the first of *each*, *both*, *all*, *every*. */
export function findDistributors(context: Context, clauses: readonly Clause[]): readonly (number | null)[] {
  return clauses.map(({ from, to }) => {
    for (let index = from; index < to; index++) {
      if (context.termFrom.get(index)?.meaning.kind === 'distributor') return index;
    }
    return null;
  });
}

function verbKind(verb: Capability | null, capability: number | null, first: number): VerbKind {
  if (verb?.isCapability) return 'capability';
  return capability !== null && capability < first ? 'unclear' : 'other';
}

/** "75 % of the …", "97 % of all …", not led by *at*; "for 95 % of units". */
function isShare(context: Context, figure: Figure): boolean {
  if (figure.form !== 'plain' || !isRatio(figure.lowUnit) || keyAt(context, figure.next) !== 'of') return false;
  const lead = keyAt(context, figure.first - 1);
  return lead === 'for' || lead === 'in' || (lead !== 'at' && SHARE_WORDS.has(keyAt(context, figure.next + 1)));
}

const SHARE_WORDS: ReadonlySet<string> = new Set('the all its their these those any each every'.split(' '));

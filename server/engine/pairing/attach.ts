/** Finds the relation words that belong to each figure: right before it, behind it, or earlier in its clause. */
import { BACKWARD_SCALES, DATE_OPENERS, THRESHOLD_ADJECTIVES, VAGUE_MODIFIERS } from '../../../grammar/limit-phrases';
import { COPULAS, DETERMINERS, NAME_INTRODUCERS, NEGATION_FILLERS } from '../../../grammar/sentence-words';
import type { Term } from '../../syntax/sentence/term';
import { type Context, keyAt } from './context';
import type { Figure } from './figure';

/** A figure with the relation words that were written for it, before negations are weighed. */
export interface RawPhrase {
  readonly figure: Figure;
  /** Outermost first; before the figure. */
  readonly leading: readonly Term[];
  readonly trailing: Term | null;
  /** "The minimum width … shall be": a minimum or maximum earlier in the segment. */
  readonly distant: Term | null;
  /** The negation right before the relation: "no more than". */
  readonly negation: Term | null;
  readonly isVague: boolean;
  /** Token range with the words right before and behind; negation included. */
  readonly first: number;
  readonly next: number;
}

const FILLERS: ReadonlySet<string> = new Set([
  ...DETERMINERS,
  'be',
  'of',
  'is',
  'are',
  'being',
  'total',
  'value',
  'approx',
]);
const MOST_FILLERS = 4;
const MOST_NOUNS = 4;
const MOST_WORDS_TO_OF = 6;
const STOP_WORDS: ReadonlySet<string> = new Set([
  'and',
  'or',
  'but',
  'to',
  'at',
  'in',
  'with',
  'for',
  'from',
  'on',
  'per',
  'by',
  'over',
]);

/** One phrase for each figure, in order. `segmentAt` gives the index of the segment that holds a token. */
export function attachRelations(
  context: Context,
  figures: readonly Figure[],
  segmentStart: (token: number) => number,
): readonly RawPhrase[] {
  const used = new Set<Term>();
  let floor = 0;
  return figures.map((figure, index) => {
    const start = Math.max(floor, segmentStart(figure.first));
    const phrase = attach(context, figure, start, figures[index + 1]?.first ?? context.tokens.length, used);
    for (const term of [...phrase.leading, phrase.trailing, phrase.distant]) if (term) used.add(term);
    floor = phrase.next;
    return phrase;
  });
}

function attach(context: Context, figure: Figure, floor: number, ceiling: number, used: ReadonlySet<Term>): RawPhrase {
  const near = leadingTerms(context, figure, floor, used);
  const far = near.terms.length === 0 ? relationBeforeOf(context, figure, floor, used) : null;
  const leading = far ? [far] : near.terms;
  const first = far ? far.from : near.first;
  const distant = distantExtreme(context, first, floor, used, leading);
  const trailing = trailingTerm(context, figure, ceiling, leading.length > 0 || distant !== null, used);
  const isLimit = leading.length > 0 || distant !== null || trailing !== null || figure.form !== 'plain';
  const negation = isLimit ? negationBefore(context, first, floor) : null;
  return {
    figure,
    leading,
    trailing,
    distant,
    negation,
    isVague: near.isVague,
    first: negation ? negation.from : first,
    next: trailing ? trailing.to : figure.next,
  };
}

function leadingTerms(context: Context, figure: Figure, floor: number, used: ReadonlySet<Term>) {
  const terms: Term[] = [];
  let first = figure.first;
  let fillers = 0;
  for (let index = figure.first; index > floor && fillers <= MOST_FILLERS; ) {
    const term = context.termTo.get(index);
    if (term && isCircumstanceWord(term, terms)) break;
    if (term && term.from >= floor && !used.has(term) && isLeading(context, term, figure)) {
      terms.unshift(term);
      first = term.from;
      index = term.from;
      fillers = 0;
    } else if (isFiller(context, index, term)) {
      index -= 1;
      fillers += 1;
    } else break;
  }
  const isVague = terms.length > 0 && VAGUE_MODIFIERS.has(keyAt(context, first - 1)) && first > floor;
  return { terms, first: isVague ? first - 1 : first, isVague };
}

/** "over at least 4 km": the relation is whole without the word before it, which then says under which circumstances. */
function isCircumstanceWord({ meaning }: Term, behind: readonly Term[]): boolean {
  return behind.length > 0 && meaning.kind === 'relation' && meaning.weak;
}

function isFiller(context: Context, index: number, term: Term | undefined): boolean {
  const key = keyAt(context, index - 1);
  if (key === '.' || key === ':') return isExtremeOrAsk(context.termTo.get(index - 1));
  if (key === ',') return isEither(context.termTo.get(index - 1));
  return FILLERS.has(key) && (term === undefined || term.meaning.kind === 'distributor');
}

function isExtremeOrAsk(term: Term | undefined): boolean {
  return term?.meaning.kind === 'extreme' || term?.meaning.kind === 'ask';
}

function isEither(term: Term | undefined): boolean {
  return term?.meaning.kind === 'relation' && term.meaning.either;
}

function isLeading(context: Context, { meaning, from }: Term, figure: Figure): boolean {
  switch (meaning.kind) {
    case 'relation':
    case 'extreme':
    case 'within':
      return true;
    case 'speed':
    case 'ask':
      return meaning.where === 'before';
    case 'date':
      return isDate(figure);
    case 'opener':
      return (
        isDate(figure) && (DATE_OPENERS.has(keyAt(context, from)) || ['until', 'till'].includes(keyAt(context, from)))
      );
    default:
      return false;
  }
}

function isDate(figure: Figure): boolean {
  return figure.lowUnit?.point === 'date';
}

/** "exceed a total mass of 5 kg": plain words between the relation and *of*. */
function relationBeforeOf(context: Context, figure: Figure, floor: number, used: ReadonlySet<Term>): Term | null {
  if (keyAt(context, figure.first - 1) !== 'of') return null;
  for (let index = figure.first - 1; index > Math.max(floor, figure.first - 1 - MOST_WORDS_TO_OF); index--) {
    const term = context.termTo.get(index);
    if (term?.meaning.kind === 'relation') return term.from >= floor && !used.has(term) ? term : null;
    if (term || context.tokens[index - 1]?.type !== 'word') return null;
  }
  return null;
}

/** "The minimum width … shall be N", "a minimum width of N"; with a relation of its own the two are compared. */
function distantExtreme(
  context: Context,
  first: number,
  floor: number,
  used: ReadonlySet<Term>,
  leading: readonly Term[],
): Term | null {
  if (leading.length === 0 && !COPULAS.has(keyAt(context, first - 1))) return null;
  const isPredicate = leading.length > 0 || keyAt(context, first - 1) !== 'of';
  for (let index = first; index > floor; index--) {
    const term = context.termTo.get(index);
    if (term?.meaning.kind !== 'extreme' || term.from < floor || used.has(term)) continue;
    return isPredicate && isLedByPreposition(context, term.from) ? null : term;
  }
  return null;
}

/** "With maximum load the draw shall be …": the maximum is of something else. */
function isLedByPreposition(context: Context, from: number): boolean {
  const at = DETERMINERS.has(keyAt(context, from - 1)) ? from - 2 : from - 1;
  return PREPOSITIONS.has(keyAt(context, at));
}

const PREPOSITIONS: ReadonlySet<string> = new Set(
  'at with under on for in during over from by without through'.split(' '),
);

/** "4 GiB of memory or more", "60 W max."; never a word that leads the next figure. */
function trailingTerm(
  context: Context,
  figure: Figure,
  ceiling: number,
  hasRelation: boolean,
  used: ReadonlySet<Term>,
): Term | null {
  let index = skipCodeBracket(context, figure.next);
  for (let nouns = 0; index < ceiling && nouns <= MOST_NOUNS; nouns++) {
    const term = context.termFrom.get(index);
    if (term) return !used.has(term) && isTrailing(context, term, figure, nouns, hasRelation) ? term : null;
    if (context.tokens[index]?.type !== 'word' || STOP_WORDS.has(keyAt(context, index))) return null;
    index = skipCodeBracket(context, index + 1);
  }
  return null;
}

/** "60 W (`draw`) or less". */
function skipCodeBracket(context: Context, index: number): number {
  const isBracket = keyAt(context, index) === '(' && context.tokens[index + 1]?.type === 'code';
  return isBracket && keyAt(context, index + 2) === ')' ? index + 3 : index;
}

function isTrailing(context: Context, term: Term, figure: Figure, nouns: number, hasRelation: boolean): boolean {
  const { meaning } = term;
  if (meaning.kind === 'after') return true;
  if (meaning.kind === 'speed') return meaning.where === 'after';
  if (meaning.kind === 'ask') return meaning.where !== 'before';
  if (leadsFigure(context, term.to, hasRelation)) return false;
  if (meaning.kind === 'relation') return meaning.either;
  if (meaning.kind !== 'extreme' || term.to - term.from > 1) return false;
  return nouns === 0 || (figure.lowUnit === null && nouns <= 2);
}

/** Whether a minimum or maximum belongs to a later figure: "max width of 5 mm", "max 5 mm". */
function leadsFigure(context: Context, from: number, hasRelation: boolean): boolean {
  let index = keyAt(context, from) === '.' ? from + 1 : from;
  if (context.tokens[index]?.type === 'number') return hasRelation;
  for (let words = 0; words < MOST_NOUNS; words++, index++) {
    if (COPULAS.has(keyAt(context, index))) return context.tokens[index + 1]?.type === 'number';
    if (context.tokens[index]?.type !== 'word' || STOP_WORDS.has(keyAt(context, index))) return false;
  }
  return false;
}

function negationBefore(context: Context, first: number, floor: number): Term | null {
  for (let index = first; index > Math.max(floor, first - 4); index--) {
    const term = context.termTo.get(index);
    if (term?.meaning.kind === 'negation') return isOwnNegation(context, term, floor) ? term : null;
    if (!NEGATION_FILLERS.has(keyAt(context, index - 1))) return null;
  }
  return null;
}

/** *shall not* and *cannot* govern their whole clause, so they are no part of one phrase. */
function isOwnNegation(context: Context, { meaning, from }: Term, floor: number): boolean {
  if (meaning.kind !== 'negation' || meaning.how !== 'governs' || from < floor) return false;
  return !isOfObligation(context, from);
}

/** *shall not*, *must never*, *cannot*. */
export function isOfObligation(context: Context, negation: number): boolean {
  const key = keyAt(context, negation);
  if (key === 'cannot' || key === "can't" || key === 'can') return true;
  return (key === 'not' || key === 'never') && context.termTo.get(negation)?.meaning.kind === 'modal';
}

/** A minimum or maximum of something that only just works may bound the figure from either side. */
export function isThreshold(context: Context, term: Term): boolean {
  return THRESHOLD_ADJECTIVES.has(keyAt(context, term.to));
}

/** Relation words that no figure took but a name with digits follows: "at least IP65", "at least AWG 24". */
export function relationsOfNames(context: Context, phrases: readonly RawPhrase[]): readonly Term[] {
  const words = context.reading.terms.filter((term) => isRelationWord(term) && isNameBehind(context, term.to));
  if (words.length === 0) return words;
  const used = new Set(phrases.flatMap(({ leading, trailing, distant }) => [...leading, trailing, distant]));
  return words.filter((term) => !used.has(term));
}

function isRelationWord({ meaning }: Term): boolean {
  return (
    meaning.kind === 'relation' || meaning.kind === 'extreme' || (meaning.kind === 'ask' && meaning.where === 'before')
  );
}

const PRONOUNS: ReadonlySet<string> = new Set(['that', 'this', 'it', 'those', 'these']);

function isNameBehind(context: Context, index: number): boolean {
  const at = DETERMINERS.has(keyAt(context, index)) ? index + 1 : index;
  const token = context.tokens[at];
  if (token?.type === 'name') return true;
  // "less than that": a figure of another clause, which is not looked up.
  if (PRONOUNS.has(keyAt(context, at))) return true;
  if (token?.type !== 'word') return false;
  const next = context.tokens[at + 1];
  const isNumbered = next?.type === 'name' || (next?.type === 'number' && !next.spelled);
  return BACKWARD_SCALES.has(token.key) || (isNumbered && (token.capitals > 0 || NAME_INTRODUCERS.has(token.key)));
}

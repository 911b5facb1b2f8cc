/** What one phrase says: its relation words, negations and verb as one relation, or as a question. */
import { DIFFERENCE_WORDS } from '../../../grammar/limit-phrases';
import { CHANGE_VERBS, TRANSITION_VERBS, TRIGGER_VERBS } from '../../../grammar/sentence-words';
import * as dimensions from '../../quantity/dimension';
import type { Unit } from '../../quantity/unit';
import type { Term } from '../../syntax/sentence/term';
import { isThreshold, type RawPhrase } from './attach';
import { directionOf, isTwoEnded, opposite, relationOf, type Simple } from './bounds';
import type { Clause } from './clause';
import { type Context, keyAt } from './context';
import type { Figure } from './figure';
import type { NegationReach } from './negation';
import type { PartRelation, Question } from './phrase';
import { isRatio } from './tolerance';
import type { Capability, ClauseAction } from './verb';

/** What the words around a phrase say. */
export interface Surroundings {
  readonly clause: Clause;
  readonly clauseIndex: number;
  readonly verb: Capability | null;
  /** First capability verb of the clause, and first distributor; tokens. */
  readonly capability: number | null;
  readonly distributor: number | null;
  readonly action: ClauseAction | null;
  readonly negation: NegationReach;
}

export interface Said {
  readonly relation: PartRelation | null;
  readonly question: Question | null;
}

const BOTH: readonly Simple[] = ['>=', '<='];
const THREE: readonly Simple[] = ['>=', '<=', '='];

/** The relation of a figure; null for a bare one. */
export function sayOf(context: Context, raw: RawPhrase, around: Surroundings): Said {
  const { figure } = raw;
  const terms = [...raw.leading, ...(raw.trailing ? [raw.trailing] : []), ...(raw.distant ? [raw.distant] : [])];
  const doubt: Question | null = figure.doubt === null ? null : { why: figure.doubt, readings: [] };
  if (isTwoEnded(figure)) return { relation: 'ends', question: doubt ?? questionOfEnds(context, raw, terms, around) };
  if (terms.length === 0) return { relation: null, question: doubt };
  const asked = questionOfTerms(context, raw, terms);
  const resolved = combine(context, raw, terms, around.negation);
  const relation = resolved.relation ?? '=';
  const question = doubt ?? asked ?? resolved.question ?? questionOfVerb(context, raw, terms, relation, around);
  return { relation, question };
}

/** Words that are never read alone in one way. */
function questionOfTerms(context: Context, raw: RawPhrase, terms: readonly Term[]): Question | null {
  if (raw.isVague) return { why: 'is vague: no figure says how much', readings: BOTH };
  for (const term of terms) {
    if (term.meaning.kind === 'ask')
      return { why: 'can be read in more than one way', readings: term.meaning.readings };
    if (term.meaning.kind === 'extreme' && isThreshold(context, term)) return { why: THRESHOLD, readings: BOTH };
    if (relationOf(context, term, raw.figure) !== null) continue;
    const isSpeed = term.meaning.kind === 'speed';
    return { why: isSpeed ? SPEED : 'can be read in more than one way', readings: BOTH };
  }
  if (isDifference(context, raw)) return { why: 'is a difference from something else, not a value', readings: [] };
  if (isChange(context, raw)) return { why: 'is a change, not the value after it', readings: [] };
  if (isOverSpan(context, terms, raw.figure)) return { why: 'may mean “more than” or “during”', readings: THREE };
  return questionBehind(context, raw);
}

const THRESHOLD = 'bounds what just works, from above or from below';
const SPEED = 'compares a speed with a figure that is neither a duration nor a rate';

/** "at least 5 W less", "at least 5 W more than the old one"; "at least 90 % above 20 W" says where. */
function isDifference(context: Context, { figure, trailing }: RawPhrase): boolean {
  const key = keyAt(context, figure.next);
  if (trailing || figure.base !== null || !DIFFERENCE_WORDS.has(key)) return false;
  const isWhere = ['above', 'below', 'under'].includes(key) && context.tokens[figure.next + 1]?.type === 'number';
  return !isWhere;
}

/** "reduce the draw by at least 5 W". */
function isChange(context: Context, { first }: RawPhrase): boolean {
  if (keyAt(context, first - 1) !== 'by') return false;
  for (let index = first - 2; index >= first - CHANGE_REACH; index--)
    if (CHANGE_VERBS.has(keyAt(context, index))) return true;
  return false;
}

const CHANGE_REACH = 10;

/** "over 5 h", "over 3 m", "over 20": longer than, or during, across, of. */
function isOverSpan(context: Context, terms: readonly Term[], { lowUnit }: Figure): boolean {
  const isOver = terms.length === 1 && terms.some(({ from, to }) => to - from === 1 && keyAt(context, from) === 'over');
  if (!isOver) return false;
  if (lowUnit === null) return true;
  return [dimensions.dimension({ time: 1 }), dimensions.dimension({ length: 1 })].includes(
    dimensions.withoutKinds(lowUnit.dimension),
  );
}

/** "exceed 60 W by 5 %", "within 5 V of 12 V". */
function questionBehind(context: Context, { figure, leading }: RawPhrase): Question | null {
  const key = keyAt(context, figure.next);
  const behind = context.tokens[figure.next + 1];
  const isFigure = behind?.type === 'number' || behind?.type === 'code';
  if (key === 'by' && isFigure) return { why: 'is no limit by itself: what follows says by how much', readings: BOTH };
  const isWithin = leading.some(({ meaning }) => meaning.kind === 'within');
  // "within 5 % of nominal" is both sides of something; "within 2 s of power-up" is how soon.
  const isOfFigure = key === 'of' && (isFigure || isRatio(figure.lowUnit));
  const isAbout = isWithin && (isOfFigure || figure.base !== null);
  return isAbout ? { why: 'is a distance from another figure: write “N ± t” or both ends', readings: [] } : null;
}

interface Combined {
  readonly relation: Simple | null;
  readonly question: Question | null;
}

/** All the relation words of one figure and the negations over them, as one relation. */
function combine(context: Context, raw: RawPhrase, terms: readonly Term[], negation: NegationReach): Combined {
  const explicit = raw.leading.filter(({ meaning }) => meaning.kind !== 'extreme');
  const primary = explicit[0] ?? raw.leading[0] ?? raw.trailing ?? terms[0];
  const plain = primary ? relationOf(context, primary, raw.figure) : null;
  if (plain === null) return { relation: null, question: null };
  const negated = negate(plain, negation);
  if (negated.question) return negated;
  const others = terms.filter((term) => term !== primary).map((term) => relationOf(context, term, raw.figure));
  return { relation: strictest(negated.relation, others), question: conflictOf(negated.relation, others) };
}

function negate(relation: Simple, { governing, crosses, others }: NegationReach): Combined {
  const isOpen = relation === '>' || relation === '<';
  const isUnclear = crosses || governing > 1 || (isOpen ? others > 0 : governing > 0);
  if (isUnclear) return { relation, question: { why: NEGATION, readings: BOTH } };
  return { relation: governing === 1 ? opposite(relation) : relation, question: null };
}

/** "limited to less than 10 mA": of two relations the same way the one that leaves the figure out. */
function strictest(relation: Simple | null, others: readonly (Simple | null)[]): Simple | null {
  if (relation === '>=' && others.includes('>')) return '>';
  return relation === '<=' && others.includes('<') ? '<' : relation;
}

function conflictOf(relation: Simple | null, others: readonly (Simple | null)[]): Question | null {
  const agrees = others.every(
    (other) => other === relation || (directionOf(other) !== null && directionOf(other) === directionOf(relation)),
  );
  return agrees ? null : { why: 'has two relation words that do not say the same', readings: THREE };
}

/** Two ends under a relation word or a negation. */
function questionOfEnds(
  context: Context,
  raw: RawPhrase,
  terms: readonly Term[],
  around: Surroundings,
): Question | null {
  const asked = terms.filter(({ meaning }) => meaning.kind !== 'within');
  const isTolerance = raw.figure.form !== 'ends';
  const fits =
    asked.length > 0 && isTolerance && asked.every((term) => limitsWidth(context, term, raw, around.negation));
  const isAboutZero = raw.figure.form === 'around-zero' || asked.every(({ meaning }) => meaning.kind === 'ask');
  if (fits && isAboutZero && !around.negation.crosses) return null;
  if (around.negation.governing > 0 || around.negation.crosses) return { why: NEGATION, readings: TWO_ENDS };
  if (isRuledOut(raw, around.action)) return { why: TRIGGER, readings: TWO_ENDS };
  if (isTransition(context, raw, around.clause))
    return { why: 'may be a change from one figure to the other', readings: TWO_ENDS };
  return asked.length === 0 ? null : { why: 'puts a relation word on two ends', readings: TWO_ENDS };
}

const TWO_ENDS: Question['readings'] = ['within', 'spans'];
const NEGATION = 'stands under a negation whose reach is open';

/** "at most ±5 %", "shall not exceed ±5 %", "±5 % or better". */
function limitsWidth(context: Context, term: Term, raw: RawPhrase, { governing }: NegationReach): boolean {
  if (term.meaning.kind === 'ask') return term.meaning.where === 'better' && governing === 0;
  const relation = relationOf(context, term, raw.figure);
  return governing === 0 ? relation === '<=' : governing === 1 && relation === '>';
}

/** "shall boost 5 V to 12 V", "rise from 5 V to 12 V". */
function isTransition(context: Context, raw: RawPhrase, clause: Clause): boolean {
  const connector = raw.figure.form === 'ends' && keyAt(context, raw.first) !== 'between';
  if (!connector) return false;
  for (let index = raw.first - 1; index >= Math.max(clause.from, raw.first - TRANSITION_REACH); index--) {
    if (TRANSITION_VERBS.has(keyAt(context, index))) return true;
  }
  return false;
}

/** A verb farther back seldom has the figures as its object. */
const TRANSITION_REACH = 12;

const TRIGGER = 'may say when something happens or what is kept to';

/** "log any voltage above 57 V"; "in less than 5 s" is how soon. */
function isWatched(context: Context, { leading, first }: RawPhrase, action: ClauseAction | null): boolean {
  const isOpen = leading.some(({ meaning }) => meaning.kind === 'relation' && ['>', '<'].includes(meaning.relation));
  const at = action?.watches ?? null;
  return isOpen && at !== null && first > at && keyAt(context, first - 1) !== 'in';
}

/** "Voltages above 15 V shall be rejected", "draws of 60 W or more shall not be possible". */
function isRuledOut({ first }: RawPhrase, action: ClauseAction | null): boolean {
  return action !== null && action.actedOn !== null && first < action.actedOn;
}

/** A maximum of what a product can do, stand or supply may be a ceiling or a promise. */
function questionOfVerb(
  context: Context,
  raw: RawPhrase,
  terms: readonly Term[],
  relation: Simple,
  { verb, clause, action }: Surroundings,
): Question | null {
  if (isTrigger(context, raw, clause) || isWatched(context, raw, action) || isRuledOut(raw, action))
    return { why: TRIGGER, readings: BOTH };
  if (!verb || directionOf(relation) !== 'upper' || raw.first < verb.at) return null;
  const isMaximum = terms.some(({ meaning }) => meaning.kind === 'extreme');
  if (verb.isSupply && isMaximum) return { why: 'may be a ceiling or what must be supplied', readings: BOTH };
  if (!verb.isCapability || isOwnConsumption(context, raw, verb)) return null;
  return { why: 'may be a ceiling or what must be withstood', readings: BOTH };
}

/** "shut down above 40 °C", "alarm below 5 V": a verb of acting with nothing but short words up to the comparison. */
function isTrigger(context: Context, { leading, first }: RawPhrase, clause: Clause): boolean {
  if (!leading.some(({ meaning }) => meaning.kind === 'relation' && meaning.weak)) return false;
  for (let index = first - 1; index >= Math.max(clause.from, first - TRIGGER_REACH); index--) {
    if (TRIGGER_VERBS.has(keyAt(context, index))) return true;
  }
  return false;
}

const TRIGGER_REACH = 4;

/** "run at 60 W max.": what a machine takes when it runs is its own figure and no circumstance that it can stand. */
function isOwnConsumption(context: Context, { figure, trailing }: RawPhrase, verb: Capability): boolean {
  const isRunAt = keyAt(context, verb.at) === 'run' && keyAt(context, verb.at + 1) === 'at';
  if (!isRunAt || figure.first !== verb.at + 2 || trailing?.meaning.kind !== 'extreme') return false;
  return isSameBase(figure.lowUnit, context.units.word('W')) || isSameBase(figure.lowUnit, context.units.word('rpm'));
}

function isSameBase(a: Unit | null, b: Unit | null): boolean {
  return a !== null && b !== null && dimensions.withoutKinds(a.dimension) === dimensions.withoutKinds(b.dimension);
}

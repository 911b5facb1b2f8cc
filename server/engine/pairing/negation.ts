/** Which negations reach which phrase: those that turn its comparison around, and those that make it ambiguous. */
import { NEGATED_OPENINGS } from '../../../grammar/sentence-words';
import type { Term } from '../../syntax/sentence/term';
import { keyOf } from '../../syntax/sentence/token';
import { isOfObligation, type RawPhrase } from './attach';
import type { Clause } from './clause';
import { type Context, keyAt } from './context';

/** What stands over a phrase. */
export interface NegationReach {
  /** Negations that govern it: its own, *shall not*, a negated subject, prevent … from, avoid. */
  readonly governing: number;
  /** A governing one of an earlier clause, across *and*, *or*, *but* or a comma. */
  readonly crosses: boolean;
  /** Any other negation earlier in its clause. */
  readonly others: number;
}

/** A negation with the range it governs surely, and the range in which it may. */
interface Reach {
  readonly kind: 'governs' | 'other';
  readonly from: number;
  /** May govern phrases from here, … */
  readonly start: number;
  /** … surely only from here … */
  readonly sureFrom: number;
  /** … up to here (end of its clause), … */
  readonly sure: number;
  /** … and up to here perhaps. */
  readonly perhaps: number;
}

/** For each phrase what reaches it; `clauseOf` gives a phrase's clause. */
export function weighNegations(
  context: Context,
  phrases: readonly RawPhrase[],
  clauses: readonly Clause[],
  clauseOf: readonly number[],
): readonly NegationReach[] {
  if (!mayNegate(context)) return phrases.map(() => NOT_NEGATED);
  const own = new Set(phrases.flatMap(({ negation }) => (negation ? [negation] : [])));
  const ends = groupEnds(context, clauses);
  const reaches = clauses.map((clause, index) => reachesIn(context, clause, ends[index] ?? NO_ENDS, own));
  const carried = carry(clauses, reaches);
  const late = clauses.map((clause) => lateNegation(context, clause));
  const negated = sentencesUnderNegation(context, clauses, reaches);
  return phrases.map((phrase, index) => {
    const clause = clauseOf[index] ?? -1;
    const weighed = weigh(phrase, [...(carried[clause] ?? []), ...(reaches[clause] ?? [])]);
    const isNegated = negated.has(clauses[clause]?.sentence ?? -1) || phrase.next <= (late[clause] ?? -1);
    return isNegated ? { ...weighed, crosses: true } : weighed;
  });
}

const NOT_NEGATED: NegationReach = { governing: 0, crosses: false, others: 0 };
const NEGATING: ReadonlySet<string> = new Set(['negation', 'prevent', 'avoid']);

/** Most sentences have no word that could. */
function mayNegate({ reading: { terms }, tokens, termFrom }: Context): boolean {
  return (
    terms.some(({ meaning }) => NEGATING.has(meaning.kind)) ||
    tokens.some((token, index) => NEGATED_OPENINGS.has(keyOf(token)) && !termFrom.has(index))
  );
}

/** Where the last *never* or the like of a clause stands: behind a phrase it may take back what was said. */
function lateNegation(context: Context, clause: Clause): number {
  for (let index = clause.to - 1; index >= clause.from; index--) {
    const meaning = context.termFrom.get(index)?.meaning;
    if (meaning?.kind !== 'negation') continue;
    if (meaning.how === 'sweeping' || keyAt(context, index) === 'never') return index;
  }
  return -1;
}

/** Items of a list whose lead-in negates: "The unit shall not:". */
function sentencesUnderNegation(
  context: Context,
  clauses: readonly Clause[],
  reaches: readonly (readonly Reach[])[],
): ReadonlySet<number> {
  const negating = new Set(
    clauses.filter((_, index) => (reaches[index] ?? []).length > 0).map(({ sentence }) => sentence),
  );
  const { sentences } = context.reading;
  return new Set([...sentences.keys()].filter((index) => negating.has(sentences[index]?.lead ?? -1)));
}

function weigh(phrase: RawPhrase, reaches: readonly Reach[]): NegationReach {
  let governing = phrase.negation ? 1 : 0;
  let crosses = false;
  let others = 0;
  for (const reach of reaches) {
    if (reach.from >= phrase.first) break;
    if (reach.kind === 'other') others += phrase.first < reach.sure ? 1 : 0;
    else if (phrase.first < reach.start || phrase.first >= reach.perhaps) continue;
    else if (phrase.first < reach.sure && phrase.first >= reach.sureFrom) governing += 1;
    else crosses = true;
  }
  return { governing, crosses, others };
}

/** Reaches of earlier clauses that may extend into each clause; few, since only governing ones last. */
function carry(clauses: readonly Clause[], reaches: readonly (readonly Reach[])[]): readonly (readonly Reach[])[] {
  let open: readonly Reach[] = [];
  return clauses.map((clause, index) => {
    const here = open.filter(({ perhaps }) => perhaps > clause.from);
    // One that may reach says enough, and keeps long sentences linear.
    open = [...here.slice(0, 2), ...(reaches[index] ?? []).filter(({ perhaps }) => perhaps > clause.to)].slice(0, 4);
    return here;
  });
}

/** How far a negation of a clause's verb, and one of its subject, may reach. */
interface GroupEnds {
  /** To the next obligation word of the sentence. */
  readonly verb: number;
  /** To the next clause with a subject of its own. */
  readonly subject: number;
  readonly sentence: number;
}

const NO_ENDS: GroupEnds = { verb: 0, subject: 0, sentence: 0 };

function groupEnds(context: Context, clauses: readonly Clause[]): readonly GroupEnds[] {
  const result: GroupEnds[] = [];
  let next: GroupEnds = NO_ENDS;
  let sentence = -1;
  for (let index = clauses.length - 1; index >= 0; index--) {
    const clause = clauses[index];
    if (!clause) continue;
    const end = context.reading.sentences[clause.sentence]?.to ?? 0;
    if (clause.sentence !== sentence) next = { verb: end, subject: end, sentence: end };
    sentence = clause.sentence;
    result[index] = next;
    const modal = clause.kind === 'main' ? modalIn(context, clause) : null;
    const hasSubject = modal?.from !== contentStart(context, clause);
    if (modal) next = { verb: clause.from, subject: hasSubject ? clause.from : next.subject, sentence: end };
  }
  return result;
}

function reachesIn(context: Context, clause: Clause, ends: GroupEnds, own: ReadonlySet<Term>): readonly Reach[] {
  if (clause.kind !== 'main') return [];
  const result: Reach[] = [];
  const modal = modalIn(context, clause);
  const opening = openingAt(context, clause, modal, own);
  const isInsertion = isInserted(context, clause, modal);
  for (let index = clause.from; index < clause.to; index++) {
    const term = context.termFrom.get(index);
    if (opening && index === opening.from) result.push({ ...opening, perhaps: ends.subject });
    if (!term || isPartOfOpening(context, opening, term, modal)) continue;
    const reach = reachOf(context, term, clause, modal, own);
    if (reach) result.push(extended(context, reach, term, clause, ends, isInsertion));
  }
  return enough(result);
}

function extended(
  context: Context,
  reach: ClauseReach,
  term: Term,
  clause: Clause,
  ends: GroupEnds,
  isInsertion: boolean,
): Reach {
  if (term.meaning.kind === 'negation' && term.meaning.how === 'sweeping') return { ...reach, perhaps: ends.sentence };
  // "It is not acceptable that …": what *that* brings may be denied with it.
  if (keyAt(context, clause.to) === 'that') {
    return { ...reach, kind: 'governs', sureFrom: Number.POSITIVE_INFINITY, perhaps: ends.sentence };
  }
  if (reach.kind === 'governs') return { ...reach, perhaps: ends.verb };
  // "shall never, under any load, …": nothing stands between the negation and the comma, so it belongs to what follows.
  const isDangling = term.to >= clause.to - 1;
  return isDangling || isInsertion
    ? { ...reach, sure: ends.verb, perhaps: ends.verb }
    : { ...reach, perhaps: clause.to };
}

/**
 * Whether a clause is put into another ("shall, without charging, draw …"): it stands behind the obligation word, has
 * none itself and no figure or code span, so that what it negates may be what follows.
 */
function isInserted(context: Context, clause: Clause, modal: Term | null): boolean {
  const obligation = context.reading.sentences[clause.sentence]?.obligation ?? null;
  if (modal || obligation === null || clause.from < obligation) return false;
  for (let index = clause.from; index < clause.to; index++) {
    const type = context.tokens[index]?.type;
    if (type === 'code' || type === 'number' || type === 'date') return false;
  }
  return true;
}

/** All reach to the end of the clause, so the first ones decide; this keeps long clauses linear. */
function enough(reaches: readonly Reach[]): readonly Reach[] {
  const governing = reaches.filter(({ kind }) => kind === 'governs').slice(0, 3);
  const other = reaches.filter(({ kind }) => kind === 'other').slice(0, 1);
  return [...governing, ...other].sort((a, b) => a.from - b.from);
}

function contentStart(context: Context, clause: Clause): number {
  return ['and', 'or', 'but', ','].includes(keyAt(context, clause.from)) ? clause.from + 1 : clause.from;
}

/** The opening itself, and the *nor* of "neither A nor B shall". */
function isPartOfOpening(context: Context, opening: ClauseReach | null, term: Term, modal: Term | null): boolean {
  if (opening === null || term.from < opening.from) return false;
  const isNor = keyAt(context, term.from) === 'nor' && modal !== null && term.from < modal.from;
  return term.to <= opening.start || isNor;
}

type ClauseReach = Omit<Reach, 'perhaps'>;

function reachOf(
  context: Context,
  term: Term,
  clause: Clause,
  modal: Term | null,
  own: ReadonlySet<Term>,
): ClauseReach | null {
  const base = { from: term.from, start: term.to, sureFrom: term.to, sure: clause.to };
  switch (term.meaning.kind) {
    case 'prevent': {
      const from = fromBehind(context, term.to, clause.to);
      if (from !== null) return { ...base, kind: 'governs', start: from, sureFrom: from };
      return isPrevention(context, term.from) ? { ...base, kind: 'other' } : null;
    }
    case 'avoid':
      return { ...base, kind: 'governs' };
    case 'negation':
      return negationReach(context, term, base, modal, own);
    default:
      return null;
  }
}

function negationReach(
  context: Context,
  term: Term,
  base: Omit<ClauseReach, 'kind'>,
  modal: Term | null,
  own: ReadonlySet<Term>,
): ClauseReach | null {
  if (own.has(term)) {
    // "No more than three ports shall draw more than 5 W": the subject's own negation says nothing of the second figure.
    return modal && term.from < modal.from ? { ...base, kind: 'other' } : null;
  }
  if (term.meaning.kind === 'negation' && term.meaning.how === 'sweeping') return { ...base, kind: 'governs' };
  if (term.meaning.kind !== 'negation' || term.meaning.how !== 'governs') return { ...base, kind: 'other' };
  return isOfObligation(context, term.from) ? { ...base, kind: 'governs' } : { ...base, kind: 'other' };
}

/** "prevent draws above 60 W": a negation even without its *from*; to keep or to stop something is none. */
function isPrevention(context: Context, index: number): boolean {
  return ['prevent', 'protect'].some((verb) => keyAt(context, index).startsWith(verb));
}

function modalIn(context: Context, clause: Clause): Term | null {
  for (let index = clause.from; index < clause.to; index++) {
    const term = context.termFrom.get(index);
    if (term?.meaning.kind === 'modal') return term;
  }
  return null;
}

/** A negated subject before the obligation word: "No port shall …", "Neither the fan nor the pump shall …". */
function openingAt(context: Context, clause: Clause, modal: Term | null, own: ReadonlySet<Term>): ClauseReach | null {
  const from = contentStart(context, clause);
  const term = context.termFrom.get(from);
  if (!modal || !NEGATED_OPENINGS.has(keyAt(context, from)) || from + 1 > modal.from) return null;
  if (term && (own.has(term) || term.meaning.kind !== 'negation' || term.meaning.how !== 'governs')) return null;
  return { kind: 'governs', from, start: from + 1, sureFrom: modal.from, sure: clause.to };
}

function fromBehind(context: Context, start: number, end: number): number | null {
  for (let index = start; index < end; index++) if (keyAt(context, index) === 'from') return index + 1;
  return null;
}

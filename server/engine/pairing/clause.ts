/** Cuts segments at *and*, *or*, *but* where both sides say something, and finds out how far conditions reach. */
import type { Sentence } from '../../syntax/sentence/reading';
import type { RawPhrase } from './attach';
import { isBound, joinOf } from './bounds';
import { type Context, keyAt } from './context';

export interface Clause {
  readonly from: number;
  readonly to: number;
  readonly kind: 'main' | 'condition';
  readonly opener: string | null;
  readonly sentence: number;
  /** Between commas and openers: clauses of one segment share its number. */
  readonly segment: number;
}

/** Where phrases and code spans stand, so that any range can be asked at once. */
interface Holders {
  readonly phrases: readonly number[];
  readonly codes: readonly number[];
  /** Tokens that lie inside a phrase or a term and are no coordinators. */
  readonly covered: ReadonlySet<number>;
  readonly byFirst: ReadonlyMap<number, RawPhrase>;
  readonly byNext: ReadonlyMap<number, RawPhrase>;
}

const COORDINATORS: ReadonlySet<string> = new Set(['and', 'or', 'but']);

export function cutClauses(context: Context, phrases: readonly RawPhrase[]): readonly Clause[] {
  const holders = holdersOf(context, phrases);
  const clauses: Clause[] = [];
  let segment = 0;
  for (const [index, sentence] of context.reading.sentences.entries()) {
    for (const joined of joinedSegments(context, sentence, holders)) {
      const cut = joined.kind === 'main' ? cutMain(context, joined, holders) : cutCondition(context, joined, holders);
      clauses.push(...cut.map((clause) => ({ sentence: index, segment, ...clause })));
      segment += 1;
    }
  }
  return clauses;
}

type Piece = Omit<Clause, 'sentence' | 'segment'> & { readonly isOpening: boolean };

/** Segments, without the cut at a comma between the two bounds of one limit ("at least 36 V, but at most 57 V"). */
function joinedSegments(context: Context, sentence: Sentence, holders: Holders): readonly Piece[] {
  const result: Piece[] = [];
  for (const { from, to, kind, opener, isOpening } of sentence.segments) {
    const last = result.at(-1);
    const before = holders.byNext.get(from - 1);
    const isJoined =
      last?.kind === 'main' &&
      kind === 'main' &&
      before !== undefined &&
      joinOf(context, before, phraseBehind(context, from, holders));
    if (last && isJoined) result[result.length - 1] = { ...last, to };
    else result.push({ from, to, kind, opener, isOpening });
  }
  return result;
}

function phraseBehind(context: Context, from: number, holders: Holders): RawPhrase | undefined {
  return holders.byFirst.get(COORDINATORS.has(keyAt(context, from)) ? from + 1 : from);
}

function cutMain(context: Context, piece: Piece, holders: Holders): readonly Piece[] {
  const cuts: number[] = [];
  let from = piece.from;
  let hasModal = false;
  for (let index = piece.from; index < piece.to; index++) {
    hasModal ||= context.termFrom.get(index)?.meaning.kind === 'modal';
    if (!isCoordinator(context, index, holders)) continue;
    const hasPhrase = holds(holders.phrases, from, index);
    if (!hasPhrase && (!hasModal || !holds(holders.codes, from, index))) continue;
    if (!holds(holders.phrases, index, piece.to) && !holds(holders.codes, index, piece.to)) continue;
    if (joinsBounds(context, index, holders)) continue;
    cuts.push(index);
    from = index;
    hasModal = false;
  }
  return piecesOf(piece, cuts);
}

function piecesOf(piece: Piece, cuts: readonly number[]): readonly Piece[] {
  const starts = [piece.from, ...cuts];
  return starts.map((from, index) => ({ ...piece, from, to: starts[index + 1] ?? piece.to }));
}

function isCoordinator(context: Context, index: number, holders: Holders): boolean {
  return (
    COORDINATORS.has(keyAt(context, index)) && context.reading.brackets[index] === -1 && !holders.covered.has(index)
  );
}

function joinsBounds(context: Context, index: number, holders: Holders): boolean {
  const before = holders.byNext.get(keyAt(context, index - 1) === ',' ? index - 1 : index);
  return before !== undefined && joinOf(context, before, holders.byFirst.get(index + 1)) !== null;
}

/**
 * A trailing condition goes on behind *and*, unless what follows takes up the main clause again: a limit phrase with
 * a name or a condition of its own, or one where the condition itself has no figure.
 */
function cutCondition(context: Context, piece: Piece, holders: Holders): readonly Piece[] {
  if (piece.isOpening) return [piece];
  for (let index = piece.from; index < piece.to; index++) {
    if (!isCoordinator(context, index, holders) || !resumesMain(context, index, piece, holders)) continue;
    const main: Piece = { ...piece, from: index, kind: 'main', opener: null };
    return [{ ...piece, to: index }, ...cutMain(context, main, holders)];
  }
  return [piece];
}

function resumesMain(context: Context, index: number, piece: Piece, holders: Holders): boolean {
  if (!holds(holders.phrases, index, piece.to)) return false;
  const direct = holders.byFirst.get(index + 1);
  if (direct) {
    const hasCode = holds(holders.codes, index, piece.to);
    const isFollowedByOpener = context.termFrom.get(piece.to)?.meaning.kind === 'opener';
    if (hasCode || isFollowedByOpener) return true;
    return !holds(holders.phrases, piece.from, index) && !isWeakPhrase(direct);
  }
  return !hasFiniteVerb(context, index, piece.to);
}

function isWeakPhrase({ leading }: RawPhrase): boolean {
  return leading.some(({ meaning }) => meaning.kind === 'relation' && meaning.weak);
}

const FINITE_VERBS: ReadonlySet<string> = new Set(
  'is are was were has have does do exceeds exceed rises falls drops stays remains reaches goes lies becomes'.split(
    ' ',
  ),
);

function hasFiniteVerb(context: Context, from: number, to: number): boolean {
  for (let index = from; index < to; index++) if (FINITE_VERBS.has(keyAt(context, index))) return true;
  return false;
}

function holdersOf(context: Context, phrases: readonly RawPhrase[]): Holders {
  const covered = new Set<number>();
  for (const { from, to } of context.reading.terms) for (let index = from; index < to; index++) covered.add(index);
  for (const { first, next } of phrases) for (let index = first; index < next; index++) covered.add(index);
  const limits = phrases.filter(isBound);
  return {
    phrases: prefixCounts(
      context.tokens.length,
      limits.map(({ first }) => first),
    ),
    codes: prefixCounts(context.tokens.length, codeTokens(context)),
    covered,
    byFirst: new Map(limits.map((phrase) => [phrase.first, phrase])),
    byNext: new Map(limits.map((phrase) => [phrase.next, phrase])),
  };
}

function codeTokens(context: Context): readonly number[] {
  return [...context.tokens.keys()].filter((index) => context.tokens[index]?.type === 'code');
}

/** How many of the places lie before each token. */
function prefixCounts(length: number, places: readonly number[]): readonly number[] {
  const counts = new Array<number>(length + 1).fill(0);
  for (const place of places) counts[place + 1] = (counts[place + 1] ?? 0) + 1;
  for (let index = 1; index <= length; index++) counts[index] = (counts[index] ?? 0) + (counts[index - 1] ?? 0);
  return counts;
}

function holds(counts: readonly number[], from: number, to: number): boolean {
  return (counts[to] ?? 0) > (counts[from] ?? 0);
}

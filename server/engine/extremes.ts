/** The least and greatest value of a term over its variables: exact at the corners where it is monotone, else subdivided. */

import type { Interval } from '../quantity/interval';
import * as interval from '../quantity/interval';
import type { Rational } from '../quantity/rational';
import * as rational from '../quantity/rational';
import { type Box, decide, type Enclosure, enclose, holdsOver, isNoValue, type Memo, type NoValue } from './enclosure';
import { gradient } from './gradient';
import { isSeparateIn } from './separate';
import { type Condition, holdsOf, type PlainRelation, type Term, type Variable } from './term';
import { inOrder } from './term-order';

/** Which values the variables take: all of them, or ranges whole and tolerances at their typical value. */
export type Extent = 'full' | 'typical';

/** What a term can be over an extent. */
export interface Extremes {
  /** No value lies outside. An end is null where an open end of a given figure leaves it open. */
  readonly outer: Interval;
  /** Values at both ends of this are really taken (to within the rounding of sqrt and its kin); null ends as in `outer`. */
  readonly inner: Interval;
  /** False where the step limit was met before the two agreed. */
  readonly complete: boolean;
}

/** Boxes looked at for one end of one term at the most: counted, never timed, so that every machine decides alike. */
const MAXIMUM_STEPS = 1_000;
/** The same bound put on work: nodes of the graph looked at. */
const MAXIMUM_NODE_VISITS = 5_000;
/** What one box costs beside a plain enclosure: slopes, twice as a rule, and a place inside. */
const NODES_A_STEP = 20;
/** After so many boxes the gap to a value found must have narrowed, or more boxes would not narrow it either. */
const PATIENCE = 60;
const NARROWED = rational.fraction(99n, 100n);
/** Ends closer than this share of the width are one. */
const RESOLUTION = rational.fraction(1n, 1_000_000_000_000n);

/** Both extents of a variable, where it is not where its author wrote it. */
export type Extents = Readonly<Record<Extent, Interval>>;

/** A design as another one with some of its figures moved. */
interface Moved {
  readonly base: ExtremeFinder;
  readonly extents: ReadonlyMap<Variable, Extents>;
}

/** Extremes of terms of one product; terms are immutable, so what was found is kept with them. */
export class ExtremeFinder {
  private readonly moved: Moved | null;
  private visits = 0;
  private readonly found = {
    full: new WeakMap<Term, Extremes | NoValue>(),
    typical: new WeakMap<Term, Extremes | NoValue>(),
  };
  private readonly boxes: Readonly<Record<Extent, Box>>;

  private constructor(moved: Moved | null) {
    this.moved = moved;
    this.boxes = { full: this.wholeBox('full'), typical: this.wholeBox('typical') };
  }

  /** A finder for figures as they are written. */
  static ofDesign(): ExtremeFinder {
    return new ExtremeFinder(null);
  }

  /** A finder for the same terms with these variables elsewhere; what they do not touch is found once for both. */
  with(extents: ReadonlyMap<Variable, Extents>): ExtremeFinder {
    return new ExtremeFinder({ base: this, extents });
  }

  /** Nodes of terms looked at so far, by this finder and by those made of it: work is counted, never timed. */
  get work(): number {
    return this.visits;
  }

  /** Counts nodes looked at. */
  spend(nodes: number): void {
    this.visits += nodes;
    this.moved?.base.spend(nodes);
  }

  /** Where a variable lies. */
  extentOf(variable: Variable, extent: Extent): Interval {
    return this.moved?.extents.get(variable)?.[extent] ?? variable[extent];
  }

  /** The box of all figures, for whoever asks on about slopes. */
  box(extent: Extent): Box {
    return this.boxes[extent];
  }

  extremes(term: Term, extent: Extent): Extremes | NoValue {
    if (this.moved !== null && !touches(this.moved.extents, term)) return this.moved.base.extremes(term, extent);
    const known = this.found[extent].get(term);
    if (known !== undefined) return known;
    const result = extent === 'typical' && isAlike(term) ? this.extremes(term, 'full') : this.find(term, extent);
    this.found[extent].set(term, result);
    return result;
  }

  /**
   * Whether `term relation 0` is shown for every value over everything. As {@link extremes} decides it, but no further
   * than it takes to know.
   */
  holds(relation: PlainRelation, term: Term): boolean {
    if (this.moved !== null && !touches(this.moved.extents, term)) return this.moved.base.holds(relation, term);
    const box = this.boxes.full;
    const order = inOrder(term);
    for (const below of order) enclose(below, box);
    const plain = enclose(term, box);
    this.spend(order.length * slownessOf(plain));
    if (isNoValue(plain)) return false;
    if (holdsOver(relation, plain) === true) return true;
    const side = relation === '<=' || relation === '<' ? 1 : relation === '>=' || relation === '>' ? -1 : null;
    if (side === null || term.separate || this.found.full.has(term)) return this.isShown(relation, term);
    if (isSeparateIn(term, box) || isBeyond(order, plain)) return false;
    const isSettled = (bound: Rational | null, inside: Rational | null) =>
      (bound !== null && holdsOf(relation, rational.sign(bound))) ||
      (inside !== null && !holdsOf(relation, rational.sign(inside)));
    const spend = () => this.spend(NODES_A_STEP * order.length * slownessOf(plain));
    const { outer } = search(term, box, plain, side, spend, isSettled);
    return outer !== null && holdsOf(relation, rational.sign(outer));
  }

  private isShown(relation: PlainRelation, term: Term): boolean {
    const found = this.extremes(term, 'full');
    return !isNoValue(found) && holdsOver(relation, found.outer) === true;
  }

  /** Whether a condition holds over the whole extent, nowhere, or neither for sure. */
  decide(condition: Condition, extent: Extent): boolean | null {
    const decided = decide(condition, this.boxes[extent]);
    return typeof decided === 'object' ? null : decided;
  }

  private find(term: Term, extent: Extent): Extremes | NoValue {
    const box = this.boxes[extent];
    const inner = shiftedFrom(term);
    if (inner !== null) return this.shifted(inner, extent);
    // From the leaves up, so that a deep term costs no stack.
    const order = inOrder(term);
    this.spend(order.length);
    for (const below of order) enclose(below, box);
    const plain = enclose(term, box);
    if (isNoValue(plain)) return plain;
    if (term.separate || isSeparateIn(term, box)) return { outer: plain, inner: plain, complete: true };
    if (isBeyond(order, plain)) return { outer: plain, inner: interval.ENTIRE, complete: false };
    const spend = () => this.spend(NODES_A_STEP * order.length);
    const low = search(term, box, plain, -1, spend);
    const high = search(term, box, plain, 1, spend);
    return {
      outer: { low: low.outer, high: high.outer },
      inner: { low: low.inner, high: high.inner },
      complete: low.complete && high.complete,
    };
  }

  private memo(extent: Extent): Memo {
    const own = new WeakMap<Term, Enclosure>();
    if (this.moved === null) return own;
    const { base, extents } = this.moved;
    const known = base.boxes[extent].memo;
    return {
      get: (term) => own.get(term) ?? (touches(extents, term) ? undefined : known.get(term)),
      set: (term, enclosure) => (touches(extents, term) ? own : known).set(term, enclosure),
    };
  }

  /** A figure and its distance to an exact limit have the same corners. */
  private shifted({ term, by }: Shift, extent: Extent): Extremes | NoValue {
    const found = this.extremes(term, extent);
    if (isNoValue(found)) return found;
    const moved = interval.point(by);
    return {
      outer: interval.add(found.outer, moved),
      inner: interval.add(found.inner, moved),
      complete: found.complete,
    };
  }

  private wholeBox(extent: Extent): Box {
    return {
      extentOf: (variable) => this.extentOf(variable, extent),
      memo: this.memo(extent),
      tighten: (term) => {
        const found = this.extremes(term, extent);
        return isNoValue(found) ? null : found.outer;
      },
    };
  }
}

function touches(extents: ReadonlyMap<Variable, Extents>, { support }: Term): boolean {
  for (const variable of extents.keys()) if (support.has(variable)) return true;
  return false;
}

/** Where nothing has a tolerance, the typical extent is the full one. */
function isAlike({ support }: Term): boolean {
  for (const { spread } of support) if (spread === 'tolerance') return false;
  return true;
}

interface Shift {
  readonly term: Term;
  readonly by: Rational;
}

/** The one moving part of a sum and what is added to it; null for every other term. */
function shiftedFrom(term: Term): Shift | null {
  if (term.type !== 'sum' || term.terms.length !== 2) return null;
  const [first, second] = term.terms as readonly [Term, Term];
  return second.type === 'constant' ? { term: first, by: second.value } : null;
}

interface End {
  readonly outer: Rational | null;
  readonly inner: Rational | null;
  readonly complete: boolean;
}

/** A part of the box with a bound on the term over it; `side` 1 looks for the greatest value, −1 for the least. */
interface Candidate {
  readonly extents: ReadonlyMap<Variable, Interval>;
  readonly bound: Rational | null;
  /** A value that the term takes in the part. */
  readonly inside: Rational | null;
  /** Variables in which the term may both rise and fall. */
  readonly open: readonly Variable[];
}

/** Whether the bound and a value that is taken say enough already. */
type Settled = (bound: Rational | null, inside: Rational | null) => boolean;

/** Best-first subdivision: the part with the furthest bound is split until no part can hold more than a value found. */
function search(
  term: Term,
  box: Box,
  plain: Interval,
  side: 1 | -1,
  spend: () => void,
  isSettled: Settled = () => false,
): End {
  const whole = new Map([...term.support].map((variable) => [variable, box.extentOf(variable)]));
  const first = narrow(term, whole, side);
  if (first === null) return { outer: side > 0 ? plain.high : plain.low, inner: null, complete: false };
  const queue = [first];
  const width = plain.low !== null && plain.high !== null ? rational.subtract(plain.high, plain.low) : null;
  const limit = Math.min(MAXIMUM_STEPS, Math.ceil(MAXIMUM_NODE_VISITS / inOrder(term).length));
  let inner = first.inside;
  let gap = gapBetween(first.bound, inner);
  for (let step = 1; step <= limit; step += 1) {
    const candidate = queue[0];
    if (step % PATIENCE === 0) {
      const before = gap;
      gap = gapBetween(candidate?.bound ?? null, inner);
      if (!hasNarrowed(before, gap)) break;
    }
    if (
      candidate === undefined ||
      candidate.bound === null ||
      candidate.open.length === 0 ||
      isSettled(candidate.bound, inner) ||
      reached(candidate.bound, inner, width, side)
    )
      break;
    takeFirst(queue, side);
    spend();
    for (const half of halves(candidate, whole)) {
      const part = narrow(term, half, side);
      if (part === null) return { outer: candidate.bound, inner, complete: false };
      insert(queue, part, side);
      inner = further(inner, part.inside, side);
    }
  }
  const best = queue[0] ?? first;
  const complete = best.bound === null || reached(best.bound, inner, width, side);
  return { outer: best.bound, inner: best.bound === null ? null : inner, complete };
}

/** How much longer than usual arithmetic takes, where figures have more than so many digits. */
const SLOWER: readonly (readonly [digits: number, times: number])[] = [
  [1000, 40],
  [300, 12],
  [80, 4],
];
const MOST_SLOW_NODES = 4_000;

/** So many figures of so many digits that not even one box is looked at. */
function isBeyond(order: readonly Term[], plain: Interval): boolean {
  const slowness = slownessOf(plain);
  return slowness > 1 && order.length * slowness > MOST_SLOW_NODES;
}

function slownessOf(enclosure: Interval | NoValue): number {
  if (isNoValue(enclosure)) return 1;
  const ends = [enclosure.low, enclosure.high].filter((end) => end !== null);
  return SLOWER.find(([digits]) => ends.some((end) => rational.isLongerThan(end, digits)))?.[1] ?? 1;
}

function gapBetween(bound: Rational | null, inner: Rational | null): Rational | null {
  return bound === null || inner === null ? null : rational.absolute(rational.subtract(bound, inner));
}

function hasNarrowed(before: Rational | null, now: Rational | null): boolean {
  if (before === null || now === null) return now !== null;
  return rational.compare(now, rational.multiply(before, NARROWED)) <= 0;
}

/** Fixes every variable in which the term only rises or only falls at its better end, as often as that frees others. */
function narrow(term: Term, extents: ReadonlyMap<Variable, Interval>, side: 1 | -1): Candidate | null {
  const fixed = new Map(extents);
  let open = [...extents.keys()].filter((variable) => !interval.isPoint(extents.get(variable) as Interval));
  let slopes: ReadonlyMap<Variable, Interval> = new Map();
  for (;;) {
    const found = open.length === 0 ? slopes : gradient(term, partBox(fixed));
    if (found === null) return null;
    slopes = found;
    const still: Variable[] = [];
    for (const variable of open) {
      const rises = directionOf(slopes.get(variable) ?? interval.ZERO);
      if (rises === null) still.push(variable);
      else fixed.set(variable, endOf(fixed.get(variable) as Interval, rises * side));
    }
    const done = still.length === open.length || still.length === 0;
    open = still;
    if (done) break;
  }
  const enclosure = enclose(term, partBox(fixed));
  if (isNoValue(enclosure)) return null;
  const inside = valueInside(term, fixed, side);
  const [plain, centred] = [
    side > 0 ? enclosure.high : enclosure.low,
    boundFromMiddle(inside, fixed, open, slopes, side),
  ];
  return { extents: fixed, bound: nearer(plain, centred, side), inside, open };
}

/**
 * The mean value form (Moore, Kearfott & Cloud, Introduction to Interval Analysis, 2009, ch. 6, from memory): no further
 * from the middle's value than the steepest slopes lead over half of each width. Null where a slope has no bound.
 */
function boundFromMiddle(
  middle: Rational | null,
  extents: ReadonlyMap<Variable, Interval>,
  open: readonly Variable[],
  slopes: ReadonlyMap<Variable, Interval>,
  side: 1 | -1,
): Rational | null {
  const unsettled = new Set(open);
  let bound = middle;
  for (const [variable, { low, high }] of extents) {
    // A figure that is fixed toward an open end stands at no place, so it has no middle either.
    if (low === null || high === null) return null;
    if (!unsettled.has(variable)) continue;
    const slope = slopes.get(variable) ?? interval.ZERO;
    if (bound === null || slope.low === null || slope.high === null) return null;
    const steepest = rational.maximum(rational.absolute(slope.low), rational.absolute(slope.high));
    const reach = rational.multiply(steepest, rational.divide(rational.subtract(high, low), rational.integer(2)));
    bound = side > 0 ? rational.add(bound, reach) : rational.subtract(bound, reach);
  }
  return bound;
}

function nearer(a: Rational | null, b: Rational | null, side: 1 | -1): Rational | null {
  if (a === null || b === null) return a ?? b;
  return rational.compare(a, b) * side <= 0 ? a : b;
}

function directionOf({ low, high }: Interval): 1 | -1 | null {
  if (low !== null && rational.sign(low) >= 0) return 1;
  return high !== null && rational.sign(high) <= 0 ? -1 : null;
}

/** The end of an extent as a point; an open end stays open beyond the end that is known. */
function endOf(extent: Interval, direction: number): Interval {
  const end = direction > 0 ? extent.high : extent.low;
  if (end !== null) return interval.point(end);
  return extent;
}

function partBox(extents: ReadonlyMap<Variable, Interval>): Box {
  return { extentOf: (variable) => extents.get(variable) ?? variable.full, memo: new Map(), tighten: () => null };
}

/** A value that the term takes in the part: at its middle, the fixed variables where they are. */
function valueInside(term: Term, extents: ReadonlyMap<Variable, Interval>, side: 1 | -1): Rational | null {
  const middle = new Map([...extents].map(([variable, extent]) => [variable, interval.point(middleOf(extent))]));
  const enclosure = enclose(term, partBox(middle));
  if (isNoValue(enclosure)) return null;
  return side > 0 ? enclosure.high : enclosure.low;
}

function middleOf({ low, high }: Interval): Rational {
  if (low === null || high === null) return low ?? high ?? rational.ZERO;
  return rational.divide(rational.add(low, high), rational.integer(2));
}

/** Splits the widest of the variables that are not settled, by its share of its own size. */
function halves(
  { extents, open }: Candidate,
  whole: ReadonlyMap<Variable, Interval>,
): readonly ReadonlyMap<Variable, Interval>[] {
  const shareOf = (variable: Variable) =>
    relativeWidth(extents.get(variable) as Interval, whole.get(variable) as Interval);
  const widest = open.reduce((a, b) => (shareOf(b) > shareOf(a) ? b : a));
  const extent = extents.get(widest) as Interval;
  const middle = middleOf(extent);
  return [
    new Map(extents).set(widest, { low: extent.low, high: middle }),
    new Map(extents).set(widest, { low: middle, high: extent.high }),
  ];
}

function relativeWidth(extent: Interval, whole: Interval): number {
  const all = widthOf(whole);
  return all === 0 ? 0 : widthOf(extent) / all;
}

function widthOf({ low, high }: Interval): number {
  return low === null || high === null ? Number.MAX_VALUE : rational.toDouble(rational.subtract(high, low));
}

function reached(bound: Rational, inner: Rational | null, width: Rational | null, side: 1 | -1): boolean {
  if (inner === null) return false;
  const gap = side > 0 ? rational.subtract(bound, inner) : rational.subtract(inner, bound);
  if (rational.sign(gap) <= 0) return true;
  return width !== null && rational.compare(gap, rational.multiply(width, RESOLUTION)) <= 0;
}

function further(a: Rational | null, b: Rational | null, side: 1 | -1): Rational | null {
  if (a === null || b === null) return a ?? b;
  return rational.compare(a, b) * side >= 0 ? a : b;
}

/** Whether part a has to be looked at before part b: its bound is further out (an open bound is furthest). */
function comesBefore(a: Candidate, b: Candidate, side: 1 | -1): boolean {
  if (a.bound === null || b.bound === null) return a.bound === null && b.bound !== null;
  return rational.compare(a.bound, b.bound) * side > 0;
}

/** Keeps the array a binary heap. */
function insert(heap: Candidate[], added: Candidate, side: 1 | -1): void {
  heap.push(added);
  let index = heap.length - 1;
  while (index > 0) {
    const above = (index - 1) >> 1;
    if (!comesBefore(heap[index] as Candidate, heap[above] as Candidate, side)) return;
    swap(heap, index, above);
    index = above;
  }
}

function takeFirst(heap: Candidate[], side: 1 | -1): void {
  const last = heap.pop();
  if (last === undefined || heap.length === 0) return;
  heap[0] = last;
  let index = 0;
  for (;;) {
    const children = [2 * index + 1, 2 * index + 2].filter((child) => child < heap.length);
    const [first, second] = children;
    if (first === undefined) return;
    const best =
      second !== undefined && comesBefore(heap[second] as Candidate, heap[first] as Candidate, side) ? second : first;
    if (!comesBefore(heap[best] as Candidate, heap[index] as Candidate, side)) return;
    swap(heap, index, best);
    index = best;
  }
}

function swap(heap: Candidate[], a: number, b: number): void {
  const kept = heap[a] as Candidate;
  heap[a] = heap[b] as Candidate;
  heap[b] = kept;
}

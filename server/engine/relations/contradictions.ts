/** Limits on one expression that apply together and cannot all hold: each is held against the strictest of those before it. */
import type { Rational } from '../../quantity/rational';
import * as rational from '../../quantity/rational';
import { isBinding } from '../binding';
import {
  type Allowed,
  type Bound,
  type Bounds,
  compareStrictness,
  type Gap,
  gapBetween,
  type Side,
  sidesAgainst,
} from './allowed';
import type { Limit } from './limit';

export interface Contradiction {
  /** The one that came last. */
  readonly later: Limit;
  /** What it cannot hold together with; the later one itself where it contradicts itself. */
  readonly earlier: readonly Limit[];
  /** Both requirements bind. */
  readonly isBinding: boolean;
  /** Null for words and for a figure that is asked for and excluded. */
  readonly gap: Gap | null;
}

/** @param limits of all requirements, in file and text order. Each limit is found at most once. */
export function contradictionsOf(limits: readonly Limit[]): readonly Contradiction[] {
  const binding = new Map<string, Strictest>();
  const all = new Map<string, Strictest>();
  return limits.flatMap((limit) => {
    const binds = isBinding(limit.result.requirement);
    const hard = binds ? hold(limit, binding) : null;
    const soft = hold(limit, all);
    const found = hard ?? soft;
    return found === null ? [] : [{ later: limit, ...found, isBinding: hard !== null }];
  });
}

type Clash = Pick<Contradiction, 'earlier' | 'gap'>;

/** What the limits so far leave of one expression, and which of them leave it so. */
interface Strictest {
  readonly sides: Map<Side, Held>;
  /** Figures that are excluded, by their digits. */
  readonly exceptions: Map<string, Limit>;
  /** The words that are left; null while none are listed. */
  listed: Set<string> | null;
  readonly excluded: Set<string>;
  /** The limits on words that took something away. */
  readonly by: Limit[];
}

type Words = Allowed & { type: 'words' };
type Figures = Allowed & { type: 'figures' };

/** Of many limits on words that leave nothing together so many are named. */
const MOST_EARLIER = 6;

interface Held {
  readonly bound: Bound;
  readonly limit: Limit;
}

/** Holds a limit against those before it in each of its modes, and adds it to them where it fits. */
function hold(limit: Limit, before: Map<string, Strictest>): Clash | null {
  const states = limit.modes.map((mode) => stateOf(before, `${limit.subject}\n${limit.when}\n${mode}`));
  const clash = firstOf(states, (state) => clashIn(limit, state));
  if (clash === null) for (const state of states) add(limit, state);
  return clash;
}

function stateOf(before: Map<string, Strictest>, key: string): Strictest {
  const known = before.get(key);
  if (known !== undefined) return known;
  const created: Strictest = {
    sides: new Map(),
    exceptions: new Map(),
    listed: null,
    excluded: new Set(),
    by: [],
  };
  before.set(key, created);
  return created;
}

function clashIn(limit: Limit, state: Strictest): Clash | null {
  const { allowed } = limit;
  if (allowed.type === 'words') return wordClash(allowed, state);
  return sideClash(limit, allowed, state) ?? exclusionClash(limit, allowed, state);
}

function wordClash({ words, among }: Words, { listed, excluded, by }: Strictest): Clash | null {
  const isLeft = among
    ? [...words].some((word) => !excluded.has(word) && (listed === null || listed.has(word)))
    : listed === null || [...words].filter((word) => listed.has(word)).length < listed.size;
  return isLeft ? null : { earlier: by.slice(0, MOST_EARLIER), gap: null };
}

function sideClash(limit: Limit, { bounds }: Figures, { sides }: Strictest): Clash | null {
  return firstOf(sidesOf(bounds), ([side, bound]) =>
    firstOf(sidesAgainst(side), (other) => {
      const own = bounds[other];
      const held = own === undefined ? sides.get(other) : { bound: own, limit };
      const strictest = stricter(other, held, sides.get(other));
      const gap = strictest === undefined ? null : gapBetween(side, bound, strictest.bound);
      return gap === null || strictest === undefined ? null : { earlier: [strictest.limit], gap };
    }),
  );
}

/** One figure is left, and it is excluded. */
function exclusionClash(limit: Limit, allowed: Figures, state: Strictest): Clash | null {
  const from = stricterBound('from', allowed, limit, state);
  const to = stricterBound('to', allowed, limit, state);
  if (from === undefined || to === undefined || !rational.equals(from.bound.value, to.bound.value)) return null;
  const only = from.bound.value;
  if (allowed.except !== null && rational.equals(allowed.except, only))
    return { earlier: [...new Set([from.limit, to.limit])], gap: null };
  const excluding = state.exceptions.get(digitsOf(only));
  return excluding === undefined ? null : { earlier: [excluding], gap: null };
}

function stricterBound(side: Side, { bounds }: Figures, limit: Limit, { sides }: Strictest) {
  const bound = bounds[side];
  return stricter(side, sides.get(side), bound === undefined ? undefined : { bound, limit });
}

/** The stricter of two, the first where they are equally strict. */
function stricter(side: Side, a: Held | undefined, b: Held | undefined): Held | undefined {
  if (a === undefined || b === undefined) return a ?? b;
  return compareStrictness(side, a.bound, b.bound) >= 0 ? a : b;
}

function add(limit: Limit, state: Strictest): void {
  const { allowed } = limit;
  if (allowed.type === 'words') {
    addWords(limit, allowed, state);
    return;
  }
  if (allowed.except !== null) state.exceptions.set(digitsOf(allowed.except), limit);
  for (const [side, bound] of sidesOf(allowed.bounds)) {
    const strictest = stricter(side, state.sides.get(side), { bound, limit });
    if (strictest !== undefined) state.sides.set(side, strictest);
  }
}

/** A limit that takes nothing away is no part of what leaves so little. */
function addWords(limit: Limit, { words, among }: Words, state: Strictest): void {
  const before = { listed: state.listed?.size, excluded: state.excluded.size };
  if (among)
    state.listed = new Set([...words].filter((word) => !state.excluded.has(word) && (state.listed?.has(word) ?? true)));
  else
    for (const word of words) {
      state.excluded.add(word);
      state.listed?.delete(word);
    }
  if (state.listed?.size !== before.listed || state.excluded.size !== before.excluded) state.by.push(limit);
}

function sidesOf(bounds: Bounds): readonly (readonly [Side, Bound])[] {
  const sides: [Side, Bound][] = [];
  for (const side of Object.keys(bounds) as Side[]) {
    const bound = bounds[side];
    if (bound !== undefined) sides.push([side, bound]);
  }
  return sides;
}

function digitsOf({ numerator, denominator }: Rational): string {
  return `${numerator}/${denominator}`;
}

function firstOf<Item, Found>(items: readonly Item[], find: (item: Item) => Found | null): Found | null {
  for (const item of items) {
    const found = find(item);
    if (found !== null) return found;
  }
  return null;
}

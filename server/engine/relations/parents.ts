/** Limits of derived requirements against those that they derive from: weaker ones, and ones stricter by more than the headroom. */
import type { Headroom } from '../../model/headroom';
import { isComparable } from '../../quantity/dimension';
import type { Rational } from '../../quantity/rational';
import * as rational from '../../quantity/rational';
import type { Unit } from '../../quantity/unit';
import {
  type Allowed,
  type Bound,
  type Bounds,
  compareStrictness,
  gapBetween,
  implies,
  implyingSides,
  isLowerSide,
  type Side,
  sidesAgainst,
  wordsImply,
} from './allowed';
import type { Limit } from './limit';

export type ParentMismatch =
  /** `side`, `bound`: what the parent asks for and the child's does not imply; null for words. `own` is null where the child says nothing of that side. */
  | {
      readonly type: 'weaker';
      readonly child: Limit;
      readonly parent: Limit;
      readonly side: { readonly side: Side; readonly bound: Bound; readonly own: Bound | null } | null;
    }
  | {
      readonly type: 'tighter';
      readonly child: Limit;
      readonly parent: Limit;
      readonly side: Side;
      readonly own: Bound;
      readonly bound: Bound;
      /** The limit at which the headroom would be used up. */
      readonly relaxed: Rational;
      /** How much stricter: a share of the stricter limit, or null where the headroom is a distance. */
      readonly share: Rational | null;
    };

/**
 * @param children the limits of the derived requirement
 * @param parents the limits of the one it derives from
 * @param headroom by the child's limit; null where none can be applied
 */
export function parentMismatches(
  children: readonly Limit[],
  parents: readonly Limit[],
  headroom: (child: Limit) => Headroom | null,
): readonly ParentMismatch[] {
  const byExpression = new Map<string, Limit[]>();
  for (const child of children) {
    const key = expressionOf(child);
    byExpression.set(key, [...(byExpression.get(key) ?? []), child]);
  }
  return parents.flatMap((parent) => {
    const own = (byExpression.get(expressionOf(parent)) ?? []).filter((child) => shareMode(child, parent));
    return own.length === 0 ? [] : mismatches(own, parent, headroom);
  });
}

function expressionOf({ subject, when }: Limit): string {
  return `${subject}\n${when}`;
}

function shareMode(a: Limit, b: Limit): boolean {
  return a.modes.some((mode) => b.modes.includes(mode));
}

function mismatches(
  children: readonly Limit[],
  parent: Limit,
  headroom: (child: Limit) => Headroom | null,
): readonly ParentMismatch[] {
  const { allowed } = parent;
  if (allowed.type === 'words') return wordMismatches(children, parent, allowed);
  const strictest = strictestOf(children);
  const sides = (Object.keys(allowed.bounds) as Side[]).filter((side) => allowed.bounds[side] !== undefined);
  // Who takes over no side of a limit speaks of something else; who contradicts it has been told so.
  const isTakenOver = sides.some((side) => implyingSides(side).some((own) => strictest.has(own)));
  if (!isTakenOver || contradicts(strictest, allowed.bounds)) return [];
  const bounds = Object.fromEntries([...strictest].map(([side, { bound }]) => [side, bound])) as Bounds;
  const missed = sides.find((side) => !implies(bounds, side, allowed.bounds[side] as Bound));
  if (missed !== undefined) return [weaker(children, parent, missed, allowed.bounds[missed] as Bound, strictest)];
  return sides.flatMap((side) => tighter(parent, side, allowed.bounds, strictest.get(side), headroom)).slice(0, 1);
}

interface Held {
  readonly bound: Bound;
  readonly limit: Limit;
}

function strictestOf(limits: readonly Limit[]): ReadonlyMap<Side, Held> {
  const strictest = new Map<Side, Held>();
  for (const limit of limits) {
    if (limit.allowed.type === 'words') continue;
    for (const [side, bound] of Object.entries(limit.allowed.bounds) as [Side, Bound][]) {
      const known = strictest.get(side);
      if (known === undefined || compareStrictness(side, bound, known.bound) > 0) strictest.set(side, { bound, limit });
    }
  }
  return strictest;
}

function contradicts(strictest: ReadonlyMap<Side, Held>, bounds: Bounds): boolean {
  return [...strictest].some(([side, { bound }]) =>
    sidesAgainst(side).some((other) => {
      const against = bounds[other];
      return against !== undefined && gapBetween(side, bound, against) !== null;
    }),
  );
}

function weaker(
  children: readonly Limit[],
  parent: Limit,
  side: Side,
  bound: Bound,
  strictest: ReadonlyMap<Side, Held>,
): ParentMismatch {
  const own = strictest.get(side);
  const child = own?.limit ?? (children[0] as Limit);
  return { type: 'weaker', child, parent, side: { side, bound, own: own?.bound ?? null } };
}

function wordMismatches(
  children: readonly Limit[],
  parent: Limit,
  allowed: Allowed & { type: 'words' },
): readonly ParentMismatch[] {
  const ofWords = children.filter((child) => child.allowed.type === 'words');
  const isImplied = ofWords.some((child) => wordsImply(child.allowed as Allowed & { type: 'words' }, allowed));
  const overlaps = (child: Limit) =>
    child.allowed.type === 'words' &&
    (!child.allowed.among || [...child.allowed.words].some((word) => allowed.words.has(word) === allowed.among));
  const [child] = ofWords.filter(overlaps);
  return isImplied || child === undefined ? [] : [{ type: 'weaker', child, parent, side: null }];
}

/** Stricter by more than the headroom: a share of the limit, or a distance where one is given. */
function tighter(
  parent: Limit,
  side: Side,
  bounds: Bounds,
  own: Held | undefined,
  headroomOf: (child: Limit) => Headroom | null,
): readonly ParentMismatch[] {
  const bound = bounds[side];
  const headroom = own === undefined ? null : headroomOf(own.limit);
  if (own === undefined || bound === undefined || headroom === null) return [];
  const common = { type: 'tighter', child: own.limit, parent, side, own: own.bound, bound } as const;
  if (headroom.type === 'distance') {
    const relaxed = isLowerSide(side)
      ? rational.add(bound.value, headroom.distance)
      : rational.subtract(bound.value, headroom.distance);
    return isBeyond(side, own.bound.value, relaxed) ? [{ ...common, relaxed, share: null }] : [];
  }
  if (!isPlainRatio(own, bound, bounds)) return [];
  const factor = rational.add(rational.ONE, headroom.share);
  const relaxed = isLowerSide(side) ? rational.multiply(bound.value, factor) : rational.divide(bound.value, factor);
  if (!isBeyond(side, own.bound.value, relaxed)) return [];
  return [{ ...common, relaxed, share: rational.subtract(ratioOf(side, own.bound, bound), rational.ONE) }];
}

function isBeyond(side: Side, value: Rational, relaxed: Rational): boolean {
  return rational.compare(value, relaxed) * (isLowerSide(side) ? 1 : -1) > 0;
}

function ratioOf(side: Side, own: Bound, bound: Bound): Rational {
  return isLowerSide(side) ? rational.divide(own.value, bound.value) : rational.divide(bound.value, own.value);
}

/** A share means something of one positive limit on a scale with a true zero. */
function isPlainRatio({ limit, bound }: Held, of: Bound, bounds: Bounds): boolean {
  const isSingle = Object.keys(bounds).length === 1;
  return isSingle && !isPoint(limit.unit) && rational.sign(bound.value) > 0 && rational.sign(of.value) > 0;
}

function isPoint(unit: Unit | null): boolean {
  return unit?.point !== null;
}

/** Whether a headroom can be held against the limit: any share, and a distance of its dimension. */
export function headroomFits(headroom: Headroom, { unit }: Limit): boolean {
  return headroom.type === 'share' || (unit !== null && isComparable(headroom.dimension, unit.dimension));
}

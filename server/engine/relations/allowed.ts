/** What a criterion leaves its expression to be: bounds on figures, or a list of words; and whether two such leave anything. */
import type { Rational } from '../../quantity/rational';
import * as rational from '../../quantity/rational';

/** A limit in base units; strict when it is itself not allowed. */
export interface Bound {
  readonly value: Rational;
  readonly strict: boolean;
}

/**
 * The sides on which figures are bound. `from`, `to`: every value is at least, at most so much. `down`, `up`: some value
 * is as low, as high as that, which is what *spans* asks for.
 */
export type Side = 'from' | 'to' | 'down' | 'up';

export type Bounds = Readonly<Partial<Record<Side, Bound>>>;

export type Allowed =
  /** `except`: a figure that no value may be (`!=`). */
  | { readonly type: 'figures'; readonly bounds: Bounds; readonly except: Rational | null }
  /** One of the words or, where not `among`, anything but them. Yes and no are words too. */
  | { readonly type: 'words'; readonly words: ReadonlySet<string>; readonly among: boolean };

/** Two sides that do not meet: the value would have to be at least `low` and at most `high`, which lies below. */
export interface Gap {
  readonly low: Bound;
  readonly high: Bound;
}

/** Sides that bound one and the same value from below and from above. */
const OPPOSITE_SIDES: readonly (readonly [low: Side, high: Side])[] = [
  ['from', 'to'],
  ['from', 'down'],
  ['up', 'to'],
];

/** The sides that hold a bound against a new one on `side`. */
export function sidesAgainst(side: Side): readonly Side[] {
  return OPPOSITE_SIDES.flatMap(([low, high]) => (low === side ? [high] : high === side ? [low] : []));
}

/** Whether a bound on this side keeps values from being lower. */
export function isLowerSide(side: Side): boolean {
  return side === 'from' || side === 'up';
}

/** Null when something satisfies both. `side` and `other` are opposite. */
export function gapBetween(side: Side, own: Bound, against: Bound): Gap | null {
  const [low, high] = isLowerSide(side) ? [own, against] : [against, own];
  const order = rational.compare(low.value, high.value);
  return order > 0 || (order === 0 && (low.strict || high.strict)) ? { low, high } : null;
}

/** Positive when a is the stricter of two bounds on one side, negative when b is. */
export function compareStrictness(side: Side, a: Bound, b: Bound): number {
  const order = rational.compare(a.value, b.value) || Number(a.strict) - Number(b.strict);
  // On an upper side the smaller figure is stricter, but at one figure the end that is left out always is.
  if (isLowerSide(side) || rational.equals(a.value, b.value)) return order;
  return -order;
}

/** Whether whatever keeps the first bounds keeps this bound too. */
export function implies(bounds: Bounds, side: Side, bound: Bound): boolean {
  return implyingSides(side).some((own) => {
    const kept = bounds[own];
    return kept !== undefined && compareStrictness(side, kept, bound) >= 0;
  });
}

/** Every value at least so much means that some value is as high; likewise below. */
export function implyingSides(side: Side): readonly Side[] {
  if (side === 'up') return ['up', 'from'];
  return side === 'down' ? ['down', 'to'] : [side];
}

/** Whether every word that the first allows is allowed by the second. */
export function wordsImply(a: Allowed & { type: 'words' }, b: Allowed & { type: 'words' }): boolean {
  if (!a.among) return !b.among && [...b.words].every((word) => a.words.has(word));
  return [...a.words].every((word) => b.words.has(word) === b.among);
}

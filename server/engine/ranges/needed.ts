/** Where a figure would have to be for a broken requirement to be met, none that is met now breaking; or what forbids it. */
import type { Rational } from '../../quantity/rational';
import * as rational from '../../quantity/rational';
import type { Part } from '../claims';
import { holdsOver, isNoValue } from '../enclosure';
import { both, contains, type End, EVERYWHERE, type Solution } from './affine';
import type { AllowedRange } from './allowed';
import { type Demand, holds, supportOf } from './demand';
import { extentsBetween, type Figure } from './figure';
import { variablesOf } from './figures';
import { lastPermitted, nextPermitted } from './permitted';
import { furthest, narrowed } from './search';
import type { Solver } from './solver';

export type Needed =
  /** The interval nearest to where the figure is now; an open end is null, a strict one is itself not allowed. */
  | ({ readonly type: 'range' } & Solution)
  /** The requirement or neighbour that stands in the way; empty where the figure alone cannot. */
  | { readonly type: 'none'; readonly forbiddenBy: string }
  /** Not found, and not shown that there is none. */
  | { readonly type: 'not-shown' };

const ALONE: Needed = { type: 'none', forbiddenBy: '' };
const NOT_SHOWN: Needed = { type: 'not-shown' };

/** @param allowed where all requirements stay met that are met now */
export function neededRange(solver: Solver, figure: Figure, demand: Demand, allowed: AllowedRange): Needed {
  if (demand.isOpen) return ALONE;
  const variables = variablesOf(figure);
  let solution: Solution | 'nowhere' = EVERYWHERE;
  const tried: Part[] = [];
  for (const part of demand.parts) {
    if (!variables.some((variable) => supportOf(part).has(variable))) {
      if (!holds(solver.finder, part)) return ALONE;
      continue;
    }
    const own = solver.solution(part, figure) ?? guessed(solver, part, figure);
    if (own === null) tried.push(part);
    else solution = both(solution, own);
  }
  if (solution === 'nowhere') return ALONE;
  return tried.length === 0 ? straight(figure, solution, allowed) : searched(solver, figure, tried, solution, allowed);
}

/** Where the corner that is worst now says that the part holds, and it does there, though just before it did not. */
function guessed(solver: Solver, part: Part, figure: Figure): Solution | null {
  const guess = solver.guess(part, figure);
  const end = guess && (guess.low ?? guess.high);
  if (guess === null || end === null || (guess.low !== null && guess.high !== null)) return null;
  const direction = guess.low !== null ? 1 : -1;
  if (rational.compare(end.value, figure.now) * direction <= 0 || end.strict) return null;
  const limit = direction > 0 ? figure.highest : figure.lowest;
  const test = (to: Rational | null) => solver.holdsBetween(part, figure, end.value, to, direction);
  return test(limit?.value ?? null) ? guess : null;
}

function straight(figure: Figure, solution: Solution, allowed: AllowedRange): Needed {
  const range = both(solution, allowed);
  if (range === 'nowhere') return { type: 'none', forbiddenBy: forbidding(solution, allowed) };
  const permitted = permittedIn(figure, range);
  return permitted === null ? ALONE : { type: 'range', ...permitted };
}

/** What stands at the end of the allowed range that the needed one lies behind. */
function forbidding(solution: Solution, { low, high }: AllowedRange): string {
  const isAbove = solution.low !== null && high !== null && rational.compare(solution.low.value, high.value) >= 0;
  return (isAbove ? high : low)?.by ?? '';
}

/** The permitted values in a range; null where there is none. */
export function permittedIn(figure: Figure, range: Solution): Solution | null {
  if (figure.steps.type === 'continuous') return range;
  const inside = (value: Rational | null): value is Rational => value !== null && contains(range, value);
  const first = [firstFrom(figure, range, 1), firstFrom(figure, range, -1)].filter(inside);
  if (first.length === 0) return null;
  const [nearest] = first.toSorted((a, b) => rational.compare(distance(figure, a), distance(figure, b)));
  return runFrom(figure, range, nearest as Rational);
}

function distance({ now }: Figure, at: Rational): Rational {
  return rational.absolute(rational.subtract(at, now));
}

/** The permitted value nearest to now that is not yet past the range. */
function firstFrom(figure: Figure, { low, high }: Solution, direction: 1 | -1): Rational | null {
  const end = direction > 0 ? low : high;
  const isBehind = end !== null && rational.compare(end.value, figure.now) * direction > 0;
  if (!isBehind) return contains({ low, high }, figure.now) ? figure.now : nextPermitted(figure, figure.now, direction);
  const before = nextPermitted(figure, end.value, direction === 1 ? -1 : 1) ?? figure.now;
  const next = nextPermitted(figure, before, direction);
  return next !== null && !contains({ low, high }, next) ? nextPermitted(figure, next, direction) : next;
}

function runFrom(figure: Figure, range: Solution, start: Rational): Solution {
  const closed = (value: Rational) => ({ value, strict: false });
  if (figure.steps.type === 'whole') {
    const last = (direction: 1 | -1) => {
      const end = direction > 0 ? range.high : range.low;
      return end && closed(lastWhole(range, end.value, direction));
    };
    return { low: last(-1), high: last(1) };
  }
  const passes = (value: Rational) => contains(range, value);
  const last = (direction: 1 | -1) => closed(lastPermitted(figure, start, direction, passes) ?? start);
  return { low: last(-1), high: last(1) };
}

/** The last whole number inside an end. */
export function lastWhole(range: Solution, end: Rational, direction: 1 | -1): Rational {
  const whole = direction > 0 ? rational.floor(end) : rational.ceiling(end);
  return contains(range, whole) ? whole : rational.subtract(whole, rational.integer(direction));
}

/** Steps away from where a figure is, beside its size, at which a met requirement is looked for: small ones first. */
const FIRST_STEP = -12;
const LAST_STEP = 30;

/** Tries places in both directions and takes the nearer interval that is allowed. */
function searched(
  solver: Solver,
  figure: Figure,
  parts: readonly Part[],
  solution: Solution,
  allowed: AllowedRange,
): Needed {
  const necessary = [solution, ...parts.map((part) => solver.necessary(part, figure))];
  const passes = (at: Rational) =>
    necessary.every((one) => contains(one, at)) && parts.every((part) => solver.holdsAt(part, figure, at));
  const isStepped = figure.steps.type !== 'continuous';
  const near = ([1, -1] as const)
    .flatMap((direction) => {
      const found = isStepped ? nearestStep(figure, direction, passes) : nearestPlace(figure, direction, passes);
      if (found === null || !hasValueUpTo(solver, figure, parts, found.value, direction)) return [];
      return [{ direction, near: found, at: found.value }];
    })
    .toSorted((a, b) => rational.compare(distance(figure, a.at), distance(figure, b.at)));
  if (solver.isExhausted) return NOT_SHOWN;
  const free = near.find(({ at, near: end }) => contains(allowed, at) && !end.strict);
  if (free !== undefined && isBeyondZero(figure, free.at)) return NOT_SHOWN;
  if (free !== undefined) return extended(solver, figure, parts, both(solution, allowed), free, passes);
  const [blocked] = near;
  if (blocked !== undefined) {
    const end = blocked.direction > 0 ? allowed.high : allowed.low;
    return { type: 'none', forbiddenBy: end?.by ?? '' };
  }
  return !solver.isExhausted && isImpossible(solver, figure, parts) ? ALONE : NOT_SHOWN;
}

/** A power of less than nothing is no mend that is worth a long search. */
export function isBeyondZero({ now, value }: Figure, at: Rational): boolean {
  return value.unit.point === null && rational.sign(now) * rational.sign(at) < 0;
}

/** Behind a place without value, as behind a divisor of zero, lies another design, not a nearer one. */
function hasValueUpTo(
  { finder }: Solver,
  figure: Figure,
  parts: readonly Part[],
  at: Rational,
  direction: 1 | -1,
): boolean {
  const moved = finder.with(extentsBetween(figure, figure.now, at, direction));
  return parts.every((part) => part.type === 'clause' || !isNoValue(moved.extremes(part.distance, 'full')));
}

function nearestStep(figure: Figure, direction: 1 | -1, passes: (at: Rational) => boolean): End | null {
  const last = lastPermitted(figure, figure.now, direction, (at) => !passes(at));
  const next = last && nextPermitted(figure, last, direction);
  return next !== null && passes(next) ? { value: next, strict: false } : null;
}

/** The nearest place that passes, to within the search's own closeness. */
function nearestPlace(figure: Figure, direction: 1 | -1, passes: (at: Rational) => boolean): End | null {
  const { now, value } = figure;
  const unit = value.unit.factor;
  const size = rational.sign(now) === 0 ? unit : rational.absolute(now);
  let failed = now;
  for (let step = FIRST_STEP; step <= LAST_STEP; step += 1) {
    const offset = rational.multiply(size, powerOfTwo(step));
    const at = direction > 0 ? rational.add(now, offset) : rational.subtract(now, offset);
    if (isPast(figure, at, direction)) return null;
    if (passes(at)) return narrowed(passes, { good: at, bad: failed }, size, unit);
    failed = at;
  }
  return null;
}

function powerOfTwo(exponent: number): Rational {
  return rational.power(rational.integer(2), exponent);
}

function isPast({ lowest, highest }: Figure, at: Rational, direction: 1 | -1): boolean {
  const end = direction > 0 ? highest : lowest;
  return end !== null && rational.compare(at, end.value) * direction > 0;
}

/** From the near end on as far as the parts hold all the way. */
function extended(
  solver: Solver,
  figure: Figure,
  parts: readonly Part[],
  within: Solution | 'nowhere',
  { at, direction }: { readonly at: Rational; readonly direction: 1 | -1 },
  passes: (at: Rational) => boolean,
): Needed {
  if (within === 'nowhere') return NOT_SHOWN;
  const limit = (direction > 0 ? within.high : within.low)?.value ?? null;
  const far =
    figure.steps.type === 'continuous'
      ? furthest(
          (to) => parts.every((part) => solver.holdsBetween(part, figure, at, to, direction)),
          at,
          direction,
          limit,
          figure.value.unit.factor,
        )
      : {
          value: lastPermitted(figure, at, direction, (value) => contains(within, value) && passes(value)) ?? at,
          strict: false,
        };
  const [near, end] = [
    { value: at, strict: false },
    far && { value: far.value, strict: far.strict || isStrict(within, far.value) },
  ];
  if (solver.isExhausted) return NOT_SHOWN;
  return { type: 'range', low: direction > 0 ? near : end, high: direction > 0 ? end : near };
}

function isStrict({ low, high }: Solution, at: Rational): boolean {
  return [low, high].some((end) => end?.strict === true && rational.equals(end.value, at));
}

/** Some part that the figure moves holds nowhere, wherever it is. */
function isImpossible({ finder }: Solver, figure: Figure, parts: readonly Part[]): boolean {
  return parts.some(
    (part) =>
      part.type === 'side' &&
      ([1, -1] as const).every((direction) => {
        const end = direction > 0 ? figure.highest : figure.lowest;
        const moved = finder.with(extentsBetween(figure, figure.now, end?.value ?? null, direction));
        const found = moved.extremes(part.distance, 'full');
        return !isNoValue(found) && holdsOver(part.relation, found.outer) === false;
      }),
  );
}

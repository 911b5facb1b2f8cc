/** The largest interval around a figure in which every requirement that is met stays met, and what binds each end. */
import type { Rational } from '../../quantity/rational';
import * as rational from '../../quantity/rational';
import type { Part } from '../claims';
import { contains, type End, type Solution, stricter } from './affine';
import type { Demand } from './demand';
import type { Figure, Neighbour } from './figure';
import { beyond, furthest } from './search';
import type { Solver } from './solver';

/** An end and what stands there. */
export interface BoundEnd extends End {
  /** The requirement that would break, or the neighbour that would be met; null for zero. */
  readonly by: string | null;
}

export interface AllowedRange {
  readonly low: BoundEnd | null;
  readonly high: BoundEnd | null;
}

/** A demand with those of its parts that the figure moves. */
export interface Touched {
  readonly demand: Demand;
  readonly parts: readonly Part[];
}

/** Null where it cannot be shown that the requirements are met where the figure is now. */
export function allowedRange(solver: Solver, figure: Figure, met: readonly Touched[]): AllowedRange | null {
  let range = betweenNeighbours(figure);
  const tried: { readonly demand: Demand; readonly part: Part }[] = [];
  for (const { demand, parts } of met) {
    for (const part of parts) {
      const solution = solver.solution(part, figure);
      if (solution === null) tried.push({ demand, part });
      else if (solution === 'nowhere' || !contains(solution, figure.now)) return null;
      else range = narrowedBy(range, solution, demand.requirement.id);
    }
  }
  for (const { demand, part } of tried) {
    if (!solver.holdsAt(part, figure, figure.now)) return null;
    const ends = triedEnds(solver, figure, part, range);
    if (ends === 'unknown') return null;
    range = narrowedBy(range, ends, demand.requirement.id);
  }
  return tried.length > 0 && solver.isExhausted ? null : range;
}

function betweenNeighbours({ lowest, highest }: Figure): AllowedRange {
  return { low: endAt(lowest), high: endAt(highest) };
}

function endAt(neighbour: Neighbour | null): BoundEnd | null {
  return neighbour && { value: neighbour.value, strict: false, by: neighbour.name };
}

/** Of ends at one place the first one found stays. */
export function narrowedBy(range: AllowedRange, { low, high }: Solution, by: string): AllowedRange {
  return {
    low: stricter<BoundEnd>(range.low, low && { by, ...low }, 1),
    high: stricter<BoundEnd>(range.high, high && { by, ...high }, -1),
  };
}

/** *unknown* where an end was not shown to be one: past it the part holds as well, only not on all of the way there. */
function triedEnds(solver: Solver, figure: Figure, part: Part, { low, high }: AllowedRange): Solution | 'unknown' {
  const down = triedEnd(solver, figure, part, -1, low);
  const up = triedEnd(solver, figure, part, 1, high);
  return down === 'unknown' || up === 'unknown' ? 'unknown' : { low: down, high: up };
}

/** Null where the end that is known already stays. */
function triedEnd(
  solver: Solver,
  figure: Figure,
  part: Part,
  direction: 1 | -1,
  limit: End | null,
): End | null | 'unknown' {
  const known = solver.straightEnd(part, figure, direction) ?? solver.guessedEnd(part, figure, direction);
  if (known === 'free') return null;
  if (known !== null)
    return limit === null || rational.compare(known.value, limit.value) * direction < 0 ? known : null;
  const test = (to: Rational | null) => solver.holdsBetween(part, figure, figure.now, to, direction);
  const { factor } = figure.value.unit;
  const end = furthest(test, figure.now, direction, limit?.value ?? null, factor);
  if (end === null || (limit !== null && rational.equals(end.value, limit.value))) return null;
  const past = end.strict ? end.value : beyond(end.value, direction, factor);
  return solver.holdsAt(part, figure, past) ? 'unknown' : end;
}

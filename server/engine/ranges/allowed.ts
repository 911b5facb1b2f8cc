/** The largest interval around a figure in which every requirement that is met stays met, and what binds each end. */
import type { Rational } from '../../quantity/rational';
import * as rational from '../../quantity/rational';
import type { Part, Side } from '../claims';
import type { ExtremeFinder } from '../extremes';
import { contains, cornerSlopesOf, type End, type Slopes, type Solution, slopesOf, solve, stricter } from './affine';
import { cleared } from './cleared';
import { type Demand, holds, supportOf } from './demand';
import { extentsAt, extentsBetween, type Figure, type Neighbour } from './figure';
import { beyond, furthest } from './search';

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

/** A side without divisors, and its slopes where it is worst. */
interface Corner {
  readonly side: Side;
  readonly slopes: Slopes;
}

/** Nodes of terms that are looked at for all figures of a product together: counted, never timed. */
const MOST_WORK = 1_500_000;

/** Slopes of each side, found once for all figures in it; and what is tried where slopes say nothing, while there is work left. */
export class Solver {
  private readonly slopes = new WeakMap<Part, Slopes>();
  private readonly corners = new WeakMap<Part, Corner>();

  private readonly start: number;

  constructor(readonly finder: ExtremeFinder) {
    this.start = finder.work;
  }

  /** What was tried since is not to be believed: it was not looked at. */
  get isExhausted(): boolean {
    return this.finder.work - this.start > MOST_WORK;
  }

  /** In a straight line, and sure to hold where the figure is now where the part does; null where it has to be tried. */
  solution(part: Part, figure: Figure): Solution | 'nowhere' | null {
    if (part.type === 'clause') return null;
    const known = this.slopes.get(part);
    const slopes = known ?? slopesOf(this.finder, part);
    if (known === undefined) this.slopes.set(part, slopes);
    return solve(part, slopes, figure, supportOf(part));
  }

  /** As a solution, but only as good as the corner in which the distance is worst now: to be tried. */
  guess(part: Part, figure: Figure): Solution | null {
    if (part.type === 'clause') return null;
    if (part.relation === '=' || part.relation === '!=') return null;
    const known = this.corners.get(part);
    const corner = known ?? this.corner(part);
    if (known === undefined) this.corners.set(part, corner);
    const solution = solve(corner.side, corner.slopes, figure, supportOf(part));
    return solution === 'nowhere' ? null : solution;
  }

  private corner(part: Side): Corner {
    const side = cleared(this.finder, part);
    const end = side.relation === '<=' || side.relation === '<' ? 'high' : 'low';
    return { side, slopes: cornerSlopesOf(this.finder, side, end) };
  }

  /** Whether the part holds with the figure there. */
  holdsAt(part: Part, figure: Figure, at: Rational): boolean {
    return !this.isExhausted && holds(this.finder.with(extentsAt(figure, at)), part);
  }

  /** Whether the part holds wherever the figure lies on the way. */
  holdsBetween(part: Part, figure: Figure, from: Rational, to: Rational | null, direction: 1 | -1): boolean {
    return !this.isExhausted && holds(this.finder.with(extentsBetween(figure, from, to, direction)), part);
  }
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
function narrowedBy(range: AllowedRange, { low, high }: Solution, by: string): AllowedRange {
  return {
    low: stricter<BoundEnd>(range.low, low && { ...low, by }, 1),
    high: stricter<BoundEnd>(range.high, high && { ...high, by }, -1),
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
  const test = (to: Rational | null) => solver.holdsBetween(part, figure, figure.now, to, direction);
  const guess = guessedEnd(solver, figure, part, direction);
  if (guess !== null && (limit === null || rational.compare(guess.value, limit.value) * direction < 0)) return guess;
  const { factor } = figure.value.unit;
  const end = furthest(test, figure.now, direction, limit?.value ?? null, factor);
  if (end === null || (limit !== null && rational.equals(end.value, limit.value))) return null;
  const past = end.strict ? end.value : beyond(end.value, direction, factor);
  return solver.holdsAt(part, figure, past) ? 'unknown' : end;
}

/** Behind the end that the worst corner gives, that corner breaks the part; that nothing does before is tried once. */
function guessedEnd(solver: Solver, figure: Figure, part: Part, direction: 1 | -1): End | null {
  const guess = solver.guess(part, figure);
  const end = guess && (direction > 0 ? guess.high : guess.low);
  if (end === null || part.type === 'clause') return null;
  const closed: Part = {
    ...part,
    relation: part.relation === '<' ? '<=' : part.relation === '>' ? '>=' : part.relation,
  };
  return solver.holdsBetween(closed, figure, figure.now, end.value, direction) ? end : null;
}

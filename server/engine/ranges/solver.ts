/** Where a part of a demand holds as a figure moves: by its slopes where they say it, by trying where they do not. */
import type { Interval } from '../../quantity/interval';
import * as interval from '../../quantity/interval';
import type { Rational } from '../../quantity/rational';
import * as rational from '../../quantity/rational';
import type { Part, Side } from '../claims';
import type { Box } from '../enclosure';
import type { ExtremeFinder } from '../extremes';
import { gradient } from '../gradient';
import type { Variable } from '../term';
import {
  bentIn,
  both,
  cornerSlopesOf,
  type End,
  EVERYWHERE,
  type Slopes,
  type Solution,
  slopesOf,
  solve,
} from './affine';
import { cleared } from './cleared';
import { holds, supportOf } from './demand';
import { extentsAt, extentsBetween, type Figure, isStraightEverywhere, movingIn, type Rates } from './figure';

/** Nodes of terms that are looked at for all figures of a product together, and for one: counted, never timed. */
const MOST_WORK = 600_000;
const MOST_WORK_A_FIGURE = 40_000;

/** A side, without divisors where it has some, and what is found of it once for all figures. */
interface Straightened {
  readonly side: Side;
  readonly guards: readonly Side[];
  readonly slopes: Slopes;
  /** The slopes where the side is worst now; found when they are first asked for. */
  corner: Slopes | null;
  /** Every slope over everything; null where there is none. */
  readonly everywhere: ReadonlyMap<Variable, Interval> | null;
  readonly bent: ReadonlySet<Variable>;
}

export class Solver {
  private readonly plain = new WeakMap<Side, Slopes>();
  private readonly straightened = new WeakMap<Side, Straightened>();
  private readonly start: number;
  private figure: Figure | null = null;
  private startOfFigure = 0;

  constructor(readonly finder: ExtremeFinder) {
    this.start = finder.work;
  }

  /** What was tried since is not to be believed: it was not looked at. */
  get isExhausted(): boolean {
    return this.finder.work - this.start > MOST_WORK || this.finder.work - this.startOfFigure > MOST_WORK_A_FIGURE;
  }

  /** Each figure has some work of its own. */
  begin(figure: Figure): void {
    if (this.figure === figure) return;
    this.figure = figure;
    this.startOfFigure = this.finder.work;
  }

  /** In a straight line, and sure to hold where the figure is now where the part does; null where it has to be tried. */
  solution(part: Part, figure: Figure): Solution | 'nowhere' | null {
    if (part.type === 'clause') return null;
    const plain = solve(part, this.slopesOf(part), figure, supportOf(part));
    if (plain !== null) return plain;
    const { side, guards, slopes } = this.straighten(part);
    if (guards.length === 0) return null;
    let solution = solve(side, slopes, figure, supportOf(side));
    for (const guard of guards) {
      const own = solve(guard, this.slopesOf(guard), figure, supportOf(guard));
      if (solution === null || own === null) return null;
      solution = both(solution, own);
    }
    return solution;
  }

  /** As a solution, but only as good as the corner in which the distance is worst now: to be tried. */
  guess(part: Part, figure: Figure): Solution | null {
    if (part.type === 'clause' || part.relation === '=' || part.relation === '!=') return null;
    const one = this.straighten(part);
    one.corner ??= cornerSlopesOf(this.finder, one.side, isUpper(one.side) ? 'high' : 'low');
    const solution = solve(one.side, one.corner, figure, supportOf(one.side));
    return solution === 'nowhere' ? null : solution;
  }

  /**
   * The end in a direction where the distance runs straight in the figure, whatever the others are: its greatest value
   * is then convex in the figure, so that an end of the worst corner's is one once the part holds there. *free*: none.
   */
  straightEnd(part: Part, figure: Figure, direction: 1 | -1): End | 'free' | null {
    if (part.type === 'clause' || part.relation === '=' || part.relation === '!=') return null;
    const one = this.straighten(part);
    const moving = movingIn(figure, supportOf(one.side));
    if (moving === null || one.bent.has(moving.variable) || !isStraightEverywhere(figure)) {
      return this.falls(part, figure, direction) ? 'free' : null;
    }
    const guarded = this.guardedEnd(one, figure, direction);
    if (guarded === null) return null;
    const slope = one.everywhere?.get(moving.variable) ?? null;
    if (slope !== null && isHelped(one.side, slope, moving.rates, direction)) return guarded;
    const guess = this.guess(part, figure);
    const end = guess && (direction > 0 ? guess.high : guess.low);
    if (end === null || (guarded !== 'free' && rational.compare(guarded.value, end.value) * direction <= 0))
      return null;
    return this.holdsAt(closed(part), figure, end.value) ? end : null;
  }

  /** Whether the distance, as it stands, runs straight in the figure, whatever the others are. */
  runsStraight(part: Part, figure: Figure): boolean {
    if (part.type === 'clause') return false;
    const moving = movingIn(figure, supportOf(part));
    return moving !== null && isStraightEverywhere(figure) && !bentIn(part.distance).has(moving.variable);
  }

  /** Outside of this the corner that is worst now breaks the part, which runs straight there; everywhere where that is not known. */
  necessary(part: Part, figure: Figure): Solution {
    if (part.type === 'clause') return EVERYWHERE;
    const { side, bent } = this.straighten(part);
    const moving = movingIn(figure, supportOf(side));
    const isStraight = moving !== null && !bent.has(moving.variable) && isStraightEverywhere(figure);
    return (isStraight ? this.guess(part, figure) : null) ?? EVERYWHERE;
  }

  /** Behind the end that the worst corner gives, that corner breaks the part; that nothing does before is tried once. */
  guessedEnd(part: Part, figure: Figure, direction: 1 | -1): End | null {
    const guess = this.guess(part, figure);
    const end = guess && (direction > 0 ? guess.high : guess.low);
    if (end === null || part.type === 'clause') return null;
    return this.holdsBetween(closed(part), figure, figure.now, end.value, direction) ? end : null;
  }

  /** Whether the part holds with the figure there. */
  holdsAt(part: Part, figure: Figure, at: Rational): boolean {
    return !this.isExhausted && holds(this.finder.with(extentsAt(figure, at)), part);
  }

  /** Whether the part holds wherever the figure lies on the way. */
  holdsBetween(part: Part, figure: Figure, from: Rational, to: Rational | null, direction: 1 | -1): boolean {
    return !this.isExhausted && holds(this.finder.with(extentsBetween(figure, from, to, direction)), part);
  }

  private slopesOf(side: Side): Slopes {
    const known = this.plain.get(side);
    if (known !== undefined) return known;
    const slopes = slopesOf(this.finder, side);
    this.plain.set(side, slopes);
    return slopes;
  }

  private straighten(part: Side): Straightened {
    const known = this.straightened.get(part);
    if (known !== undefined) return known;
    const { side, guards } = cleared(this.finder, part) ?? { side: part, guards: [] };
    const straightened: Straightened = {
      side,
      guards,
      slopes: this.slopesOf(side),
      corner: null,
      everywhere: gradient(side.distance, this.finder.box('full')),
      bent: bentIn(side.distance),
    };
    this.straightened.set(part, straightened);
    return straightened;
  }

  /** How far the divisors keep their sign; null where that is not found in a straight line. */
  private guardedEnd({ guards }: Straightened, figure: Figure, direction: 1 | -1): End | 'free' | null {
    let nearest: End | 'free' = 'free';
    for (const guard of guards) {
      const own = solve(guard, this.slopesOf(guard), figure, supportOf(guard));
      if (own === null || own === 'nowhere') return null;
      const end = direction > 0 ? own.high : own.low;
      if (end !== null && (nearest === 'free' || rational.compare(end.value, nearest.value) * direction < 0)) {
        nearest = end;
      }
    }
    return nearest;
  }

  /** Whether the distance moves away from its limit only, wherever the figure goes in that direction. */
  private falls(part: Side, figure: Figure, direction: 1 | -1): boolean {
    const moving = movingIn(figure, supportOf(part));
    if (moving === null || !isStraightEverywhere(figure) || this.isExhausted) return false;
    const box = this.finder.with(extentsBetween(figure, figure.now, null, direction)).box('full');
    const slope = gradient(part.distance, box satisfies Box)?.get(moving.variable) ?? null;
    return slope !== null && isHelped(part, slope, moving.rates, direction);
  }
}

function isUpper({ relation }: Side): boolean {
  return relation === '<=' || relation === '<';
}

/** Whether the end of the figure's extent that counts moves the way in which the distance leaves its limit. */
function isHelped(side: Side, { low, high }: Interval, rates: Rates, direction: 1 | -1): boolean {
  if (interval.isPoint({ low, high }) && low !== null && rational.sign(low) === 0) return true;
  const rises = low !== null && rational.sign(low) >= 0;
  if (!rises && (high === null || rational.sign(high) > 0)) return false;
  const upper = isUpper(side) ? 1 : -1;
  const rate = rises === upper > 0 ? rates.high : rates.low;
  return rational.sign(rate) * direction * (rises ? 1 : -1) * upper <= 0;
}

function closed(part: Part): Part {
  if (part.type === 'clause') return part;
  return { ...part, relation: part.relation === '<' ? '<=' : part.relation === '>' ? '>=' : part.relation };
}

/** How far every given figure may move, and where it would have to be for what is broken to be met. */
import type { Content, Fact } from '../../model/fact';
import type { Requirement } from '../../model/requirement';
import type { Rational } from '../../quantity/rational';
import * as rational from '../../quantity/rational';
import type { Analysis } from '../analysis';
import type { Part } from '../claims';
import type { Criterion } from '../criterion';
import { Lowering } from '../lowering/lowering';
import { type OverSpecified, overSpecified } from '../over-specified';
import type { RequirementResult } from '../requirement-result';
import { finished } from '../steps';
import type { Variable } from '../term';
import { contains } from './affine';
import { type AllowedRange, allowedRange, type BoundEnd, narrowedBy, type Touched } from './allowed';
import { endsBySquares } from './by-squares';
import { type Demand, demandOf, isRemadeBy, supportOf } from './demand';
import type { Figure } from './figure';
import { allFigures, variablesOf } from './figures';
import { marginFalls } from './margin-fall';
import { lastWhole, type Needed, neededRange } from './needed';
import { lastPermitted, nextPermitted } from './permitted';
import { Remaker } from './remade';
import { Solver } from './solver';

export type { AllowedRange, BoundEnd } from './allowed';
export type { Figure } from './figure';
export type { Needed } from './needed';

export interface FigureRanges {
  readonly figure: Figure;
  /** Null where it was not found out, and where only undecided requirements rest on the figure. */
  readonly allowed: AllowedRange | null;
  /** One for each requirement that is unmet or at risk and rests on the figure, in their order. */
  readonly needed: readonly NeededBy[];
  /** Undecided requirements that rest on it: they are not counted. */
  readonly undecided: readonly string[];
}

export interface NeededBy {
  readonly requirement: Requirement;
  readonly range: Needed;
}

export interface NeededOf {
  readonly figure: Figure;
  readonly range: Needed;
}

/** How far figures may move, and what could be relaxed. */
export interface RangeAnalysis extends Ranges {
  /** Limits surpassed by more than their headroom, in the order of the requirements and their criteria. */
  readonly overSpecified: readonly OverSpecified[];
}

export interface Ranges {
  /** In the order of the facts; a ± tolerance has a second entry for its half-width. */
  readonly figures: readonly FigureRanges[];
  /** For each requirement that is unmet or at risk: the figures that it rests on, smallest relative change first. */
  readonly needed: ReadonlyMap<Requirement, readonly NeededOf[]>;
  /** Given facts that no criterion rests on. */
  readonly unused: readonly Fact[];
  /** Ids of requirements with a limit that is itself not allowed: `<`, `>`, `!=`. */
  readonly strict: ReadonlySet<string>;
  /** Those of one fact, by its full name; none of a derived one. */
  ofFact(name: string): readonly FigureRanges[];
  /**
   * By how much the margin of a criterion falls when the figure goes to the end of its allowed range, in base units;
   * null where that is not known.
   */
  marginFall(figure: Figure, direction: 1 | -1, requirement: Requirement, criterion: Criterion): Rational | null;
}

export function rangesOf(analysis: Analysis): RangeAnalysis {
  return finished(rangesInSteps(analysis));
}

/** The same in short steps. */
export function* rangesInSteps(analysis: Analysis): Generator<void, RangeAnalysis> {
  const ranges = yield* figuresInSteps(analysis);
  return { ...ranges, overSpecified: yield* overSpecified(analysis, ranges) };
}

/** A requirement and then a figure at a time. */
function* figuresInSteps(analysis: Analysis): Generator<void, Ranges> {
  const lowering = new Lowering(analysis.product, 'variables');
  const demands: Demand[] = [];
  const maker = new RangeMaker(lowering);
  for (const result of analysis.requirements) {
    if (isCounted(result)) {
      const demand = guarded(lowering, result);
      demands.push(demand);
      maker.add(demand);
    }
    yield;
  }
  const figures: FigureRanges[] = [];
  for (const figure of allFigures(lowering)) {
    figures.push(maker.rangesOf(figure));
    yield;
  }
  return {
    figures,
    needed: neededByRequirement(figures),
    unused: unusedFacts(analysis),
    strict: new Set(demands.filter(isStrict).map(({ requirement }) => requirement.id)),
    ofFact: byFact(figures),
    marginFall: marginFalls(lowering, demands, figures),
  };
}

/** What binds or is a goal, and has criteria; what does not apply asks nothing. */
function isCounted({ requirement, verdict, basis }: RequirementResult): boolean {
  const { obligation } = requirement;
  return (obligation === 'shall' || obligation === 'should') && basis !== 'evidence' && verdict !== 'not applicable';
}

/** A mistake of ours in one requirement leaves its figures without ranges, and the rest has them. */
function guarded(lowering: Lowering, result: RequirementResult): Demand {
  try {
    return demandOf(lowering, result);
  } catch {
    lowering.abandon();
    return {
      result,
      requirement: result.requirement,
      parts: [],
      isOpen: true,
      applying: new Set(),
      appliesOverSpread: false,
    };
  }
}

class RangeMaker {
  private readonly solver: Solver;
  private readonly remaker: Remaker;
  private readonly byVariable = new Map<Variable, Map<Demand, Part[]>>();
  private readonly byName = new Map<string, Demand[]>();

  constructor(private readonly lowering: Lowering) {
    this.solver = new Solver(lowering.extremes);
    this.remaker = new Remaker(lowering.product);
  }

  /** All demands are known before the first figure is asked about. */
  add(demand: Demand): void {
    for (const part of demand.parts) this.index(demand, part);
    for (const name of new Set([...demand.result.uses, ...demand.applying])) append(this.byName, name, demand);
  }

  rangesOf(figure: Figure): FigureRanges {
    this.solver.begin(figure);
    const all = this.byName.get(figure.fact.name) ?? [];
    const isHeld = this.isHeld(figure);
    const remade = all.filter((demand) => isRemadeBy(demand, figure.fact, isHeld));
    const touched = this.touched(figure).filter(({ demand }) => !remade.includes(demand));
    const undecided = all
      .filter(({ result }) => result.verdict === 'undecided')
      .map(({ requirement }) => requirement.id);
    const onlyUndecided = undecided.length > 0 && undecided.length === all.length;
    const isOpen = onlyUndecided || remade.some(isBySquares);
    const allowed = isOpen ? null : this.allowed(figure, touched.filter(isMet), remade.filter(isMetDemand));
    const broken = all.filter(({ result }) => result.verdict === 'unmet' || result.verdict === 'at risk');
    const needed = broken
      .filter((demand) => remade.includes(demand) || touched.some((own) => own.demand === demand))
      .map((demand) => ({
        requirement: demand.requirement,
        range: this.needed(figure, demand, allowed, remade.includes(demand)),
      }));
    const permitted = allowed && this.permitted(figure, allowed, touched.filter(isMet), remade.length > 0);
    return { figure, allowed: permitted, needed, undecided };
  }

  private index(demand: Demand, part: Part): void {
    for (const variable of supportOf(part)) {
      const known = this.byVariable.get(variable) ?? new Map<Demand, Part[]>();
      this.byVariable.set(variable, known);
      append(known, demand, part);
    }
  }

  private isHeld(figure: Figure): boolean {
    const { held, heldConditions } = this.lowering;
    return variablesOf(figure).some((variable) => held.has(variable) || heldConditions.has(variable));
  }

  private touched(figure: Figure): readonly Touched[] {
    const [first, ...others] = variablesOf(figure).flatMap((variable) => this.byVariable.get(variable) ?? []);
    if (first === undefined) return [];
    if (others.length === 0) return [...first].map(([demand, parts]) => ({ demand, parts }));
    const joined = new Map<Demand, Set<Part>>();
    for (const [demand, parts] of [first, ...others].flatMap((one) => [...one])) {
      const known = joined.get(demand) ?? new Set<Part>();
      joined.set(demand, known);
      for (const part of parts) known.add(part);
    }
    return [...joined].map(([demand, parts]) => ({ demand, parts: [...parts] }));
  }

  private allowed(figure: Figure, met: readonly Touched[], remade: readonly Demand[]): AllowedRange | null {
    const worst = met.filter(({ demand }) => !isBySquares(demand));
    let range = allowedRange(this.solver, figure, worst);
    for (const { demand, parts } of met.filter((own) => isBySquares(own.demand))) {
      for (const part of parts) {
        if (range === null) return null;
        const ends = endsBySquares(this.lowering.product, this.solver, figure, part, range);
        range = ends === 'unknown' ? null : narrowedBy(range, ends, demand.requirement.id);
      }
    }
    for (const demand of remade) {
      if (range === null) return null;
      range =
        figure.steps.type === 'continuous'
          ? this.remadeEnds(figure, demand, range)
          : this.remadeSteps(figure, demand, range);
    }
    return range;
  }

  private remadeEnds(figure: Figure, demand: Demand, { low, high }: AllowedRange): AllowedRange | null {
    const down = this.remaker.end(demand, figure, -1, low);
    const up = this.remaker.end(demand, figure, 1, high);
    return down === 'unknown' || up === 'unknown' ? null : { low: down, high: up };
  }

  private remadeSteps(figure: Figure, demand: Demand, range: AllowedRange): AllowedRange | null {
    let isKnown = true;
    const end = (direction: 1 | -1, known: BoundEnd | null): BoundEnd | null => {
      const last = lastPermitted(figure, figure.now, direction, (at) => {
        const isFine = contains(range, at) ? this.remaker.isMet(demand, figure, at) : false;
        if (isFine === null) isKnown = false;
        return isFine === true;
      });
      if (last === null) isKnown = false;
      const next = last && nextPermitted(figure, last, direction);
      if (last === null || next === null || !contains(range, next)) return known;
      return { value: last, strict: false, by: demand.requirement.id };
    };
    const ends = { low: end(-1, range.low), high: end(1, range.high) };
    return isKnown ? ends : null;
  }

  private needed(figure: Figure, demand: Demand, allowed: AllowedRange | null, isRemade: boolean): Needed {
    if (allowed === null || isBySquares(demand)) return { type: 'not-shown' };
    if (isRemade && figure.steps.type === 'continuous') return { type: 'not-shown' };
    return isRemade ? this.neededSteps(figure, demand, allowed) : neededRange(this.solver, figure, demand, allowed);
  }

  private neededSteps(figure: Figure, demand: Demand, allowed: AllowedRange): Needed {
    if (demand.isOpen) return { type: 'none', forbiddenBy: '' };
    const found = ([1, -1] as const).flatMap((direction) => {
      const isBroken = (at: Rational) => contains(allowed, at) && this.remaker.isMet(demand, figure, at) === false;
      const last = lastPermitted(figure, figure.now, direction, isBroken);
      const at = last && nextPermitted(figure, last, direction);
      return at !== null && contains(allowed, at) && this.remaker.isMet(demand, figure, at) === true ? [at] : [];
    });
    const [nearest] = found.toSorted((a, b) => rational.compare(distanceFrom(figure, a), distanceFrom(figure, b)));
    if (nearest === undefined) return { type: 'not-shown' };
    const end = { value: nearest, strict: false };
    return { type: 'range', low: end, high: end };
  }

  /** Ends at permitted values; beyond a range that was shown without gaps between them the next ones are tried. */
  private permitted(
    figure: Figure,
    range: AllowedRange,
    met: readonly Touched[],
    isRemade: boolean,
  ): AllowedRange | null {
    if (figure.steps.type === 'continuous') return range;
    const mayGoOn = (known: BoundEnd | null) => !isRemade && !isNeighbour(figure, known);
    const ends = ([-1, 1] as const).map((direction) => {
      const known = direction > 0 ? range.high : range.low;
      if (figure.steps.type === 'whole' && known === null) return null;
      const isInside = (at: Rational) => contains(range, at);
      const passes = (at: Rational) => isInside(at) || (mayGoOn(known) && this.breaking(figure, at, met) === null);
      const start =
        figure.steps.type === 'whole' && known !== null ? lastWhole(range, known.value, direction) : figure.now;
      const last = lastPermitted(figure, start, direction, passes);
      if (last === null) return 'unknown';
      const next = nextPermitted(figure, last, direction);
      const by = next === null ? null : (this.breaking(figure, next, met) ?? known?.by ?? null);
      return { value: last, strict: false, by };
    });
    const [low, high] = ends;
    return low === 'unknown' || high === 'unknown' ? null : { low: low ?? null, high: high ?? null };
  }

  /** The first requirement that breaks with the figure there. */
  private breaking(figure: Figure, at: Rational, met: readonly Touched[]): string | null {
    for (const { demand, parts } of met) {
      for (const part of parts) {
        const solution = this.solver.solution(part, figure);
        const isFine =
          solution === null ? this.solver.holdsAt(part, figure, at) : solution !== 'nowhere' && contains(solution, at);
        if (!isFine) return demand.requirement.id;
      }
    }
    return null;
  }
}

function isNeighbour({ lowest, highest }: Figure, end: BoundEnd | null): boolean {
  return end !== null && [lowest, highest].some((one) => one !== null && rational.equals(one.value, end.value));
}

function isMet({ demand }: Touched): boolean {
  return isMetDemand(demand);
}

function isMetDemand({ result }: Demand): boolean {
  return result.verdict === 'met' || result.verdict === 'waived';
}

function isStrict({ parts }: Demand): boolean {
  return parts.some((part) => part.type === 'side' && ['<', '>', '!='].includes(part.relation));
}

/** Root sum square decides it. */
function isBySquares({ result }: Demand): boolean {
  return result.basis === 'rss';
}

function distanceFrom({ now }: Figure, at: Rational): Rational {
  return rational.absolute(rational.subtract(at, now));
}

function append<Key, Item>(lists: Map<Key, Item[]>, key: Key, item: Item): void {
  const known = lists.get(key);
  if (known === undefined) lists.set(key, [item]);
  else known.push(item);
}

function neededByRequirement(figures: readonly FigureRanges[]): ReadonlyMap<Requirement, readonly NeededOf[]> {
  const byRequirement = new Map<Requirement, NeededOf[]>();
  for (const { figure, needed } of figures)
    for (const { requirement, range } of needed) append(byRequirement, requirement, { figure, range });
  return new Map([...byRequirement].map(([requirement, list]) => [requirement, list.toSorted(byChange)]));
}

function byFact(figures: readonly FigureRanges[]) {
  const lists = new Map<string, FigureRanges[]>();
  for (const one of figures) append(lists, one.figure.fact.name, one);
  return (name: string): readonly FigureRanges[] => lists.get(name) ?? [];
}

function byChange(a: NeededOf, b: NeededOf): number {
  const [left, right] = [relativeChange(a), relativeChange(b)];
  if (left !== null && right !== null && !rational.equals(left, right)) return rational.compare(left, right);
  if ((left === null) !== (right === null)) return left === null ? 1 : -1;
  return a.figure.name < b.figure.name ? -1 : a.figure.name > b.figure.name ? 1 : 0;
}

/** |needed − now| / |now|; null where there is no needed range, and for a figure that is 0. */
export function relativeChange({ figure, range }: NeededOf): Rational | null {
  const at = nearestOf(figure, range);
  if (at === null || rational.sign(figure.now) === 0) return null;
  return rational.divide(distanceFrom(figure, at), rational.absolute(figure.now));
}

/** The end of a needed range that is nearest to where the figure is. */
export function nearestOf({ now }: Figure, range: Needed): Rational | null {
  if (range.type !== 'range') return null;
  const { low, high } = range;
  if (low !== null && rational.compare(now, low.value) <= 0) return low.value;
  return high !== null && rational.compare(now, high.value) >= 0 ? high.value : now;
}

/** Of rows only figures: their texts are not there to be checked. */
function unusedFacts({ product, requirements }: Analysis): readonly Fact[] {
  const used = new Set(requirements.flatMap(({ uses }) => [...uses]));
  return [...product.facts.values()].filter(
    ({ name, content, row }) => (row === null ? isGiven(content) : isGivenFigure(content)) && !used.has(name),
  );
}

function isGiven({ type }: Content): boolean {
  return type === 'value' || type === 'modes';
}

function isGivenFigure(content: Content): boolean {
  if (content.type === 'modes') return [...content.modes.values()].some(isGivenFigure);
  return content.type === 'value' && content.value.type === 'quantity';
}

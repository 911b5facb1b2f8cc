/** How far figures may move, and what drives a criterion, for programs: unrounded, in the units of their authors. */
import type { Analysis } from '../engine/analysis';
import type { CriterionResult } from '../engine/judge-criterion';
import type { Lowering } from '../engine/lowering/lowering';
import type { BoundEnd, Figure, FigureRanges, NeededBy, RangeAnalysis } from '../engine/ranges/ranges';
import { rootSumSquare } from '../engine/rss';
import { driversOf } from '../engine/sensitivity';
import type { Term } from '../engine/term';
import { differenceUnit } from '../quantity/conversion';
import type { Rational } from '../quantity/rational';
import * as rational from '../quantity/rational';
import { UNITY, type Unit } from '../quantity/unit';
import { distanceIn, extentIn, numberIn, perUnit } from './numbers';

/** `allowed`, `needed`, `halfWidth` and `figures` of a fact; null where it was not computed. */
export function factRangesJson(name: string, ranges: RangeAnalysis | null) {
  const own = ranges?.ofFact(name) ?? [];
  const places = own.filter(({ figure }) => figure.movement !== 'half-width');
  const [only] = places;
  const isAlone = places.length === 1 && only?.figure.name === name;
  return {
    allowed: isAlone && ranges !== null ? allowedJson(only, ranges.strict) : null,
    needed: isAlone ? neededJson(only) : null,
    halfWidth: isAlone ? halfWidthJson(own) : null,
    figures:
      own.length === 0 || isAlone || ranges === null
        ? null
        : places.map((one) => ({
            name: one.figure.name,
            allowed: allowedJson(one, ranges.strict),
            needed: neededJson(one),
            halfWidth: halfWidthJson(own.filter(({ figure }) => figure.mode === one.figure.mode)),
          })),
  };
}

function allowedJson({ allowed, figure }: FigureRanges, strict: ReadonlySet<string>) {
  if (allowed === null) return null;
  const { unit } = figure.value;
  const end = (one: BoundEnd | null, direction: 1 | -1) =>
    one === null ? null : numberIn(reached(figure, one, direction, strict), unit);
  return {
    min: end(allowed.low, -1),
    max: end(allowed.high, 1),
    unit: unit.canonical,
    bindsMin: allowed.low?.by ?? null,
    bindsMax: allowed.high?.by ?? null,
  };
}

const HAIR = rational.fraction(1n, 1_000_000_000n);

/** An end is closed unless what binds it is strict; where a step or a divisor of zero lies there, one a hair before it. */
function reached({ now }: Figure, end: BoundEnd, direction: 1 | -1, strict: ReadonlySet<string>): Rational {
  if (!end.strict || (end.by !== null && strict.has(end.by))) return end.value;
  const size = rational.sign(end.value) === 0 ? now : end.value;
  const hair = rational.multiply(rational.absolute(size), HAIR);
  return direction > 0 ? rational.subtract(end.value, hair) : rational.add(end.value, hair);
}

function neededJson({ needed, figure }: FigureRanges) {
  const { unit } = figure.value;
  return needed.map(({ requirement, range }: NeededBy) => ({
    for: requirement.id,
    min: range.type === 'range' ? numberIn(range.low?.value ?? null, unit) : null,
    max: range.type === 'range' ? numberIn(range.high?.value ?? null, unit) : null,
    unit: unit.canonical,
    forbiddenBy: range.type === 'none' ? range.forbiddenBy : null,
  }));
}

/** The widest half-width that is allowed, and the widest with which everything broken would be met. */
function halfWidthJson(own: readonly FigureRanges[]) {
  const width = own.find(({ figure }) => figure.movement === 'half-width');
  if (width === undefined) return null;
  const { unit } = width.figure.value;
  const inUnit = (value: Rational | null) => (value === null ? null : distanceIn(value, unit).value);
  const needed = width.needed.map(({ range }) => (range.type === 'range' ? (range.high?.value ?? null) : null));
  const all = needed.filter((value): value is Rational => value !== null);
  return {
    allowed: inUnit(width.allowed?.high?.value ?? null),
    needed: all.length === 0 || all.length < needed.length ? null : inUnit(all.reduce(rational.minimum)),
    unit: differenceUnit(unit).canonical,
  };
}

/** `rss` and `drivers` of a criterion; null where there is no derivative. */
export function spreadJson({ product, lowering }: Analysis, { claim, figures }: CriterionResult) {
  const value = claim.type === 'comparison' || claim.type === 'within' ? claim.value.term : null;
  if (value === null || figures === null) return { rss: null, drivers: null };
  const rss = rootSumSquare(product, lowering.extremes, value);
  return {
    rss: rss && { ...extentIn(rss, figures.unit), unit: figures.unit.canonical },
    drivers: driversJson(lowering, value, figures.unit),
  };
}

function driversJson({ extremes }: Lowering, value: Term, unit: Unit) {
  const drivers = driversOf(extremes, value);
  return (
    drivers
      ?.filter(({ share }) => share > 0)
      .map((driver) => {
        const own = driver.unit === null ? UNITY : differenceUnit(driver.unit);
        const factor = rational.divide(own.factor, differenceUnit(unit).factor);
        return {
          fact: driver.name === '' ? null : driver.name,
          share: driver.share,
          sensitivity: rational.toDouble(rational.multiply(driver.slope, factor)),
          unit: perUnit(differenceUnit(unit), own),
        };
      }) ?? null
  );
}

/** By how much a criterion's margin falls when a figure goes to the end of its allowed range. */
import type { Requirement } from '../../model/requirement';
import type { Rational } from '../../quantity/rational';
import * as rational from '../../quantity/rational';
import { type Case, casesOf, partsOf, type Side } from '../claims';
import type { Criterion } from '../criterion';
import { isNoValue } from '../enclosure';
import type { ExtremeFinder } from '../extremes';
import type { Lowering } from '../lowering/lowering';
import type { Demand } from './demand';
import { extentsAt, type Figure } from './figure';
import type { FigureRanges } from './ranges';

/** @param lowering one in which figures are variables */
export function marginFalls(lowering: Lowering, demands: readonly Demand[], ranges: readonly FigureRanges[]) {
  const byRequirement = new Map(demands.map((demand) => [demand.requirement, demand]));
  const byFigure = new Map(ranges.map((one) => [one.figure, one]));
  const sides = new Map<Criterion, readonly Side[]>();
  return (figure: Figure, direction: 1 | -1, requirement: Requirement, criterion: Criterion): Rational | null => {
    const demand = byRequirement.get(requirement);
    const allowed = byFigure.get(figure)?.allowed ?? null;
    const end = direction > 0 ? (allowed?.high ?? null) : (allowed?.low ?? null);
    if (demand === undefined || end === null) return null;
    const own = sides.get(criterion) ?? sidesOf(casesOf(lowering, criterion, demand.result.modes));
    sides.set(criterion, own);
    const now = marginOf(lowering.extremes, own);
    const then = marginOf(lowering.extremes.with(extentsAt(figure, end.value)), own);
    return now === null || then === null ? null : rational.subtract(now, then);
  };
}

function sidesOf(cases: readonly Case[]): readonly Side[] {
  return cases.flatMap(({ claim }) => partsOf(claim).filter((part) => part.type === 'side'));
}

/** The smallest distance to a limit over all modes and rows; null where one is not known. */
function marginOf(finder: ExtremeFinder, sides: readonly Side[]): Rational | null {
  let least: Rational | null = null;
  for (const { relation, distance } of sides) {
    const found = finder.extremes(distance, 'full');
    if (isNoValue(found)) return null;
    const { low, high } = found.outer;
    const own = relation === '<=' || relation === '<' ? high && rational.negate(high) : low;
    if (own === null) return null;
    least = least === null ? own : rational.minimum(least, own);
  }
  return least;
}

/** Ends of figures under requirements that root sum square decides. */
import type { Product } from '../../model/product';
import type { Rational } from '../../quantity/rational';
import * as rational from '../../quantity/rational';
import type { Part } from '../claims';
import { holdsOver } from '../enclosure';
import { rootSumSquare } from '../rss';
import type { End, Solution } from './affine';
import { holds } from './demand';
import { extentsAt, type Figure } from './figure';
import { furthest } from './search';
import type { Solver } from './solver';

/** Shares of the way to an end at which the part has to hold as well. */
const CHECKED = [rational.fraction(1n, 4n), rational.fraction(1n, 2n), rational.fraction(3n, 4n)];

/**
 * Where a distance runs straight in a figure, so does each of its slopes, and the root of the sum of their squares is
 * convex in it: the ends are found by trying. *unknown* where it does not run straight, or does not hold on the way.
 */
export function endsBySquares(
  product: Product,
  solver: Solver,
  figure: Figure,
  part: Part,
  range: Solution,
): Solution | 'unknown' {
  if (!solver.runsStraight(part, figure)) return 'unknown';
  const test = (at: Rational) => holdsBySquares(product, solver, part, figure, at);
  if (!test(figure.now)) return 'unknown';
  const down = endFrom(test, figure, -1, range.low);
  const up = endFrom(test, figure, 1, range.high);
  return down === 'unknown' || up === 'unknown' || solver.isExhausted ? 'unknown' : { low: down, high: up };
}

function endFrom(
  test: (at: Rational) => boolean,
  figure: Figure,
  direction: 1 | -1,
  limit: End | null,
): End | null | 'unknown' {
  const { now, value } = figure;
  const upTo = (to: Rational | null) => to !== null && test(to);
  const end = furthest(upTo, now, direction, limit?.value ?? null, value.unit.factor);
  if (end === null) return null;
  const onTheWay = CHECKED.map((share) =>
    rational.add(now, rational.multiply(rational.subtract(end.value, now), share)),
  );
  return onTheWay.every(test) ? end : 'unknown';
}

function holdsBySquares(product: Product, solver: Solver, part: Part, figure: Figure, at: Rational): boolean {
  if (part.type === 'clause' || solver.isExhausted) return false;
  const finder = solver.finder.with(extentsAt(figure, at));
  const bySquares = rootSumSquare(product, finder, part.distance);
  return bySquares === null ? holds(finder, part) : holdsOver(part.relation, bySquares) === true;
}

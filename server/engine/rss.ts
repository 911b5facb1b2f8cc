/**
 * Root sum square of tolerances (JCGM 100:2008, 5.1.2, half-widths taken as the same multiple of each standard
 * uncertainty): the figure at the worse ends of everything that is no ± tolerance, ± √Σ(slope × half-width)².
 */
import type { Product } from '../model/product';
import type { Interval } from '../quantity/interval';
import * as interval from '../quantity/interval';
import type { Rational } from '../quantity/rational';
import * as rational from '../quantity/rational';
import { encloseFunction } from '../quantity/transcendental';
import { isNoValue } from './enclosure';
import type { Extents, ExtremeFinder } from './extremes';
import { gradient } from './gradient';
import { slopesAt } from './sensitivity';
import type { Term, Variable } from './term';

/** In base units, never outside the worst case; null where the term has no derivative or an end is open. */
export function rootSumSquare(product: Product, finder: ExtremeFinder, term: Term): Interval | null {
  const worst = finder.extremes(term, 'full');
  if (isNoValue(worst) || worst.outer.low === null || worst.outer.high === null) return null;
  const symmetric = [...term.support].filter(({ isSymmetric }) => isSymmetric);
  if (symmetric.length === 0) return worst.outer;
  const centred = finder.with(new Map(symmetric.map((variable) => [variable, atTypical(finder, variable)])));
  const centre = centred.extremes(term, 'full');
  if (isNoValue(centre)) return null;
  const [down, up] = ([-1, 1] as const).map((side) => reach(product, finder, centred, term, side));
  if (down == null || up == null || centre.outer.low === null || centre.outer.high === null) return null;
  return interval.intersect(worst.outer, {
    low: rational.subtract(centre.outer.low, down),
    high: rational.add(centre.outer.high, up),
  });
}

function atTypical(finder: ExtremeFinder, variable: Variable): Extents {
  const typical = finder.extentOf(variable, 'typical');
  return { full: typical, typical };
}

/** √Σ(slope × half-width)², at typical values and at the ends of all else that are worse on this side; rounded up. */
function reach(
  product: Product,
  finder: ExtremeFinder,
  centred: ExtremeFinder,
  term: Term,
  side: 1 | -1,
): Rational | null {
  const slopes = slopesAt(finder, term, worseCorner(centred, term, side));
  if (slopes === null) return null;
  const parts = new Map<string, Rational>();
  let squares = rational.ZERO;
  for (const [variable, slope] of slopes) {
    if (!variable.isSymmetric) continue;
    const { low, high } = finder.extentOf(variable, 'full');
    const part = rational.multiply(slope, rational.divide(width(low, high), rational.integer(2)));
    const apart = itemsApart(product, variable);
    if (apart === null) parts.set(keyOf(variable), rational.add(parts.get(keyOf(variable)) ?? rational.ZERO, part));
    else squares = rational.add(squares, rational.divide(rational.power(part, 2), rational.integer(apart)));
  }
  for (const part of parts.values()) squares = rational.add(squares, rational.power(part, 2));
  return encloseFunction('sqrt', squares)?.high ?? null;
}

function width(low: Rational | null, high: Rational | null): Rational {
  return low === null || high === null ? rational.ZERO : rational.subtract(high, low);
}

/** Tolerances at typical values; where the term only rises or falls in another figure, that one at its worse end. */
function worseCorner(centred: ExtremeFinder, term: Term, side: 1 | -1): ReadonlyMap<Variable, Interval> {
  const slopes = gradient(term, centred.box('full')) ?? new Map<Variable, Interval>();
  const place = new Map<Variable, Interval>();
  for (const variable of term.support) {
    const extent = centred.extentOf(variable, variable.isSymmetric ? 'typical' : 'full');
    place.set(variable, worseEnd(extent, slopes.get(variable) ?? interval.ZERO, side));
  }
  return place;
}

function worseEnd(extent: Interval, { low, high }: Interval, side: 1 | -1): Interval {
  const rises = low !== null && rational.sign(low) >= 0 ? 1 : high !== null && rational.sign(high) <= 0 ? -1 : 0;
  const end = rises * side > 0 ? extent.high : rises * side < 0 ? extent.low : null;
  return end === null ? extent : interval.point(end);
}

/** Items of a row move together, as their makers' lots do. */
function keyOf({ name, id }: Variable): string {
  return name === '' ? id : name;
}

/**
 * How many items a variable stands for that move apart, where the row says `spread: independent`: the one that names
 * mean is one, the others are all but it. Null where they move together.
 */
function itemsApart({ facts, tables }: Product, { name, id }: Variable): number | null {
  const row = facts.get(name)?.row ?? null;
  const fields = row === null ? undefined : tables.get(row.table)?.rowsById.get(row.id)?.fields;
  const spread = fields?.get('spread')?.content;
  if (spread?.type !== 'value' || spread.value.type !== 'text' || spread.value.text !== 'independent') return null;
  if (!id.endsWith('#others')) return 1;
  const quantity = fields?.get('quantity')?.content;
  const written = quantity?.type === 'value' && quantity.value.type === 'quantity' ? quantity.value.typical : null;
  const count = written === null ? 1 : rational.toDouble(written);
  return Math.max(1, count - 1);
}

/** A side without its divisors: a/b + c ≤ 0 is a + c·b ≤ 0 while b stays above zero, and then runs straight in what b holds. */
import * as rational from '../../quantity/rational';
import type { Side } from '../claims';
import { isNoValue } from '../enclosure';
import type { ExtremeFinder } from '../extremes';
import { opposite, product, scaled, sum, type Term } from '../term';

/** Divisors that are cleared one after the other; more make no design's figure. */
const MOST_DIVISORS = 6;

/** The side itself where nothing is divided. Equivalent only while every divisor keeps the sign that it has now. */
export function cleared(finder: ExtremeFinder, side: Side): Side {
  let current = side;
  for (let count = 0; count < MOST_DIVISORS; count += 1) {
    const next = clearedOnce(finder, current);
    if (next === null) return current;
    current = next;
  }
  return current;
}

function clearedOnce(finder: ExtremeFinder, side: Side): Side | null {
  const terms = side.distance.type === 'sum' ? side.distance.terms : [side.distance];
  const index = terms.findIndex((term) => quotientOf(term) !== null);
  const found = terms[index];
  const quotient = found === undefined ? null : quotientOf(found);
  if (found === undefined || quotient === null) return null;
  const sign = signOf(finder, quotient.right);
  if (sign === 0) return null;
  const factor = found.type === 'scaled' ? found.factor : rational.ONE;
  const others = terms.filter((_, other) => other !== index).map((term) => product(term, quotient.right));
  const distance = sum([scaled(quotient.left, factor), ...others]);
  return { ...side, distance, relation: sign > 0 ? side.relation : mirroredAtZero(side.relation) };
}

function quotientOf(term: Term): (Term & { type: 'quotient' }) | null {
  const inner = term.type === 'scaled' ? term.term : term;
  return inner.type === 'quotient' ? inner : null;
}

/** 0 where the divisor can be zero, and where its sign is not known. */
function signOf(finder: ExtremeFinder, divisor: Term): -1 | 0 | 1 {
  const found = finder.extremes(divisor, 'full');
  if (isNoValue(found)) return 0;
  const { low, high } = found.outer;
  if (low !== null && rational.sign(low) > 0) return 1;
  return high !== null && rational.sign(high) < 0 ? -1 : 0;
}

/** The relation of −x to zero. */
function mirroredAtZero(relation: Side['relation']): Side['relation'] {
  if (relation === '=' || relation === '!=') return relation;
  const strict = relation === '<' || relation === '>';
  const turned = opposite(relation);
  // The opposite of ≤ is >: what is mirrored keeps its end where the opposite leaves it.
  if (strict) return turned === '>=' ? '>' : '<';
  return turned === '>' ? '>=' : '<=';
}

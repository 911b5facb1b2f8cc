/** A side without its divisors: a/b + c ≤ 0 is a + c·b ≤ 0 while b stays above zero, and then runs straight in what b holds. */
import * as rational from '../../quantity/rational';
import type { Side } from '../claims';
import { isNoValue } from '../enclosure';
import type { ExtremeFinder } from '../extremes';
import { constant, opposite, product, scaled, sum, type Term } from '../term';
import { inOrder } from '../term-order';

export interface Cleared {
  readonly side: Side;
  /** Each divisor keeps the sign that it has now: only there do the side and what it was cleared from say the same. */
  readonly guards: readonly Side[];
}

/** Different divisors of one distance; more make no design's figure. */
const MOST_DIVISORS = 6;

/** Null where nothing is divided, or a divisor may be zero as the design stands. */
export function cleared(finder: ExtremeFinder, side: Side): Cleared | null {
  const { numerator, divisors } = fractionOf(side.distance);
  if (divisors.size === 0) return null;
  const guards: Side[] = [];
  let sign = 1;
  for (const [divisor, count] of divisors) {
    const own = signOf(finder, divisor);
    if (own === 0) return null;
    guards.push({ type: 'side', relation: own > 0 ? '>' : '<', distance: divisor });
    if (own < 0 && count % 2 === 1) sign = -sign;
  }
  const relation = sign > 0 ? side.relation : mirroredAtZero(side.relation);
  return { side: { ...side, distance: numerator, relation }, guards };
}

/** What a term is once nothing in it is divided, and by what it is divided then, so many times each. */
interface Fraction {
  readonly numerator: Term;
  readonly divisors: ReadonlyMap<Term, number>;
}

const UNDIVIDED: ReadonlyMap<Term, number> = new Map();

/** From the leaves up, so that a deep term costs no stack. */
function fractionOf(root: Term): Fraction {
  const known = new Map<Term, Fraction>();
  const of = (term: Term): Fraction => known.get(term) ?? { numerator: term, divisors: UNDIVIDED };
  for (const term of inOrder(root)) {
    const fraction = fractionAbove(term, of);
    if (fraction !== null && fraction.divisors.size <= MOST_DIVISORS) known.set(term, fraction);
  }
  return of(root);
}

/** Null where the term is taken as it is. */
function fractionAbove(term: Term, of: (below: Term) => Fraction): Fraction | null {
  switch (term.type) {
    case 'scaled': {
      const inner = of(term.term);
      return inner.divisors.size === 0 ? null : { ...inner, numerator: scaled(inner.numerator, term.factor) };
    }
    case 'product': {
      const [left, right] = [of(term.left), of(term.right)];
      const divisors = joined(left.divisors, right.divisors, (a, b) => a + b);
      return divisors.size === 0 ? null : { numerator: product(left.numerator, right.numerator), divisors };
    }
    case 'quotient': {
      const [left, right] = [of(term.left), of(term.right)];
      const numerator = times(left.numerator, right.divisors, UNDIVIDED);
      const divisors = joined(left.divisors, new Map([[right.numerator, 1]]), (a, b) => a + b);
      return { numerator, divisors };
    }
    case 'sum': {
      const fractions = term.terms.map(of);
      const divisors = fractions.reduce((all, one) => joined(all, one.divisors, Math.max), UNDIVIDED);
      if (divisors.size === 0) return null;
      return { numerator: sum(fractions.map((one) => times(one.numerator, divisors, one.divisors))), divisors };
    }
    default:
      return null;
  }
}

function joined(
  a: ReadonlyMap<Term, number>,
  b: ReadonlyMap<Term, number>,
  count: (a: number, b: number) => number,
): ReadonlyMap<Term, number> {
  if (b.size === 0) return a;
  const all = new Map(a);
  for (const [divisor, own] of b) all.set(divisor, count(all.get(divisor) ?? 0, own));
  return all;
}

/** The term times each divisor as often as it is not among those that it has already. */
function times(term: Term, divisors: ReadonlyMap<Term, number>, already: ReadonlyMap<Term, number>): Term {
  let factor = constant(rational.ONE);
  for (const [divisor, count] of divisors) {
    for (let left = count - (already.get(divisor) ?? 0); left > 0; left -= 1) factor = product(factor, divisor);
  }
  return product(term, factor);
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

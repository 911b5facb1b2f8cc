/**
 * Terms: what an expression computes, as a graph over the given figures that may move. Dimensions are settled before
 * a term is built; numbers are in coherent base units. Terms are shared, so equal names lead to one and the same node.
 */

import type { Place } from '../model/place';
import type { Interval } from '../quantity/interval';
import type { Rational } from '../quantity/rational';
import * as rational from '../quantity/rational';
import type { Unit } from '../quantity/unit';
import type { Relation } from '../syntax/sentence/limit';

/** A given figure that may move; on its own, and once however often it is used. */
export interface Variable {
  /** Unique in a product: the fact's name, with `@mode` and `#others` where they apply. */
  readonly id: string;
  /** The fact's name as people know it. */
  readonly name: string;
  readonly place: Place;
  /** *exact*: a figure without spread, where figures are asked how far they may move. */
  readonly spread: 'exact' | 'tolerance' | 'range';
  /** Written as ± of equal sides: the tolerances whose root sum square is taken. */
  readonly isSymmetric: boolean;
  /** In which its author wrote it; null for shares, and for ends that are known by bounds only. */
  readonly unit: Unit | null;
  /** Every value that it may take; null ends are open. */
  readonly full: Interval;
  /** Its typical value; the whole extent of a range. */
  readonly typical: Interval;
}

export type Support = ReadonlySet<Variable>;

interface TermBase {
  /** The variables below this node. */
  readonly support: Support;
  /** No variable occurs twice below this node, so that interval arithmetic on it is exact. */
  readonly separate: boolean;
  /** It has a value everywhere, whatever its variables are: nothing is divided, no root taken, no curve followed. */
  readonly total: boolean;
}

export type Term =
  | (TermBase & { readonly type: 'constant'; readonly value: Rational })
  | (TermBase & { readonly type: 'variable'; readonly variable: Variable })
  | (TermBase & { readonly type: 'sum'; readonly terms: readonly Term[] })
  | (TermBase & { readonly type: 'scaled'; readonly term: Term; readonly factor: Rational })
  | (TermBase & { readonly type: 'product'; readonly left: Term; readonly right: Term; readonly place: Place | null })
  | (TermBase & { readonly type: 'quotient'; readonly left: Term; readonly right: Term; readonly place: Place })
  | (TermBase & { readonly type: 'power'; readonly base: Term; readonly exponent: number; readonly place: Place })
  | (TermBase & { readonly type: 'least' | 'greatest'; readonly terms: readonly Term[] })
  | (TermBase & {
      readonly type: 'function';
      readonly name: FunctionName;
      readonly operand: Term;
      readonly place: Place;
    })
  | (TermBase & { readonly type: 'curve'; readonly of: Term; readonly curve: CurveShape; readonly place: Place })
  | (TermBase & {
      readonly type: 'choice';
      readonly condition: Condition;
      readonly met: Term;
      readonly otherwise: Term;
    });

export type FunctionName = 'abs' | 'floor' | 'ceil' | 'round' | 'sqrt' | 'log10' | 'ln' | 'exp';

/** Points in ascending x, in base units. */
export interface CurveShape {
  /** What it is called and where it begins and ends, for messages. */
  readonly shown: { readonly name: string; readonly first: string; readonly last: string };
  readonly between: 'steps' | 'lines';
  readonly points: readonly { readonly x: Rational; readonly y: Rational }[];
}

export type Condition =
  | { readonly type: 'known'; readonly holds: boolean; readonly support: Support }
  /** `difference relation 0`. */
  | {
      readonly type: 'comparison';
      readonly relation: PlainRelation;
      readonly difference: Term;
      readonly support: Support;
    }
  | { readonly type: 'both' | 'either'; readonly conditions: readonly Condition[]; readonly support: Support };

export type PlainRelation = Exclude<Relation, 'within' | 'spans'>;

/** Functions that have a value everywhere. */
const TOTAL: readonly FunctionName[] = ['abs', 'floor', 'ceil', 'round'];

const NO_SUPPORT: Support = new Set();

export function constant(value: Rational): Term {
  return { type: 'constant', value, support: NO_SUPPORT, separate: true, total: true };
}

export const ZERO: Term = constant(rational.ZERO);
export const ONE: Term = constant(rational.ONE);

export function variable(of: Variable): Term {
  return { type: 'variable', variable: of, support: new Set([of]), separate: true, total: true };
}

/** The sum; constants are added up, sums within sums flattened, and what occurs twice is taken together: x - x is 0. */
export function sum(terms: readonly Term[]): Term {
  let total = rational.ZERO;
  const factors = new Map<Term, Rational>();
  for (const term of terms) {
    for (const part of term.type === 'sum' ? term.terms : [term]) {
      if (part.type === 'constant') {
        total = rational.add(total, part.value);
        continue;
      }
      const [of, factor] = part.type === 'scaled' ? [part.term, part.factor] : [part, rational.ONE];
      const known = factors.get(of);
      factors.set(of, known === undefined ? factor : rational.add(known, factor));
    }
  }
  const moving = [...factors].map(([of, factor]) => scaled(of, factor)).filter((part) => part !== ZERO);
  if (moving.length === 0) return constant(total);
  const all = rational.sign(total) === 0 ? moving : [...moving, constant(total)];
  return all.length === 1 ? (all[0] as Term) : { type: 'sum', terms: all, ...joined(all) };
}

export function scaled(term: Term, factor: Rational): Term {
  if (term.type === 'constant') return constant(rational.multiply(term.value, factor));
  if (rational.equals(factor, rational.ONE)) return term;
  // Nothing times what has no value has none either.
  if (rational.sign(factor) === 0 && term.total) return ZERO;
  if (term.type === 'scaled') return scaled(term.term, rational.multiply(term.factor, factor));
  return { type: 'scaled', term, factor, ...baseOf(term) };
}

export function difference(left: Term, right: Term): Term {
  return sum([left, scaled(right, rational.integer(-1))]);
}

/** left × right; `place` is where a result too long to keep is reported, where that can happen. */
export function product(left: Term, right: Term, place: Place | null = null): Term {
  if (left.type === 'constant') return scaled(right, left.value);
  if (right.type === 'constant') return scaled(left, right.value);
  return { type: 'product', left, right, place, ...joined([left, right]) };
}

/** left / right, numbers drawn out so that a common figure cancels; `place` is where a divisor of zero is reported. */
export function quotient(left: Term, right: Term, place: Place): Term {
  if (right.type === 'constant' && rational.sign(right.value) !== 0) {
    return scaled(left, rational.divide(rational.ONE, right.value));
  }
  if (left.type === 'scaled') return scaled(quotient(left.term, right, place), left.factor);
  if (right.type === 'scaled') {
    return scaled(quotient(left, right.term, place), rational.divide(rational.ONE, right.factor));
  }
  return { type: 'quotient', left, right, place, ...joined([left, right]), total: false };
}

export function power(base: Term, exponent: number, place: Place): Term {
  if (exponent === 1) return base;
  if (base.type === 'constant' && (exponent >= 0 || rational.sign(base.value) !== 0)) {
    return constant(rational.power(base.value, exponent));
  }
  return { type: 'power', base, exponent, place, ...baseOf(base), total: base.total && exponent >= 0 };
}

export function extreme(type: 'least' | 'greatest', terms: readonly Term[]): Term {
  const [first] = terms;
  if (terms.length === 1 && first !== undefined) return first;
  return { type, terms, ...joined(terms) };
}

export function applied(name: FunctionName, operand: Term, place: Place): Term {
  return { type: 'function', name, operand, place, ...baseOf(operand), total: operand.total && TOTAL.includes(name) };
}

export function onCurve(of: Term, curve: CurveShape, place: Place): Term {
  return { type: 'curve', of, curve, place, ...baseOf(of), total: false };
}

/** `met` where the condition holds, else `otherwise`. */
export function choice(condition: Condition, met: Term, otherwise: Term): Term {
  if (condition.type === 'known') return condition.holds ? met : otherwise;
  const support = union([condition.support, met.support, otherwise.support]);
  const total = met.total && otherwise.total && isTotal(condition);
  return { type: 'choice', condition, met, otherwise, support, separate: false, total };
}

export function known(holds: boolean): Condition {
  return { type: 'known', holds, support: NO_SUPPORT };
}

export function comparison(relation: PlainRelation, of: Term): Condition {
  if (of.type === 'constant') return known(holdsOf(relation, rational.sign(of.value)));
  return { type: 'comparison', relation, difference: of, support: of.support };
}

export function both(conditions: readonly Condition[]): Condition {
  return connect('both', conditions, false);
}

export function either(conditions: readonly Condition[]): Condition {
  return connect('either', conditions, true);
}

const OPPOSITE: Record<PlainRelation, PlainRelation> = {
  '>=': '<',
  '>': '<=',
  '<=': '>',
  '<': '>=',
  '=': '!=',
  '!=': '=',
};

export function opposite(relation: PlainRelation): PlainRelation {
  return OPPOSITE[relation];
}

/** The negation, taken inward. */
export function negated(condition: Condition): Condition {
  if (condition.type === 'known') return known(!condition.holds);
  if (condition.type === 'comparison') return { ...condition, relation: opposite(condition.relation) };
  return {
    ...condition,
    type: condition.type === 'both' ? 'either' : 'both',
    conditions: condition.conditions.map(negated),
  };
}

/** Whether a number of the given sign stands in the relation to zero. */
export function holdsOf(relation: PlainRelation, sign: number): boolean {
  switch (relation) {
    case '>=':
      return sign >= 0;
    case '>':
      return sign > 0;
    case '<=':
      return sign <= 0;
    case '<':
      return sign < 0;
    case '=':
      return sign === 0;
    case '!=':
      return sign !== 0;
  }
}

function connect(type: 'both' | 'either', conditions: readonly Condition[], decisive: boolean): Condition {
  const open = conditions.filter((condition) => condition.type !== 'known' || condition.holds === decisive);
  if (open.some((condition) => condition.type === 'known')) return known(decisive);
  if (open.length === 0) return known(!decisive);
  if (open.length === 1) return open[0] as Condition;
  return { type, conditions: open, support: union(open.map(({ support }) => support)) };
}

function baseOf({ support, separate, total }: Term): TermBase {
  return { support, separate, total };
}

function isTotal(condition: Condition): boolean {
  if (condition.type === 'known') return true;
  return condition.type === 'comparison' ? condition.difference.total : condition.conditions.every(isTotal);
}

function joined(terms: readonly Term[]): TermBase {
  const moving = terms.filter(({ support }) => support.size > 0);
  const support = union(moving.map((term) => term.support));
  const occurrences = moving.reduce((total, term) => total + term.support.size, 0);
  return {
    support,
    separate: occurrences === support.size && moving.every(({ separate }) => separate),
    total: terms.every(({ total }) => total),
  };
}

/** The union; one of the sets itself where it holds all others, so that long chains share one set. */
function union(supports: readonly Support[]): Support {
  const filled = supports.filter(({ size }) => size > 0);
  const [first, second] = filled;
  if (first === undefined) return NO_SUPPORT;
  if (second === undefined) return first;
  const largest = filled.reduce((a, b) => (b.size > a.size ? b : a));
  const missing = filled.filter((support) => support !== largest && [...support].some((of) => !largest.has(of)));
  if (missing.length === 0) return largest;
  const all = new Set(largest);
  for (const support of missing) for (const of of support) all.add(of);
  return all;
}

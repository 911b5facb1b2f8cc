/** Encloses the values of a term over a box of its variables by interval arithmetic: sound always, exact where no variable occurs twice. */
import type { Place } from '../model/place';
import type { Interval } from '../quantity/interval';
import * as interval from '../quantity/interval';
import type { Rational } from '../quantity/rational';
import * as rational from '../quantity/rational';
import { encloseFunction } from '../quantity/transcendental';
import { type Condition, type CurveShape, holdsOf, type PlainRelation, type Term, type Variable } from './term';

/** A term has no value somewhere in the box, and where it is written. */
export interface NoValue {
  readonly type: 'no-value';
  readonly reason: string;
  readonly place: Place;
  /** Given figures whose open end is why: with it there may be a value. */
  readonly open: readonly Variable[];
}

export type Enclosure = Interval | NoValue;

export function isNoValue(result: object): result is NoValue {
  return 'type' in result && result.type === 'no-value';
}

/** An extent for each variable, and what is known over it already. */
export interface Box {
  extentOf(variable: Variable): Interval;
  readonly memo: Memo;
  /** A tighter enclosure of a term that plain arithmetic could not keep away from a forbidden value; null where there is none. */
  tighten(term: Term): Interval | null;
}

/** What was enclosed already over one box. */
export interface Memo {
  get(term: Term): Enclosure | undefined;
  set(term: Term, enclosure: Enclosure): unknown;
}

/** How many digits a result may have: past it a figure is no figure of a design. */
export const MAXIMUM_DIGITS = 4_096;

export function enclose(term: Term, box: Box): Enclosure {
  if (term.type === 'constant') return interval.point(term.value);
  if (term.type === 'variable') return box.extentOf(term.variable);
  const known = box.memo.get(term);
  if (known !== undefined) return known;
  const enclosure = withinDigits(compute(term, box), term);
  box.memo.set(term, enclosure);
  return enclosure;
}

/** True or false where the condition is sure over the whole box, null where it may hold or not. */
export function decide(condition: Condition, box: Box): boolean | null | NoValue {
  if (condition.type === 'known') return condition.holds;
  if (condition.type === 'comparison') {
    const enclosure = enclose(condition.difference, box);
    return isNoValue(enclosure) ? enclosure : holdsOver(condition.relation, enclosure);
  }
  const decisive = condition.type === 'either';
  let sure = true;
  for (const part of condition.conditions) {
    const decided = decide(part, box);
    if (decided === decisive) return decisive;
    if (decided !== null && typeof decided === 'object') return decided;
    if (decided === null) sure = false;
  }
  return sure ? !decisive : null;
}

/** Whether `x relation 0` for every x of the interval, for none (false), or for some (null). */
export function holdsOver(relation: PlainRelation, { low, high }: Interval): boolean | null {
  const lowSign = low === null ? -1 : rational.sign(low);
  const highSign = high === null ? 1 : rational.sign(high);
  const straddles = lowSign < 0 && highSign > 0;
  const signs = straddles ? [-1, 0, 1] : [...new Set([lowSign, highSign])];
  const held = signs.map((sign) => holdsOf(relation, sign));
  return held.every(Boolean) ? true : held.some(Boolean) ? null : false;
}

function compute(term: Exclude<Term, { type: 'constant' | 'variable' }>, box: Box): Enclosure {
  switch (term.type) {
    case 'sum':
      return fold(term.terms, box, interval.add);
    case 'scaled':
      return mapped(enclose(term.term, box), (value) => interval.scale(value, term.factor));
    case 'product':
      return fold([term.left, term.right], box, interval.multiply);
    case 'quotient':
      return quotientOver(term, box);
    case 'power':
      return powerOver(term, box);
    case 'least':
      return fold(term.terms, box, interval.minimum);
    case 'greatest':
      return fold(term.terms, box, interval.maximum);
    case 'function':
      return functionOver(term, box);
    case 'curve':
      return mapped(enclose(term.of, box), (value) => curveOver(term.curve, value, term.place));
    case 'choice':
      return choiceOver(term, box);
  }
}

function fold(terms: readonly Term[], box: Box, join: (a: Interval, b: Interval) => Interval): Enclosure {
  let result: Interval | null = null;
  for (const term of terms) {
    const enclosure = enclose(term, box);
    if (isNoValue(enclosure)) return enclosure;
    result = result === null ? enclosure : join(result, enclosure);
  }
  return result ?? interval.ZERO;
}

function mapped(enclosure: Enclosure, map: (value: Interval) => Enclosure): Enclosure {
  return isNoValue(enclosure) ? enclosure : map(enclosure);
}

function quotientOver(term: Term & { type: 'quotient' }, box: Box): Enclosure {
  const dividend = enclose(term.left, box);
  if (isNoValue(dividend)) return dividend;
  const divisor = awayFromZero(term.right, box);
  if (isNoValue(divisor)) return divisor;
  const quotient = interval.divide(dividend, divisor);
  if (quotient === null) return noValue('the divisor can be 0', term.place, openIn(term.right, divisor));
  return term.left === term.right ? interval.point(rational.ONE) : quotient;
}

function powerOver(term: Term & { type: 'power' }, box: Box): Enclosure {
  const base = term.exponent < 0 ? awayFromZero(term.base, box) : enclose(term.base, box);
  if (isNoValue(base)) return base;
  return interval.power(base, term.exponent) ?? noValue('the base of a negative power can be 0', term.place);
}

function awayFromZero(term: Term, box: Box): Enclosure {
  const enclosure = enclose(term, box);
  if (isNoValue(enclosure) || term.separate || !interval.contains(enclosure, rational.ZERO)) return enclosure;
  return box.tighten(term) ?? enclosure;
}

function functionOver(term: Term & { type: 'function' }, box: Box): Enclosure {
  const operand = enclose(term.operand, box);
  if (isNoValue(operand)) return operand;
  switch (term.name) {
    case 'abs':
      return interval.absolute(operand);
    case 'floor':
      return interval.mapIncreasing(operand, rational.floor);
    case 'ceil':
      return interval.mapIncreasing(operand, rational.ceiling);
    case 'round':
      return interval.mapIncreasing(operand, rational.round);
    default:
      return increasingOver(term, term.name, operand, box);
  }
}

function increasingOver(
  term: Term & { type: 'function' },
  name: 'sqrt' | 'log10' | 'ln' | 'exp',
  operand: Interval,
  box: Box,
): Enclosure {
  const domain = name === 'exp' ? operand : insideDomain(term.operand, operand, name === 'sqrt', box);
  if (domain === null)
    return noValue(`${name} of ${name === 'sqrt' ? 'a negative number' : 'zero or less'}`, term.place);
  const low = domain.low === null ? null : encloseFunction(name, domain.low);
  const high = domain.high === null ? null : encloseFunction(name, domain.high);
  if ((low === null && domain.low !== null) || (high === null && domain.high !== null)) {
    return noValue(`${name} leaves the range of figures`, term.place);
  }
  const floor = name === 'exp' ? rational.ZERO : null;
  return { low: low?.low ?? floor, high: high?.high ?? null };
}

function insideDomain(operand: Term, enclosure: Interval, zeroAllowed: boolean, box: Box): Interval | null {
  const inside = ({ low }: Interval) =>
    low !== null && (zeroAllowed ? rational.sign(low) >= 0 : rational.sign(low) > 0);
  if (inside(enclosure)) return enclosure;
  const tight = operand.separate ? null : box.tighten(operand);
  return tight !== null && inside(tight) ? tight : null;
}

/** The values of a curve over an interval of x; never extrapolated. */
function curveOver(curve: CurveShape, x: Interval, place: Place): Enclosure {
  const { between, points, shown } = curve;
  const first = points[0] as CurveShape['points'][number];
  const last = points[points.length - 1] as CurveShape['points'][number];
  const { low, high } = x;
  if (low === null || rational.compare(low, first.x) < 0)
    return noValue(`the curve of ${shown.name} begins at ${shown.first}`, place);
  if (between === 'lines' && (high === null || rational.compare(high, last.x) > 0))
    return noValue(`the curve of ${shown.name} ends at ${shown.last}`, place);
  const inside = points.filter(
    ({ x: at }) => rational.compare(low, at) <= 0 && (high === null || rational.compare(at, high) <= 0),
  );
  const values = inside.map(({ y }) => y);
  for (const end of [low, high]) if (end !== null) values.push(curveAt(curve, end));
  return { low: values.reduce(rational.minimum), high: values.reduce(rational.maximum) };
}

function curveAt({ between, points }: CurveShape, x: Rational): Rational {
  const index = points.findLastIndex((point) => rational.compare(point.x, x) <= 0);
  const before = points[index] as CurveShape['points'][number];
  const after = points[index + 1];
  if (between === 'steps' || after === undefined) return before.y;
  const share = rational.divide(rational.subtract(x, before.x), rational.subtract(after.x, before.x));
  return rational.add(before.y, rational.multiply(share, rational.subtract(after.y, before.y)));
}

function choiceOver(term: Term & { type: 'choice' }, box: Box): Enclosure {
  const decided = decide(term.condition, box);
  if (decided !== null && typeof decided === 'object') return decided;
  if (decided !== null) return enclose(decided ? term.met : term.otherwise, box);
  return fold([term.met, term.otherwise], box, interval.hull);
}

function withinDigits(enclosure: Enclosure, term: Term): Enclosure {
  if (isNoValue(enclosure)) return enclosure;
  const tooLong = (end: Rational | null) => end !== null && rational.isLongerThan(end, MAXIMUM_DIGITS);
  if (!tooLong(enclosure.low) && !tooLong(enclosure.high)) return enclosure;
  const place = 'place' in term ? term.place : null;
  return place === null ? interval.ENTIRE : noValue(`the result has more than ${MAXIMUM_DIGITS} digits`, place);
}

function noValue(reason: string, place: Place, open: readonly Variable[] = []): NoValue {
  return { type: 'no-value', reason, place, open };
}

function openIn({ support }: Term, { low, high }: Interval): readonly Variable[] {
  if (low !== null && high !== null) return [];
  return [...support].filter(({ full }) => full.low === null || full.high === null);
}

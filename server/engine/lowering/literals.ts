/** Written quantities → terms: an exact figure is a constant, one with a spread a variable of its own. */
import type { Interval } from '../../quantity/interval';
import * as interval from '../../quantity/interval';
import type { Rational } from '../../quantity/rational';
import * as rational from '../../quantity/rational';
import type { Unit } from '../../quantity/unit';
import type { QuantityValue } from '../../quantity/value';
import type { Span } from '../../syntax/span';
import type { Term, Variable } from '../term';
import * as term from '../term';
import { quantity, type Typed } from '../typed';
import type { Environment } from './environment';
import type { Lowering } from './lowering';

/** A literal inside an expression: with a tolerance it is an unnamed fact of its own at the place where it is written. */
export function literal(lowering: Lowering, value: QuantityValue, environment: Environment, span: Span): Typed {
  const id = `${environment.file}:${span.start}`;
  return given(lowering, value, { id, name: '', file: environment.file, span });
}

/** The name and place of a given figure. */
export interface Origin {
  readonly id: string;
  readonly name: string;
  readonly file: string;
  readonly span: Span;
}

/** A given quantity as a term. */
export function given(lowering: Lowering, value: QuantityValue, origin: Origin): Typed {
  const { unit } = value;
  const end = (at: Rational | null) => at && withRates(lowering, term.constant(at), unit);
  const range = value.spread === 'range' ? { low: end(value.low), high: end(value.high) } : null;
  const base = termOf(lowering, value, origin);
  return quantity(withRates(lowering, base, unit), unit.dimension, { point: unit.point, range, unit });
}

function termOf(lowering: Lowering, value: QuantityValue, origin: Origin): Term {
  if (value.spread === 'exact' && value.typical !== null) return term.constant(value.typical);
  return term.variable(variableOf(lowering, value, origin));
}

/** The variable of an origin; one object however often it is asked for. */
function variableOf(lowering: Lowering, value: QuantityValue, { id, name, file, span }: Origin): Variable {
  const known = lowering.variables.get(id);
  if (known !== undefined) return known;
  const full: Interval = { low: value.low, high: value.high };
  const spread = value.spread === 'range' ? 'range' : 'tolerance';
  const typical = spread === 'range' ? full : interval.point(value.typical as Rational);
  const created: Variable = { id, name, place: { file, span }, spread, full, typical };
  lowering.variables.set(id, created);
  return created;
}

/** Multiplies by the rates of own units and currencies whose declared value has a spread. */
export function withRates(lowering: Lowering, base: Term, unit: Unit): Term {
  let result = base;
  for (const [name, exponent] of unit.rates) {
    const rate = lowering.rate(name);
    if (rate !== null) result = term.product(result, term.power(rate.term, exponent, rate.place));
  }
  return result;
}

/** A figure of a plain number, in base units. */
export function exactly(value: Rational): Term {
  return term.constant(value);
}

/** Whether the term is one exact number, and which. */
export function exactValue(of: Term): Rational | null {
  return of.type === 'constant' ? of.value : null;
}

/** The whole number that a term is; null when it is none. */
export function wholeNumber(of: Term): number | null {
  const value = exactValue(of);
  if (value === null || !rational.isInteger(value)) return null;
  const number = rational.toDouble(value);
  return Number.isSafeInteger(number) ? number : null;
}

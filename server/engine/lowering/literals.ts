/** Written quantities → terms: one with a spread is a variable of its own; an exact figure is a constant, or a variable where it may move. */

import type { Fact } from '../../model/fact';
import type { Interval } from '../../quantity/interval';
import * as interval from '../../quantity/interval';
import type { Rational } from '../../quantity/rational';
import * as rational from '../../quantity/rational';
import type { Unit } from '../../quantity/unit';
import type { QuantityValue } from '../../quantity/value';
import { startKey } from '../../syntax/anchor';
import type { Span } from '../../syntax/span';
import { isNoValue } from '../enclosure';
import { keys } from '../recorder';
import type { Support, Term, Variable } from '../term';
import * as term from '../term';
import { quantity, type Typed } from '../typed';
import type { Environment } from './environment';
import type { Lowering } from './lowering';

/** A literal inside an expression: with a tolerance it is an unnamed fact of its own at the place where it is written. */
export function literal(lowering: Lowering, value: QuantityValue, environment: Environment, span: Span): Typed {
  const id = `${environment.file}:${startKey(span)}`;
  return given(lowering, value, { id, name: '', file: environment.file, span, figure: null });
}

/** The name and place of a given figure. */
export interface Origin {
  readonly id: string;
  readonly name: string;
  readonly file: string;
  readonly span: Span;
  /** The figure of the design that it is the value of; null for literals in expressions and items of sets, which do not move. */
  readonly figure: FigureOrigin | null;
}

export interface FigureOrigin {
  readonly fact: Fact;
  readonly mode: string | null;
}

/** A given quantity as a term. */
export function given(lowering: Lowering, value: QuantityValue, origin: Origin): Typed {
  const { unit } = value;
  const end = (which: End, at: Rational | null) =>
    at && withRates(lowering, endTerm(lowering, value, which, at, origin), unit);
  const range = value.spread === 'range' ? { low: end('min', value.low), high: end('max', value.high) } : null;
  const base = termOf(lowering, value, origin);
  return quantity(withRates(lowering, base, unit), unit.dimension, { point: unit.point, range, unit });
}

function termOf(lowering: Lowering, value: QuantityValue, origin: Origin): Term {
  const moves = lowering.figures === 'variables' && origin.figure !== null;
  if (value.spread === 'exact' && value.typical !== null) {
    // All items of a row have one declaration, so an exact figure is one variable for them all.
    return moves ? endTerm(lowering, value, 'typ', value.typical, origin) : term.constant(value.typical);
  }
  const variable = variableOf(lowering, value, origin);
  if (moves) writtenFigure(lowering, value, origin.figure).variables.add(variable);
  return term.variable(variable);
}

/** A written end as a figure of its own. */
function endTerm(
  lowering: Lowering,
  value: QuantityValue,
  which: End,
  at: Rational,
  { name, file, span, figure }: Origin,
): Term {
  if (lowering.figures === 'constants' || figure === null) return term.constant(at);
  const { ends } = writtenFigure(lowering, value, figure);
  const known = ends.get(which);
  if (known !== undefined) return term.variable(known);
  const id = `${figure.fact.name}@${figure.mode ?? ''}.${which}`;
  const extent = interval.point(at);
  const created: Variable = {
    id,
    name,
    place: { file, span },
    spread: 'exact',
    isSymmetric: false,
    unit: value.unit,
    full: extent,
    typical: extent,
  };
  ends.set(which, created);
  return term.variable(created);
}

/** The end of a figure that a variable stands for, as a figure of its own; null where the variable is none of a written figure. */
export function endOfFigure(lowering: Lowering, of: Term, which: End): Term | null {
  if (lowering.figures === 'constants' || of.type !== 'variable') return null;
  const written = lowering.written.get(of.variable.name);
  if (written === undefined || !(written.variables.has(of.variable) || isEnd(written, of.variable))) return null;
  if (written.value.spread === 'exact') return of;
  const at = which === 'min' ? written.value.low : which === 'max' ? written.value.high : written.value.typical;
  if (at === null) return null;
  const { fact } = written;
  return endTerm(lowering, written.value, which, at, {
    id: '',
    name: of.variable.name,
    file: fact.file,
    span: fact.span,
    figure: written,
  });
}

function isEnd({ ends }: WrittenFigure, variable: Variable): boolean {
  return [...ends.values()].includes(variable);
}

function writtenFigure(lowering: Lowering, value: QuantityValue, { fact, mode }: FigureOrigin): WrittenFigure {
  const name = figureName(fact, mode);
  const known = lowering.written.get(name);
  if (known !== undefined) return known;
  const created: WrittenFigure = { name, fact, mode, value, variables: new Set(), ends: new Map() };
  lowering.written.set(name, created);
  return created;
}

/** `supply.input`, `soc.draw.standby`. */
export function figureName({ name }: Fact, mode: string | null): string {
  return mode === null ? name : `${name}.${mode}`;
}

export type End = 'min' | 'typ' | 'max';

/** A given figure as it is written, and all that stands for it in terms. */
export interface WrittenFigure extends FigureOrigin {
  readonly name: string;
  readonly value: QuantityValue;
  /** One for each item of its row that moves apart. Empty for an exact figure. */
  readonly variables: Set<Variable>;
  /** Its ends where something names them; the figure itself, under `typ`, where it is exact. */
  readonly ends: Map<End, Variable>;
}

/** The variable of an origin; one object however often it is asked for. */
function variableOf(lowering: Lowering, value: QuantityValue, { id, name, file, span }: Origin): Variable {
  lowering.note(keys.variable(id));
  const known = lowering.variables.get(id);
  if (known !== undefined) return known;
  const full: Interval = { low: value.low, high: value.high };
  const spread = value.spread === 'range' ? 'range' : 'tolerance';
  const typical = spread === 'range' ? full : interval.point(value.typical as Rational);
  const created: Variable = {
    id,
    name,
    place: { file, span },
    spread,
    isSymmetric: hasEqualSides(value),
    unit: value.unit,
    full,
    typical,
  };
  lowering.variables.set(id, created);
  return created;
}

function hasEqualSides({ form, low, typical, high }: QuantityValue): boolean {
  if ((form.type !== 'symmetric' && form.type !== 'asymmetric') || !low || !typical || !high) return false;
  return rational.equals(rational.subtract(typical, low), rational.subtract(high, typical));
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

/** The number that a term always is, and null where it may be another. */
export function exactValue(of: Term): Rational | null {
  return of.type === 'constant' ? of.value : null;
}

/** The number that a term is as the design stands; null where it has a spread. */
export function presentValue(lowering: Lowering, of: Term): Rational | null {
  if (of.type === 'constant') return of.value;
  if (!isExact(of.support)) return null;
  const found = lowering.extremes.extremes(of, 'full');
  return !isNoValue(found) && interval.isPoint(found.outer) ? found.outer.low : null;
}

/** Nothing in it has a spread. */
function isExact(support: Support): boolean {
  for (const { spread } of support) if (spread !== 'exact') return false;
  return true;
}

/** The whole number that a term is as the design stands; null when it is none. */
export function wholeNumber(lowering: Lowering, of: Term): number | null {
  const value = presentValue(lowering, of);
  if (value === null || !rational.isInteger(value)) return null;
  const number = rational.toDouble(value);
  return Number.isSafeInteger(number) ? number : null;
}

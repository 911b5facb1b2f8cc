/** A given figure that may be moved: by which name, from where, between which neighbours, and where its variables then lie. */
import type { Fact } from '../../model/fact';
import * as dimensions from '../../quantity/dimension';
import type { Interval } from '../../quantity/interval';
import * as interval from '../../quantity/interval';
import type { Rational } from '../../quantity/rational';
import * as rational from '../../quantity/rational';
import type { Unit } from '../../quantity/unit';
import type { QuantityValue } from '../../quantity/value';
import type { Extents } from '../extremes';
import type { WrittenFigure } from '../lowering/literals';
import type { Variable } from '../term';

/**
 * How a written value is moved. *exact*: its only value; *whole*: a tolerance by its typical value, its width kept;
 * *half-width*: the width of a ± tolerance; the others: one written end.
 */
export type Movement = 'exact' | 'whole' | 'half-width' | 'min' | 'typ' | 'max';

/** A place that a figure does not move past. */
export interface Neighbour {
  readonly value: Rational;
  /** The figure that stands there, `supply.input.max`; null for zero, below which there is no count and no width. */
  readonly name: string | null;
}

/** Which values a figure may take; `choices` in ascending order, in base units. */
export type Steps =
  | { readonly type: 'continuous' }
  | { readonly type: 'whole' }
  | { readonly type: 'choices'; readonly values: readonly Rational[] };

export interface Figure {
  /** `supply.draw`, `supply.input.max`, `soc.draw.standby`. */
  readonly name: string;
  readonly fact: Fact;
  readonly mode: string | null;
  readonly movement: Movement;
  readonly value: QuantityValue;
  readonly written: WrittenFigure | null;
  /** Where it is now, in base units. */
  readonly now: Rational;
  readonly lowest: Neighbour | null;
  readonly highest: Neighbour | null;
  readonly steps: Steps;
}

/** The figures of a written value, each of which is moved alone. */
export function figuresOf(
  name: string,
  fact: Fact,
  mode: string | null,
  value: QuantityValue,
  written: WrittenFigure | null,
  ownKinds: ReadonlySet<string>,
): readonly Figure[] {
  const common = { name, fact, mode, value, written, highest: null };
  if (value.spread === 'exact' && value.typical !== null) {
    const steps = stepsOf(fact, value, ownKinds);
    const lowest = steps.type === 'whole' && isQuantity(fact) ? NOTHING : null;
    return [{ movement: 'exact', now: value.typical, steps, lowest, ...common }];
  }
  const { form, low, typical, high } = value;
  if ((form.type === 'symmetric' || form.type === 'asymmetric') && low && typical && high) {
    const steps = stepsOf(fact, value, ownKinds);
    const whole: Figure = { movement: 'whole', now: typical, steps, lowest: null, ...common };
    const now = rational.subtract(high, typical);
    const width: Figure = { movement: 'half-width', now, steps: CONTINUOUS, lowest: NOTHING, ...common };
    return form.type === 'symmetric' ? [whole, width] : [whole];
  }
  return endsOf(common, value);
}

/** No count and no width is less. */
const NOTHING: Neighbour = { value: rational.ZERO, name: null };
const CONTINUOUS: Steps = { type: 'continuous' };

type Common = Pick<Figure, 'name' | 'fact' | 'mode' | 'value' | 'written'>;

/** Each written end; none moves past the next. */
function endsOf({ name, ...common }: Common, { low, typical, high }: QuantityValue): readonly Figure[] {
  const written = (
    [
      ['min', low],
      ['typ', typical],
      ['max', high],
    ] as const
  ).filter((end): end is readonly ['min' | 'typ' | 'max', Rational] => end[1] !== null);
  const neighbour = (index: number): Neighbour | null => {
    const end = written[index];
    return end === undefined ? null : { value: end[1], name: `${name}.${end[0]}` };
  };
  return written.map(([movement, now], index) => ({
    ...common,
    name: `${name}.${movement}`,
    movement,
    now,
    steps: CONTINUOUS,
    lowest: neighbour(index - 1),
    highest: neighbour(index + 1),
  }));
}

function isQuantity({ row, name }: Fact): boolean {
  return row !== null && name === `${row.table}.${row.id}.quantity`;
}

/** Items and what is counted in own `kind` units come whole; a plain number is continuous. */
function stepsOf(fact: Fact, { unit, typical }: QuantityValue, ownKinds: ReadonlySet<string>): Steps {
  const values = fact.choices?.flatMap((choice) =>
    choice.type === 'quantity' &&
    choice.typical !== null &&
    dimensions.isComparable(choice.unit.dimension, unit.dimension)
      ? [choice.typical]
      : [],
  );
  if (values !== undefined && values.length > 0) return { type: 'choices', values: values.toSorted(rational.compare) };
  const isWhole = typical !== null && rational.isInteger(typical);
  return isWhole && (isQuantity(fact) || isOwnKind(unit, ownKinds)) ? { type: 'whole' } : CONTINUOUS;
}

/** A unit that only counts, `lane`: its whole dimension is one kind. */
function isOwnKind({ dimension }: Unit, ownKinds: ReadonlySet<string>): boolean {
  const [kind, ...others] = dimension.kinds;
  if (dimension.base.size > 0 || kind === undefined || others.length > 0) return false;
  return kind[1] === 1 && ownKinds.has(kind[0]);
}

/** The value with the figure moved. */
export function valueAt({ movement, value }: Figure, at: Rational): QuantityValue {
  switch (movement) {
    case 'exact':
      return { ...value, low: at, typical: at, high: at };
    case 'whole':
      return movedWhole(value, at);
    case 'half-width': {
      const typical = value.typical as Rational;
      return { ...value, low: rational.subtract(typical, at), high: rational.add(typical, at) };
    }
    case 'min':
      return { ...value, low: at };
    case 'typ':
      return { ...value, typical: at };
    case 'max':
      return { ...value, high: at };
  }
}

/** A width written in % or ppm keeps its ratio, another its size. */
function movedWhole(value: QuantityValue, at: Rational): QuantityValue {
  const [low, typical, high] = [value.low, value.typical, value.high] as [Rational, Rational, Rational];
  const scale =
    keepsRatio(value) && rational.sign(typical) !== 0 ? rational.absolute(rational.divide(at, typical)) : rational.ONE;
  const below = rational.multiply(rational.subtract(typical, low), scale);
  const above = rational.multiply(rational.subtract(high, typical), scale);
  return { ...value, low: rational.subtract(at, below), typical: at, high: rational.add(at, above) };
}

function keepsRatio({ form, unit }: QuantityValue): boolean {
  return (form.type === 'symmetric' || form.type === 'asymmetric') && form.ratio && unit.point === null;
}

/** Where the variables of the figure lie when it is moved there. */
export function extentsAt(figure: Figure, at: Rational): ReadonlyMap<Variable, Extents> {
  return extentsOf(figure, valueAt(figure, at));
}

function extentsOf({ written }: Figure, { spread, low, typical, high }: QuantityValue): ReadonlyMap<Variable, Extents> {
  const extents = new Map<Variable, Extents>();
  if (written === null) return extents;
  const full: Interval = { low, high };
  const typically = spread === 'range' || typical === null ? full : interval.point(typical);
  for (const variable of written.variables) extents.set(variable, { full, typical: typically });
  for (const [end, variable] of written.ends) {
    const value = end === 'min' ? low : end === 'max' ? high : typical;
    if (value !== null) extents.set(variable, alike(interval.point(value)));
  }
  return extents;
}

function alike(extent: Interval): Extents {
  return { full: extent, typical: extent };
}

/** Everywhere that its variables lie while it moves from one place to another; `to` null: without end in a direction. */
export function extentsBetween(
  figure: Figure,
  from: Rational,
  to: Rational | null,
  direction: 1 | -1,
): ReadonlyMap<Variable, Extents> {
  const start = extentsAt(figure, from);
  const far = extentsAt(figure, to ?? rational.add(from, rational.integer(direction)));
  const joined = new Map<Variable, Extents>();
  for (const [variable, own] of start) {
    const other = far.get(variable) ?? own;
    const join = to === null ? openedToward : interval.hull;
    joined.set(variable, { full: join(own.full, other.full), typical: join(own.typical, other.typical) });
  }
  return joined;
}

/** An end that moves on without end is open; one that moves inward stays where it began. */
function openedToward(own: Interval, next: Interval): Interval {
  const falls = own.low !== null && next.low !== null && rational.compare(next.low, own.low) < 0;
  const rises = own.high !== null && next.high !== null && rational.compare(next.high, own.high) > 0;
  return { low: falls ? null : own.low, high: rises ? null : own.high };
}

/** How fast both ends of each variable follow the figure; null where they do not follow in a straight line from here. */
export function ratesOf(figure: Figure): ReadonlyMap<Variable, Rates> | null {
  const { now, value, movement } = figure;
  const isScaled = movement === 'whole' && keepsRatio(value);
  if (isScaled && rational.sign(now) === 0) return null;
  const step = isScaled ? now : rational.ONE;
  const [here, there] = [extentsAt(figure, now), extentsAt(figure, rational.add(now, step))];
  const rates = new Map<Variable, Rates>();
  for (const [variable, { full }] of here) {
    const moved = there.get(variable)?.full ?? full;
    rates.set(variable, { low: rate(full.low, moved.low, step), high: rate(full.high, moved.high, step) });
  }
  return rates;
}

export interface Rates {
  readonly low: Rational;
  readonly high: Rational;
}

function rate(from: Rational | null, to: Rational | null, step: Rational): Rational {
  if (from === null || to === null) return rational.ZERO;
  return rational.divide(rational.subtract(to, from), step);
}

/** Whether the ends still follow in the same straight line there: a ratio turns round at zero. */
export function isStraightTo({ now, value, movement }: Figure, at: Rational): boolean {
  if (movement !== 'whole' || !keepsRatio(value)) return true;
  return rational.sign(at) === rational.sign(now) || rational.sign(at) === 0;
}

/** Whether the ends follow on in one direction wherever the figure goes: a width of more than all of it would turn round. */
export function isStraightEverywhere({ value, movement }: Figure): boolean {
  if (movement !== 'whole' || !keepsRatio(value)) return true;
  const { low, high } = value;
  return low !== null && high !== null && rational.sign(low) * rational.sign(high) > 0;
}

/** Variables of a term that move with the figure. */
export function movingOf(
  rates: ReadonlyMap<Variable, Rates>,
  support: ReadonlySet<Variable>,
): readonly (readonly [Variable, Rates])[] {
  return [...rates].filter(([variable, own]) => support.has(variable) && isMoving(own));
}

function isMoving({ low, high }: Rates): boolean {
  return rational.sign(low) !== 0 || rational.sign(high) !== 0;
}

/** The one variable of a term that moves with the figure; null where there are several or none. */
export function movingIn(
  figure: Figure,
  support: ReadonlySet<Variable>,
): { readonly variable: Variable; readonly rates: Rates } | null {
  const [only, ...others] = movingOf(ratesOf(figure) ?? new Map(), support);
  return only === undefined || others.length > 0 ? null : { variable: only[0], rates: only[1] };
}

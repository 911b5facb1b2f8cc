/** `+ - * / ^` on typed quantities: dimensions are checked here, points kept apart from lengths. */
import { MAXIMUM_EXPONENT } from '../../../grammar/expression';
import { differenceUnit } from '../../quantity/conversion';
import * as dimension from '../../quantity/dimension';
import * as rational from '../../quantity/rational';
import { UNITY } from '../../quantity/unit';
import type { Expression } from '../../syntax/expression/ast';
import { MAXIMUM_DIGITS } from '../enclosure';
import type { Term } from '../term';
import * as term from '../term';
import { quantity, reason, reasonsOf, type Typed, type TypedQuantity, undecided } from '../typed';
import { describeUnit, mismatchHint, named, nameOf } from './describe';
import { type Environment, placeIn } from './environment';
import { exactValue, wholeNumber } from './literals';
import type { Lowering } from './lowering';

export function lowerNegation(
  lowering: Lowering,
  node: Expression & { type: 'unary' },
  environment: Environment,
): Typed {
  const operand = lowering.expression(node.operand, environment);
  const reasons = reasonsOf(operand);
  if (reasons !== null) return undecided(...reasons);
  if (operand.type !== 'quantity') return notAQuantity(node.operand, operand, environment);
  if (operand.point !== null)
    return undecided(
      reason(
        'unit-mismatch',
        `a point such as ${describeUnit(lowering, operand)} has no negative`,
        placeIn(environment, node.span),
      ),
    );
  return quantity(term.scaled(operand.term, rational.integer(-1)), operand.dimension, { unit: operand.unit });
}

export function lowerBinary(
  lowering: Lowering,
  node: Expression & { type: 'binary' },
  environment: Environment,
): Typed {
  const left = lowering.expression(node.left, environment);
  const right = lowering.expression(node.right, environment);
  const reasons = reasonsOf(left, right);
  if (reasons !== null) return undecided(...reasons);
  if (left.type !== 'quantity') return notAQuantity(node.left, left, environment);
  if (right.type !== 'quantity') return notAQuantity(node.right, right, environment);
  const result =
    node.operator === '+' || node.operator === '-'
      ? addition(lowering, node, left, right, environment)
      : multiplication(lowering, node, left, right, environment);
  return withinDigits(result, node, environment);
}

export function lowerPower(lowering: Lowering, node: Expression & { type: 'power' }, environment: Environment): Typed {
  const base = lowering.expression(node.base, environment);
  const exponent = lowering.expression(node.exponent, environment);
  const reasons = reasonsOf(base, exponent);
  if (reasons !== null) return undecided(...reasons);
  const place = placeIn(environment, node.span);
  if (base.type !== 'quantity') return notAQuantity(node.base, base, environment);
  const whole =
    exponent.type === 'quantity' && exponent.dimension === dimension.DIMENSIONLESS
      ? wholeNumber(lowering, exponent.term)
      : null;
  if (exponent.type === 'quantity') lowering.hold(exponent.term.support);
  if (whole === null || Math.abs(whole) > MAXIMUM_EXPONENT) {
    return undecided(
      reason(
        'no-value',
        `an exponent is a whole number up to ${MAXIMUM_EXPONENT}; for a root write sqrt(x)`,
        placeIn(environment, node.exponent.span),
      ),
    );
  }
  if (base.point !== null) return undecided(pointInProduct(lowering, base, node.base, environment));
  if (whole < 0 && exactValue(base.term) !== null && rational.sign(exactValue(base.term) as rational.Rational) === 0) {
    return undecided(reason('no-value', 'the base of a negative power is 0', place));
  }
  return withinDigits(
    quantity(term.power(base.term, whole, place), dimension.power(base.dimension, whole)),
    node,
    environment,
  );
}

/** Lengths add to lengths, a point and a length to a point; two points subtract to a length and never add. */
function addition(
  lowering: Lowering,
  node: Expression & { type: 'binary' },
  left: TypedQuantity,
  right: TypedQuantity,
  environment: Environment,
): Typed {
  const place = placeIn(environment, node.span);
  const mismatch = left.point !== null && right.point !== null && left.point !== right.point;
  if (!dimension.isComparable(left.dimension, right.dimension) || mismatch) {
    const what = node.operator === '+' ? 'added' : 'subtracted';
    const message = `${named(lowering, node.left, left)} and ${named(lowering, node.right, right)} cannot be ${what}${mismatchHint(left, right)}`;
    return undecided(reason('unit-mismatch', message, place));
  }
  const common = dimension.common(left.dimension, right.dimension);
  const unit = left.unit ?? right.unit;
  if (node.operator === '-') {
    const value = term.difference(left.term, right.term);
    if (left.point === null && right.point !== null)
      return undecided(
        reason(
          'unit-mismatch',
          `a point such as ${describeUnit(lowering, right)} cannot be taken from a length`,
          place,
        ),
      );
    if (left.point !== null && right.point !== null) return quantity(value, common);
    return quantity(value, common, { point: left.point, unit: left.point === null ? unit : left.unit });
  }
  if (left.point !== null && right.point !== null) {
    return undecided(
      reason(
        'unit-mismatch',
        `${nameOf(node.left)} and ${nameOf(node.right)} are both points (${describeUnit(lowering, left)}), and two points do not add; write the one that is a difference in ${differenceUnit(left.unit ?? UNITY).symbol}`,
        place,
      ),
    );
  }
  const point = left.point ?? right.point;
  return quantity(term.sum([left.term, right.term]), common, {
    point,
    unit: left.point !== null ? left.unit : right.point !== null ? right.unit : unit,
  });
}

function multiplication(
  lowering: Lowering,
  node: Expression & { type: 'binary' },
  left: TypedQuantity,
  right: TypedQuantity,
  environment: Environment,
): Typed {
  const leftTerm = inProduct(left, node.left);
  const rightTerm = inProduct(right, node.right);
  if (leftTerm === null) return undecided(pointInProduct(lowering, left, node.left, environment));
  if (rightTerm === null) return undecided(pointInProduct(lowering, right, node.right, environment));
  const unit = scaledUnit(node.operator, left, right);
  const place = placeIn(environment, node.span);
  if (node.operator === '*') {
    return quantity(term.product(leftTerm, rightTerm, place), dimension.multiply(left.dimension, right.dimension), {
      unit,
    });
  }
  const divisor = exactValue(rightTerm);
  if (divisor !== null && rational.sign(divisor) === 0)
    return undecided(reason('no-value', `${nameOf(node.right)} is 0, so there is no quotient`, place));
  return quantity(term.quotient(leftTerm, rightTerm, place), dimension.divide(left.dimension, right.dimension), {
    unit,
  });
}

/** A figure multiplied by a plain number keeps its author's unit. */
function scaledUnit(operator: string, left: TypedQuantity, right: TypedQuantity) {
  const isPlain = ({ dimension: own }: TypedQuantity) => own === dimension.DIMENSIONLESS;
  if (isPlain(right)) return left.unit;
  return operator === '*' && isPlain(left) ? right.unit : null;
}

/** In a product a literal in °C is a difference in K; a fact that is a point has no product at all. */
function inProduct(typed: TypedQuantity, node: Expression): Term | null {
  if (typed.point === null) return typed.term;
  if (typed.point !== 'temperature' || node.type !== 'literal' || typed.unit === null) return null;
  return term.difference(typed.term, term.constant(typed.unit.offset));
}

function pointInProduct(lowering: Lowering, typed: TypedQuantity, node: Expression, environment: Environment) {
  const message = `${nameOf(node)} is a point (${describeUnit(lowering, typed)}); only a difference of two points can be multiplied or divided`;
  return reason('unit-mismatch', message, placeIn(environment, node.span));
}

export function notAQuantity(node: Expression, typed: Typed, environment: Environment): Typed {
  const what = typed.type === 'text' ? 'a text' : typed.type === 'set' ? 'a set' : 'a condition';
  return undecided(
    reason('unit-mismatch', `${nameOf(node)} is ${what}, and a figure is needed here`, placeIn(environment, node.span)),
  );
}

function isKeepable(number: rational.Rational): boolean {
  return !rational.isLongerThan(number, MAXIMUM_DIGITS);
}

/** The numbers that arithmetic has just put into the term; those further below were looked at before. */
function numbersIn(of: Term): readonly rational.Rational[] {
  if (of.type === 'constant') return [of.value];
  if (of.type === 'scaled') return [of.factor];
  return of.type === 'sum' ? of.terms.flatMap((part) => (part.type === 'sum' ? [] : numbersIn(part))) : [];
}

function withinDigits(typed: Typed, node: Expression, environment: Environment): Typed {
  if (typed.type !== 'quantity' || numbersIn(typed.term).every(isKeepable)) return typed;
  return undecided(
    reason('too-large', `the result has more than ${MAXIMUM_DIGITS} digits`, placeIn(environment, node.span)),
  );
}

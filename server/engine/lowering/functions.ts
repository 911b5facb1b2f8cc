/** Functions of plain arguments. */
import * as dimension from '../../quantity/dimension';
import * as rational from '../../quantity/rational';
import type { Expression } from '../../syntax/expression/ast';
import type { FunctionName, Term } from '../term';
import * as term from '../term';
import { quantity, reason, reasonsOf, type Typed, type TypedQuantity, undecided } from '../typed';
import { notAQuantity } from './arithmetic';
import { isComparable } from './comparisons';
import { lowerCondition } from './conditions';
import { describeUnit, isInUnit, nameOf } from './describe';
import { type Environment, placeIn } from './environment';
import { exactValue } from './literals';
import type { Lowering } from './lowering';

type CallNode = Expression & { type: 'call' };

export function lowerCall(lowering: Lowering, node: CallNode, environment: Environment): Typed {
  if (node.name === 'if') return lowerIf(lowering, node, environment);
  if (node.name === 'average') return lowerAverage(lowering, node, environment);
  if (node.name === 'route') {
    return undecided(
      reason('no-value', 'route(a, b) is a table; write it after “over”', placeIn(environment, node.span)),
    );
  }
  const values = node.arguments.map((argument) => lowering.expression(argument, environment));
  const reasons = reasonsOf(...values);
  if (reasons !== null) return undecided(...reasons);
  const wrong = values.findIndex((value) => value.type !== 'quantity');
  if (wrong >= 0) return notAQuantity(node.arguments[wrong] as Expression, values[wrong] as Typed, environment);
  const quantities = values.filter((value): value is TypedQuantity => value.type === 'quantity');
  if (node.name === 'min' || node.name === 'max' || node.name === 'rss')
    return ofAlike(lowering, node, quantities, environment);
  return ofOne(lowering, node, quantities[0] as TypedQuantity, environment);
}

/** Functions of any number of figures in one unit. */
function ofAlike(
  lowering: Lowering,
  node: CallNode,
  quantities: readonly TypedQuantity[],
  environment: Environment,
): Typed {
  const [first] = quantities as [TypedQuantity];
  const place = placeIn(environment, node.span);
  const other = quantities.findIndex((value) => !isComparable(first, value));
  if (other >= 0) {
    const message = `${nameOf(node.arguments[0] as Expression)} ${isInUnit(lowering, first)} and ${nameOf(node.arguments[other] as Expression)} ${isInUnit(lowering, quantities[other] as TypedQuantity)}: ${node.name} needs one unit`;
    return undecided(reason('unit-mismatch', message, place));
  }
  const common = quantities.map((value) => value.dimension).reduce(dimension.common);
  const terms = quantities.map((value) => value.term);
  if (node.name !== 'rss') {
    return quantity(term.extreme(node.name === 'min' ? 'least' : 'greatest', terms), common, {
      point: first.point,
      unit: first.unit,
    });
  }
  if (first.point !== null)
    return undecided(
      reason('unit-mismatch', `rss takes lengths, not points such as ${describeUnit(lowering, first)}`, place),
    );
  const squares = term.sum(terms.map((value) => term.power(value, 2, place)));
  return quantity(term.applied('sqrt', squares, place), common, { unit: first.unit });
}

function ofOne(lowering: Lowering, node: CallNode, value: TypedQuantity, environment: Environment): Typed {
  const place = placeIn(environment, node.span);
  const name = node.name as FunctionName;
  if (value.point !== null) {
    return undecided(
      reason(
        'unit-mismatch',
        `${name} takes no point such as ${describeUnit(lowering, value)}; take a difference`,
        place,
      ),
    );
  }
  const problem = domainProblem(name, exactValue(value.term));
  if (problem !== null) return undecided(reason('no-value', problem, place));
  const applied = simplified(name, value.term, term.applied(name, value.term, place));
  if (name === 'abs') return quantity(applied, value.dimension, { unit: value.unit });
  if (name === 'sqrt') return quantity(applied, dimension.power(value.dimension, 0.5));
  if (value.dimension.base.size > 0) {
    const message = `${name} takes a plain number, and ${nameOf(node.arguments[0] as Expression)} is in ${describeUnit(lowering, value)}; divide it by a unit first`;
    return undecided(reason('unit-mismatch', message, place));
  }
  const isRounding = name === 'floor' || name === 'ceil' || name === 'round';
  return quantity(applied, isRounding ? value.dimension : dimension.DIMENSIONLESS);
}

function domainProblem(name: FunctionName, value: rational.Rational | null): string | null {
  if (value === null) return null;
  if (name === 'sqrt' && rational.sign(value) < 0) return 'sqrt of a negative number';
  return (name === 'ln' || name === 'log10') && rational.sign(value) <= 0 ? `${name} of zero or less` : null;
}

/** Roundings of an exact number are exact numbers. */
function simplified(name: FunctionName, operand: Term, applied: Term): Term {
  const value = exactValue(operand);
  if (value === null) return applied;
  switch (name) {
    case 'abs':
      return term.constant(rational.absolute(value));
    case 'floor':
      return term.constant(rational.floor(value));
    case 'ceil':
      return term.constant(rational.ceiling(value));
    case 'round':
      return term.constant(rational.round(value));
    default:
      return applied;
  }
}

function lowerIf(lowering: Lowering, node: CallNode, environment: Environment): Typed {
  const [conditionNode, metNode, otherwiseNode] = node.arguments as [Expression, Expression, Expression];
  const condition = lowerCondition(lowering, conditionNode, environment);
  if ('reasons' in condition) return undecided(...condition.reasons);
  const known = lowering.known(condition);
  if (known !== null) return lowering.expression(known ? metNode : otherwiseNode, environment);
  const met = lowering.expression(metNode, environment);
  const otherwise = lowering.expression(otherwiseNode, environment);
  const reasons = reasonsOf(met, otherwise);
  if (reasons !== null) return undecided(...reasons);
  if (met.type === 'condition' && otherwise.type === 'condition') {
    const chosen = term.either([
      term.both([condition, met.condition]),
      term.both([term.negated(condition), otherwise.condition]),
    ]);
    return { type: 'condition', condition: chosen };
  }
  const place = placeIn(environment, node.span);
  if (met.type !== 'quantity' || otherwise.type !== 'quantity' || !isComparable(met, otherwise)) {
    return undecided(reason('unit-mismatch', 'both outcomes of “if” need one unit', place));
  }
  return quantity(
    term.choice(condition, met.term, otherwise.term),
    dimension.common(met.dimension, otherwise.dimension),
    { point: met.point, unit: met.unit },
  );
}

/** `average(x, 65 % standby, 35 % record)`: x in each mode, weighed by its share of the time. */
function lowerAverage(lowering: Lowering, node: CallNode, environment: Environment): Typed {
  const [figure, ...shares] = node.arguments as readonly [Expression, ...Expression[]];
  const place = placeIn(environment, node.span);
  const parts: TypedQuantity[] = [];
  const weights: rational.Rational[] = [];
  for (const share of shares) {
    const read = readShare(lowering, share);
    if (read === null)
      return undecided(
        reason(
          'no-value',
          `an average is average(x, 65 % standby, 35 % record): a share and a mode each`,
          placeIn(environment, share.span),
        ),
      );
    const value = lowering.inOwnMode(() => lowering.expression(figure, { ...environment, mode: read.mode }));
    const reasons = reasonsOf(value);
    if (reasons !== null) return undecided(...reasons);
    if (value.type !== 'quantity') return notAQuantity(figure, value, environment);
    parts.push(value);
    weights.push(read.weight);
  }
  const total = weights.reduce(rational.add, rational.ZERO);
  if (!rational.equals(total, rational.ONE))
    return undecided(reason('no-value', 'the shares of an average add up to 100 %', place));
  const [first] = parts as [TypedQuantity];
  if (parts.some((part) => !isComparable(first, part)))
    return undecided(reason('unit-mismatch', 'the figure has different units in different modes', place));
  const terms = parts.map((part, index) => term.scaled(part.term, weights[index] as rational.Rational));
  return quantity(term.sum(terms), parts.map((part) => part.dimension).reduce(dimension.common), {
    point: first.point,
    unit: first.unit,
  });
}

function readShare(
  lowering: Lowering,
  node: Expression,
): { readonly weight: rational.Rational; readonly mode: string } | null {
  if (node.type !== 'binary' || node.left.type !== 'literal' || node.right.type !== 'name') return null;
  const [mode] = node.right.parts;
  const { value } = node.left;
  if (mode === undefined || !lowering.product.modes.has(mode)) return null;
  if (value.spread !== 'exact' || value.typical === null || value.unit.dimension !== dimension.DIMENSIONLESS)
    return null;
  return { weight: value.typical, mode };
}

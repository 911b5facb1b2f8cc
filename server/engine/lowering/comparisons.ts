/** Comparisons → conditions: quantities by dimension, texts by equality or by their place in a scale, sets by membership. */
import * as dimension from '../../quantity/dimension';
import type { Expression } from '../../syntax/expression/ast';
import type { Condition, PlainRelation } from '../term';
import * as term from '../term';
import { type Absent, reason, reasonsOf, type Typed, type TypedQuantity, undecided } from '../typed';
import { describeUnit, isInUnit, mismatchHint, nameOf } from './describe';
import { type Environment, placeIn } from './environment';
import type { Lowering } from './lowering';
import { isKnownText, unknownText } from './texts';

export function lowerComparison(
  lowering: Lowering,
  node: Expression & { type: 'comparison' },
  environment: Environment,
): Typed {
  const left = lowering.expression(node.left, environment);
  const right = lowering.expression(node.right, environment);
  const textProblem = unknownTextIn(lowering, node, left, right, environment);
  if (textProblem !== null) return textProblem;
  const absent = left.type === 'absent' ? left : right.type === 'absent' ? right : null;
  if (absent !== null && !absent.quantity)
    return { type: 'condition', condition: equalToNothing(absent, node.relation) };
  const reasons = reasonsOf(left, right);
  if (reasons !== null) return undecided(...reasons);
  if (left.type === 'quantity' && right.type === 'quantity')
    return compareQuantities(lowering, node, left, right, environment);
  if (left.type === 'text' && right.type === 'text')
    return compareTexts(lowering, node, left.text, right.text, environment);
  if (left.type === 'condition' && right.type === 'condition')
    return compareConditions(node, left.condition, right.condition, environment);
  return mismatch(lowering, node, left, right, environment);
}

export function lowerEnds(lowering: Lowering, node: Expression & { type: 'ends' }, environment: Environment): Typed {
  const [value, low, high] = [node.value, node.low, node.high].map((part) =>
    lowering.expression(part, environment),
  ) as [Typed, Typed, Typed];
  const reasons = reasonsOf(value, low, high);
  if (reasons !== null) return undecided(...reasons);
  if (value.type !== 'quantity' || low.type !== 'quantity' || high.type !== 'quantity')
    return mismatch(lowering, node, value, low, environment);
  const wrong = [low, high].find((end) => !isComparable(value, end));
  if (wrong !== undefined) return mismatch(lowering, node, value, wrong, environment);
  if (node.relation === 'within') {
    return condition(
      term.both([
        term.comparison('>=', term.difference(value.term, low.term)),
        term.comparison('<=', term.difference(value.term, high.term)),
      ]),
    );
  }
  if (value.range === null) return undecided(spansNothing(node, environment));
  const ends: Condition[] = [];
  if (value.range.low !== null) ends.push(term.comparison('<=', term.difference(value.range.low, low.term)));
  if (value.range.high !== null) ends.push(term.comparison('>=', term.difference(value.range.high, high.term)));
  return condition(term.both(ends));
}

/** Why a value that is no range spans nothing. */
export function spansNothing(node: Expression & { type: 'ends' }, environment: Environment) {
  const message = `${nameOf(node.value)} is no range, so it spans nothing; give it as A to B or {min: A, max: B}, or write “within”`;
  return reason('no-value', message, placeIn(environment, node.value.span));
}

export function lowerOneOf(lowering: Lowering, node: Expression & { type: 'one-of' }, environment: Environment): Typed {
  return membership(lowering, node.value, node.set, environment);
}

export function lowerHas(lowering: Lowering, node: Expression & { type: 'has' }, environment: Environment): Typed {
  return membership(lowering, node.item, node.set, environment);
}

function membership(lowering: Lowering, itemNode: Expression, setNode: Expression, environment: Environment): Typed {
  const item = lowering.expression(itemNode, environment);
  const set = lowering.expression(setNode, environment);
  if (item.type === 'absent' && !item.quantity) return condition(term.known(false));
  if (set.type === 'absent') return condition(term.known(false));
  const reasons = reasonsOf(item, set);
  if (reasons !== null) return undecided(...reasons);
  const items = set.type === 'set' ? set.items : set.type === 'text' || set.type === 'quantity' ? [set] : [];
  if (items.length === 0)
    return undecided(reason('unit-mismatch', `${nameOf(setNode)} is no set`, placeIn(environment, setNode.span)));
  if (item.type === 'text')
    return condition(term.known(items.some((entry) => entry.type === 'text' && entry.text === item.text)));
  if (item.type !== 'quantity')
    return undecided(
      reason('unit-mismatch', `${nameOf(itemNode)} cannot be in a set`, placeIn(environment, itemNode.span)),
    );
  const figures = items.filter((entry): entry is TypedQuantity => entry.type === 'quantity');
  const wrong = figures.find((entry) => !isComparable(item, entry));
  if (wrong !== undefined || figures.length < items.length) {
    return undecided(
      reason(
        'unit-mismatch',
        `${nameOf(itemNode)} ${isInUnit(lowering, item)}, and the set holds something else`,
        placeIn(environment, itemNode.span),
      ),
    );
  }
  return condition(term.either(figures.map((entry) => term.comparison('=', term.difference(item.term, entry.term)))));
}

function compareQuantities(
  lowering: Lowering,
  node: Expression & { type: 'comparison' },
  left: TypedQuantity,
  right: TypedQuantity,
  environment: Environment,
): Typed {
  if (!isComparable(left, right)) return mismatch(lowering, node, left, right, environment);
  return condition(term.comparison(node.relation, term.difference(left.term, right.term)));
}

export function isComparable(a: TypedQuantity, b: TypedQuantity): boolean {
  return a.point === b.point && dimension.isComparable(a.dimension, b.dimension);
}

function compareTexts(
  lowering: Lowering,
  node: Expression & { type: 'comparison' },
  left: string,
  right: string,
  environment: Environment,
): Typed {
  if (node.relation === '=') return condition(term.known(left === right));
  if (node.relation === '!=') return condition(term.known(left !== right));
  for (const scale of lowering.product.configuration.scales.values()) {
    const [leftPlace, rightPlace] = [scale.indexOf(left), scale.indexOf(right)];
    if (leftPlace >= 0 && rightPlace >= 0)
      return condition(term.known(term.holdsOf(node.relation, leftPlace - rightPlace)));
  }
  const message = `"${left}" and "${right}" stand in no scale, so neither is above the other; write = or !=, or a scale in plimsoll.yaml`;
  return undecided(reason('unit-mismatch', message, placeIn(environment, node.span)));
}

function compareConditions(
  node: Expression & { type: 'comparison' },
  left: Condition,
  right: Condition,
  environment: Environment,
): Typed {
  if (node.relation !== '=' && node.relation !== '!=') {
    return undecided(
      reason(
        'unit-mismatch',
        `yes and no are only equal or not; “${node.relation}” says nothing about them`,
        placeIn(environment, node.span),
      ),
    );
  }
  const same = term.either([term.both([left, right]), term.both([term.negated(left), term.negated(right)])]);
  return condition(node.relation === '=' ? same : term.negated(same));
}

/** A text or yes/no field that a row lacks equals nothing. */
function equalToNothing(_absent: Absent, relation: PlainRelation): Condition {
  return term.known(relation === '!=');
}

/** A text compared with a field must be one that the field has somewhere, or stand in a scale: else it is a slip of the pen. */
function unknownTextIn(
  lowering: Lowering,
  node: Expression & { type: 'comparison' },
  left: Typed,
  right: Typed,
  environment: Environment,
): Typed | null {
  const sides: readonly (readonly [Expression, Typed, Expression])[] = [
    [node.left, left, node.right],
    [node.right, right, node.left],
  ];
  for (const [name, typed, literal] of sides) {
    if (name.type !== 'name' || literal.type !== 'text') continue;
    if (typed.type !== 'text' && typed.type !== 'absent') continue;
    if (!isKnownText(lowering, name.parts, literal.text, environment)) {
      return undecided(unknownText(lowering, name.parts, literal, environment));
    }
  }
  return null;
}

function mismatch(lowering: Lowering, node: Expression, left: Typed, right: Typed, environment: Environment): Typed {
  const [leftNode, rightNode] =
    node.type === 'comparison' ? [node.left, node.right] : node.type === 'ends' ? [node.value, node.low] : [node, node];
  const described = (typed: Typed, other: Typed) =>
    typed.type === 'quantity'
      ? quantityBeside(lowering, typed, other)
      : typed.type === 'text'
        ? 'is a text'
        : typed.type === 'set'
          ? 'is a set'
          : 'is yes or no';
  const hint =
    rightNode.type === 'name' && left.type === 'text' ? `; a text needs quotes: "${rightNode.parts.join('.')}"` : '';
  const missing = left.type === 'quantity' && right.type === 'quantity' ? mismatchHint(left, right) : '';
  const message = `${nameOf(leftNode)} ${described(left, right)} and ${nameOf(rightNode)} ${described(right, left)}: they cannot be compared${hint}${missing}`;
  return undecided(reason('unit-mismatch', message, placeIn(environment, node.span)));
}

/** A point and a difference may have one unit, so what each is has to be said. */
function quantityBeside(lowering: Lowering, typed: TypedQuantity, other: Typed): string {
  const isMixed = other.type === 'quantity' && (typed.point === null) !== (other.point === null);
  if (!isMixed || !dimension.isComparable(typed.dimension, other.dimension)) return isInUnit(lowering, typed);
  return `is a ${typed.point === null ? 'difference' : 'point'} in ${describeUnit(lowering, typed)}`;
}

function condition(of: Condition): Typed {
  return { type: 'condition', condition: of };
}

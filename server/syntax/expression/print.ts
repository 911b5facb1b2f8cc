/** Expression trees → their canonical text: one space around operators, unit symbols as in the unit table, numbers in digits. */
import { formatValue } from '../../quantity/format';
import { UNITY } from '../../quantity/unit';
import type { Expression } from './ast';

/** How tightly each kind of node binds; a looser one inside a tighter one gets brackets. */
const RANK: Partial<Record<Expression['type'], number>> = {
  comparison: 3,
  ends: 3,
  'one-of': 3,
  has: 3,
  else: 4,
  power: 8,
};

const SUM_RANK = 5;
/** A minus sign binds looser than a power: `-2^2` is -(2^2). */
const SIGN_RANK = 7;

export function printExpression(node: Expression): string {
  switch (node.type) {
    case 'missing':
      return '…';
    case 'literal':
      return formatValue({ ...node.value, unit: { ...node.value.unit, symbol: node.value.unit.canonical } });
    case 'text':
      return `"${node.text.replace(/["\\]/g, '\\$&')}"`;
    case 'boolean':
      return node.value ? 'yes' : 'no';
    case 'set':
      return `(${node.items.map(printExpression).join(', ')})`;
    case 'name':
      return node.parts.join('.');
    case 'call':
      return `${node.name}(${node.arguments.map(printExpression).join(', ')})`;
    case 'aggregate':
      return printAggregate(node);
    default:
      return printOperator(node);
  }
}

type Operator = Exclude<
  Expression,
  { type: 'missing' | 'literal' | 'text' | 'boolean' | 'set' | 'name' | 'call' | 'aggregate' }
>;

function printOperator(node: Operator): string {
  const own = rankOf(node);
  const inside = (child: Expression, least = own) =>
    rankOf(child) < least ? `(${printExpression(child)})` : printExpression(child);
  switch (node.type) {
    case 'unary':
      if (node.operator === 'not') return `not ${inside(node.operand)}`;
      // `-20 °C` would be read as a point below zero, not as the negative of one.
      return node.operand.type === 'literal' ? `-(${printExpression(node.operand)})` : `-${inside(node.operand)}`;
    case 'binary':
    case 'logical':
      return `${inside(node.left)} ${node.operator} ${inside(node.right, own + 1)}`;
    case 'power':
      return `${inside(node.base, own + 1)}^${inside(node.exponent, SIGN_RANK)}`;
    case 'comparison':
      return `${inside(node.left, own + 1)} ${node.relation} ${inside(node.right, own + 1)}`;
    case 'ends':
      return `${inside(node.value, own + 1)} ${node.relation} ${inside(node.low, SUM_RANK)} to ${inside(node.high, SUM_RANK)}`;
    case 'one-of':
      return `${inside(node.value, own + 1)} is one of ${inside(node.set, own + 1)}`;
    case 'has':
      return `${inside(node.set, own + 1)} has ${inside(node.item, own + 1)}`;
    case 'else':
      return `${inside(node.value, own + 1)} else ${inside(node.otherwise)}`;
  }
}

function printAggregate(node: Expression & { type: 'aggregate' }): string {
  const over = `${printExpression(node.table)}${node.row === null ? '' : ` as ${node.row}`}`;
  const where = node.condition === null ? '' : ` where ${printExpression(node.condition)}`;
  return node.element === null
    ? `${node.name}(${over}${where})`
    : `${node.name}(${printExpression(node.element)} over ${over}${where})`;
}

function rankOf(node: Expression): number {
  switch (node.type) {
    case 'logical':
      return node.operator === 'or' ? 1 : 2;
    case 'unary':
      return node.operator === 'not' ? 2.5 : SIGN_RANK;
    case 'literal':
      // `5 V^2` has a unit of V², and `-2^2` is -(2^2): only bare digits stand before a power without brackets.
      return node.value.unit.symbol === UNITY.symbol && /^[\d.]+$/.test(formatValue(node.value)) ? 9 : SIGN_RANK;
    case 'binary':
      return node.operator === '+' || node.operator === '-' ? SUM_RANK : 6;
    default:
      return RANK[node.type] ?? 9;
  }
}

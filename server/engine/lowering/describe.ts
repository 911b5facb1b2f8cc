/** How messages name a part of an expression and its unit. */
import { angleHint } from '../../quantity/angle-hint';
import { coherentUnit } from '../../quantity/coherent-unit';
import { DIMENSIONLESS } from '../../quantity/dimension';
import { formatValue } from '../../quantity/format';
import type { Expression } from '../../syntax/expression/ast';
import type { TypedQuantity } from '../typed';
import type { Lowering } from './lowering';

const NO_UNIT = 'no unit';

/** The unit in words: its symbol, or “no unit” for a plain number. */
export function describeUnit(lowering: Lowering, { unit, dimension }: TypedQuantity): string {
  if (unit !== null && unit.dimension === dimension && unit.canonical !== '1') return unit.canonical;
  return dimension === DIMENSIONLESS ? NO_UNIT : coherentUnit(dimension, lowering.product.units).symbol;
}

/** `is in W`, `has no unit`. */
export function isInUnit(lowering: Lowering, typed: TypedQuantity): string {
  const unit = describeUnit(lowering, typed);
  return unit === NO_UNIT ? `has ${NO_UNIT}` : `is in ${unit}`;
}

/** `draw (in W)`, `60 W`, `ratio (no unit)`. */
export function named(lowering: Lowering, node: Expression, typed: TypedQuantity): string {
  const unit = describeUnit(lowering, typed);
  if (node.type === 'literal' && unit !== NO_UNIT) return nameOf(node);
  return `${nameOf(node)} (${unit === NO_UNIT ? NO_UNIT : `in ${unit}`})`;
}

/** What would make two quantities comparable, behind a semicolon: two currencies want a rate, turns want 2π. */
export function mismatchHint(a: TypedQuantity, b: TypedQuantity): string {
  const hint = rateHint(a, b) ?? angleHint(a.dimension, b.dimension);
  return hint === null ? '' : `; ${hint}`;
}

function rateHint(a: TypedQuantity, b: TypedQuantity): string | null {
  const [from, to] = [moneyOf(a), moneyOf(b)];
  if (from === null || to === null || from === to) return null;
  return `give their rate in plimsoll.yaml, such as units: {${to}: 0.9 ${from}}`;
}

function moneyOf({ dimension }: TypedQuantity): string | null {
  const [only, ...others] = dimension.base.keys();
  return others.length === 0 && only?.startsWith('money:') ? only.slice('money:'.length) : null;
}

/** The part as written where that is short, else what it is. */
export function nameOf(node: Expression): string {
  switch (node.type) {
    case 'name':
      return node.parts.join('.');
    case 'literal':
      return formatValue(node.value);
    case 'text':
      return `"${node.text}"`;
    case 'call':
    case 'aggregate':
      return `${node.name}(…)`;
    case 'unary':
      return `${node.operator === '-' ? '-' : 'not '}${nameOf(node.operand)}`;
    case 'binary':
      return `${nameOf(node.left)} ${node.operator} ${nameOf(node.right)}`;
    default:
      return 'this';
  }
}

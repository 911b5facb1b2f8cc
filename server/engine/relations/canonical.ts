/** Expressions → one text for all that say the same: operands that commute are ordered, other names of a fact are followed. */

import { lookUp, type Meaning } from '../../model/names';
import type { Product } from '../../model/product';
import { withoutKinds } from '../../quantity/dimension';
import type { QuantityValue } from '../../quantity/value';
import { startKey } from '../../syntax/anchor';
import { type Aggregate, type Binary, children, type Expression, type Literal } from '../../syntax/expression/ast';

/** Where an expression stands. */
export interface Standing {
  readonly product: Product;
  readonly file: string;
  /** False inside an aggregate, where names are first of all fields of its rows. */
  readonly followsNames: boolean;
}

/** What a name says, its suffixes apart: `supply.input.record.max` is the greatest of `supply.input` in *record*. */
export interface NameParts {
  readonly name: string;
  readonly mode: string | null;
  readonly end: 'min' | 'typ' | 'max' | null;
}

/** Functions whose arguments may change places. */
const COMMUTING: ReadonlySet<string> = new Set(['min', 'max', 'rss']);
/** The longest way from a fact through facts that are nothing but another name. */
const MOST_ALIASES = 64;

/** Equal texts, equal meaning; unequal texts may still mean the same. Linear in the expression but for the ordering. */
export function canonicalText(node: Expression, standing: Standing): string {
  const below = (child: Expression) => canonicalText(child, standing);
  switch (node.type) {
    case 'literal':
      return literalText(node, standing);
    case 'text':
      return JSON.stringify(node.text);
    case 'boolean':
      return node.value ? 'yes' : 'no';
    case 'name':
      return nameText(nameParts(node.parts, standing));
    case 'missing':
      return `missing@${standing.file}:${startKey(node.span)}`;
    case 'binary':
      return operatorText(node, standing);
    case 'logical':
      return ordered(`${node.operator}`, operandsOf(node, node.operator).map(below));
    case 'comparison':
      return comparisonText(node, below);
    case 'call':
      return COMMUTING.has(node.name)
        ? ordered(node.name, node.arguments.map(below))
        : inOrder(node.name, node.arguments.map(below));
    case 'aggregate':
      return aggregateText(node, standing);
    case 'unary':
      return inOrder(node.operator, [below(node.operand)]);
    default:
      return inOrder('relation' in node ? node.relation : node.type, children(node).map(below));
  }
}

/** A name from the root, and through facts that are nothing but another name. */
export function nameParts(parts: readonly string[], { product, followsNames }: Standing): NameParts {
  const written: NameParts = { name: parts.join('.'), mode: null, end: null };
  const meaning = followsNames ? lookUp(product, parts, []) : null;
  return meaning === null ? written : (partsOf(product, meaning, MOST_ALIASES) ?? written);
}

function partsOf(product: Product, meaning: Meaning, steps: number): NameParts | null {
  if (meaning.type === 'end') return withSuffix(partsOf(product, meaning.of, steps), { end: meaning.end });
  if (meaning.type === 'in-mode') return withSuffix(partsOf(product, meaning.of, steps), { mode: meaning.mode });
  if (meaning.type !== 'fact') return null;
  const { fact } = meaning;
  const own: NameParts = { name: fact.name, mode: null, end: null };
  // A field's expression stands at one item of its row, which its name from the root does not say.
  if (fact.row !== null || fact.content.type !== 'expression' || fact.content.expression.type !== 'name') return own;
  const next = steps === 0 ? null : lookUp(product, fact.content.expression.parts, fact.scope);
  return next === null ? own : (partsOf(product, next, steps - 1) ?? own);
}

/** A suffix on a name that has one already says something else: it stays a name of its own. */
function withSuffix(of: NameParts | null, suffix: Partial<NameParts>): NameParts | null {
  if (of === null || of.end !== null || (of.mode !== null && suffix.mode !== undefined)) return null;
  return { ...of, ...suffix };
}

function nameText({ name, mode, end }: NameParts): string {
  return [name, mode, end].filter((part) => part !== null).join('.');
}

function literalText({ value, span }: Literal, { file }: Standing): string {
  // A figure with a spread is a fact of its own at each place where it is written.
  if (value.spread !== 'exact' || value.typical === null) return `figure@${file}:${startKey(span)}`;
  return exactText(value);
}

function exactText({ typical, unit }: QuantityValue): string {
  const number = typical === null ? '' : `${typical.numerator}/${typical.denominator}`;
  const rates = [...unit.rates].map(([name, exponent]) => `${name}^${exponent}`).sort();
  return `${[number, withoutKinds(unit.dimension).key, unit.point ?? '', ...rates].join(' ')}`;
}

/** Sums and products as lists, each operand with its sign or with the side of the stroke that it stands on. */
function operatorText(node: Binary, standing: Standing): string {
  const isSum = node.operator === '+' || node.operator === '-';
  const operands: string[] = [];
  const stack: (readonly [Expression, boolean])[] = [[node, false]];
  for (let top = stack.pop(); top !== undefined; top = stack.pop()) {
    const [part, isInverse] = top;
    const belongs = part.type === 'binary' && (part.operator === '+' || part.operator === '-') === isSum;
    if (!belongs) {
      operands.push(`${isInverse ? 'less' : 'with'} ${canonicalText(part, standing)}`);
      continue;
    }
    const turns = part.operator === '-' || part.operator === '/';
    stack.push([part.left, isInverse], [part.right, turns ? !isInverse : isInverse]);
  }
  return ordered(isSum ? 'sum of' : 'product of', operands);
}

function operandsOf(node: Expression, operator: 'and' | 'or'): readonly Expression[] {
  return node.type === 'logical' && node.operator === operator
    ? [...operandsOf(node.left, operator), ...operandsOf(node.right, operator)]
    : [node];
}

function comparisonText(
  { relation, left, right }: Expression & { type: 'comparison' },
  below: (child: Expression) => string,
): string {
  if (relation === '=' || relation === '!=') return ordered(relation, [below(left), below(right)]);
  const isTurned = relation.startsWith('>');
  const sides = isTurned ? [below(right), below(left)] : [below(left), below(right)];
  return inOrder(relation.replace('>', '<'), sides);
}

function aggregateText({ name, element, table, row, condition }: Aggregate, standing: Standing): string {
  const inside = { ...standing, followsNames: false };
  const part = (node: Expression | null) => (node === null ? '' : canonicalText(node, inside));
  return inOrder(name, [part(element), part(table), row ?? '', part(condition)]);
}

function ordered(name: string, operands: readonly string[]): string {
  return inOrder(name, [...operands].sort());
}

function inOrder(name: string, operands: readonly string[]): string {
  return `${name}(${operands.join(', ')})`;
}

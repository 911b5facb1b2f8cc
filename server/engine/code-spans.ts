/** What each code span of a statement is: a reference to the design, a mode, or ordinary code. */

import { FUNCTION_NAMES } from '../../grammar/expression';
import { knownNames, lookUp } from '../model/names';
import { editDistance } from '../model/nearest';
import * as rational from '../quantity/rational';
import { UNITY } from '../quantity/unit';
import type { QuantityValue } from '../quantity/value';
import { spanBeside } from '../syntax/anchor';
import { descendants, type Expression } from '../syntax/expression/ast';
import { type ParsedExpression, parseExpression } from '../syntax/expression/parser';
import type { CodeSpan } from '../syntax/markdown/block';
import { covers, type Span } from '../syntax/span';
import { atRoot } from './lowering/environment';
import type { Lowering } from './lowering/lowering';
import { nearestNames } from './lowering/names';
import type { CodeType, InnerComparison } from './pairing';
import { type Reason, reason, type Typed, type TypedQuantity } from './typed';

export interface ReadCode {
  readonly code: CodeSpan;
  readonly type: CodeType;
  /** Null for ordinary code and modes. */
  readonly expression: Expression | null;
  readonly reasons: readonly Reason[];
}

/** Reads a code span of prose in a document. `notLimits`: words that the author says are no reference. */
export function readCode(lowering: Lowering, code: CodeSpan, file: string, notLimits: readonly string[]): ReadCode {
  if (notLimits.includes(code.code.trim())) return ordinary(code);
  const parsed = parseCode(lowering, code);
  const { expression } = parsed;
  if (expression.type === 'name' && expression.parts.length === 1) return readWord(lowering, code, expression, file);
  if (parsed.problems.length > 0) {
    const isMeant = looksLikeReference(lowering, code, expression) || looksLikeCall(lowering, code);
    return isMeant ? broken(code, parsed.problems, file) : ordinary(code);
  }
  if (!isReference(expression) && !isNegatedName(lowering, expression)) return ordinary(code);
  return orNoName(lowering, readReference(lowering, code, expression, file), file);
}

/** Reads a code span where only a reference can stand: behind *Check* and *Applies when*. */
export function readReferenceCode(lowering: Lowering, code: CodeSpan, file: string): ReadCode {
  const { expression, problems } = parseCode(lowering, code);
  return problems.length > 0 ? broken(code, problems, file) : readReference(lowering, code, expression, file);
}

function parseCode(lowering: Lowering, code: CodeSpan): ParsedExpression {
  return parseExpression(code.code, lowering.product.units, (start, end) =>
    spanBeside(
      code.span,
      Math.min(code.span.start + start, code.span.end),
      Math.min(code.span.start + end, code.span.end),
    ),
  );
}

/** One word: a name, a mode, a slip of one letter, or ordinary code. */
function readWord(
  lowering: Lowering,
  code: CodeSpan,
  expression: Expression & { type: 'name' },
  file: string,
): ReadCode {
  const [word = ''] = expression.parts;
  const meaning = lookUp(lowering.product, expression.parts, []);
  if (meaning?.type === 'mode') return { code, type: { type: 'mode', mode: word }, expression: null, reasons: [] };
  if (meaning === null && !isNearlyKnown(lowering, word)) return ordinary(code);
  return orNoName(lowering, readReference(lowering, code, expression, file), file);
}

function isNearlyKnown(lowering: Lowering, word: string): boolean {
  if (word.length < 3) return false;
  for (const known of knownNames(lowering.product)) {
    if (Math.abs(known.length - word.length) <= 1 && editDistance(word, known, 1) <= 1) return true;
  }
  return false;
}

function readReference(lowering: Lowering, code: CodeSpan, expression: Expression, file: string): ReadCode {
  const typed = inSomeMode(lowering, expression, file);
  if (typed.type !== 'undecided' && typed.type !== 'absent')
    return { code, type: typeOf(lowering, typed, expression), expression, reasons: [] };
  const causes = typed.type === 'undecided' ? typed.reasons : [];
  const reasons = causes.map((cause) => withQuotes(lowering, cause, expression));
  // A condition is one whether or not it can be decided, so its own figures are no limits of the sentence.
  const type: CodeType = isConditionShaped(expression)
    ? { type: 'condition', comparisons: comparisonsIn(expression) }
    : { type: 'undecided' };
  return { code, type, expression, reasons };
}

function isConditionShaped(expression: Expression): boolean {
  switch (expression.type) {
    case 'comparison':
    case 'ends':
    case 'one-of':
    case 'has':
    case 'logical':
      return true;
    case 'unary':
      return expression.operator === 'not';
    case 'aggregate':
      return expression.name === 'all' || expression.name === 'any';
    default:
      return false;
  }
}

/** Its meaning in the first mode in which it has one; most names mean the same in all. */
function inSomeMode(lowering: Lowering, expression: Expression, file: string): Typed {
  const plain = lowering.tracked(() => lowering.expression(expression, atRoot(file, null)));
  if (!plain.moded) return plain.result;
  for (const mode of lowering.product.modes) {
    const typed = lowering.expression(expression, atRoot(file, mode));
    if (typed.type !== 'undecided') return typed;
  }
  return plain.result;
}

function typeOf(
  lowering: Lowering,
  typed: Exclude<Typed, { type: 'undecided' | 'absent' }>,
  expression: Expression,
): CodeType {
  switch (typed.type) {
    case 'quantity':
      return quantityType(lowering, typed, expression);
    case 'condition':
      return expression.type === 'name'
        ? { type: 'boolean' }
        : { type: 'condition', comparisons: comparisonsIn(expression) };
    case 'text':
      return { type: 'text' };
    case 'set':
      return { type: 'set' };
  }
}

function quantityType(lowering: Lowering, typed: TypedQuantity, expression: Expression): CodeType {
  const isRange = typed.range !== null;
  return {
    type: 'quantity',
    dimension: typed.dimension,
    point: typed.point,
    isRange,
    isCount: isCount(lowering, typed, expression),
    comparisons: comparisonsIn(expression),
  };
}

/** Counts items: `count(…)`, a name that stands for one, or a plain whole number from 2 on; a share never fits it. */
export function isCount(
  lowering: Lowering,
  { term, unit, dimension }: Pick<TypedQuantity, 'term' | 'unit' | 'dimension'>,
  expression: Expression,
): boolean {
  if (dimension.base.size > 0) return false;
  if (expression.type === 'aggregate') return expression.name === 'count';
  const fact = expression.type === 'name' ? lowering.product.facts.get(expression.parts.join('.')) : undefined;
  if (fact?.content.type === 'expression') return isCount(lowering, { term, unit, dimension }, fact.content.expression);
  if (fact === undefined || term.type !== 'constant' || unit?.canonical !== UNITY.canonical) return false;
  return rational.isInteger(term.value) && rational.compare(term.value, rational.integer(2)) >= 0;
}

/** Comparisons with a written quantity anywhere in an expression. */
export function comparisonsIn(expression: Expression): readonly InnerComparison[] {
  const found: InnerComparison[] = [];
  for (const node of descendants(expression)) {
    if (node.type === 'comparison') {
      if (node.right.type === 'literal') found.push({ relation: node.relation, value: node.right.value });
      else if (node.left.type === 'literal') found.push({ relation: MIRRORED[node.relation], value: node.left.value });
    } else if (node.type === 'ends' && node.low.type === 'literal' && node.high.type === 'literal') {
      found.push({ relation: node.relation, value: joinEnds(node.low.value, node.high.value) });
    }
  }
  return found;
}

const MIRRORED = { '>=': '<=', '>': '<', '<=': '>=', '<': '>', '=': '=', '!=': '!=' } as const;

export function mirrored(relation: keyof typeof MIRRORED): keyof typeof MIRRORED {
  return MIRRORED[relation];
}

function joinEnds(low: QuantityValue, high: QuantityValue): QuantityValue {
  return { ...high, spread: 'range', low: low.typical, typical: null, high: high.typical, form: { type: 'range' } };
}

/** Words joined by a dot or an operator are always a reference. */
function isReference(expression: Expression): boolean {
  if (expression.type === 'name') return expression.parts.length > 1;
  if (
    expression.type === 'literal' ||
    expression.type === 'text' ||
    expression.type === 'boolean' ||
    expression.type === 'set'
  )
    return false;
  return expression.type !== 'unary' || isReference(expression.operand);
}

/** `not fan`, where fan is known. */
function isNegatedName(lowering: Lowering, expression: Expression): boolean {
  if (expression.type !== 'unary' || expression.operator !== 'not' || expression.operand.type !== 'name') return false;
  return lookUp(lowering.product, expression.operand.parts, []) !== null;
}

/** Text that is no whole expression was meant as one when it names a fact; otherwise it is ordinary code. */
function looksLikeReference(lowering: Lowering, code: CodeSpan, expression: Expression): boolean {
  if (/[<>=≤≥]/u.test(code.code))
    return [...descendants(expression)].some(
      (node) => node.type === 'name' && lookUp(lowering.product, node.parts, []) !== null,
    );
  return [...descendants(expression)].some(
    (node) => node.type === 'name' && node.parts.length > 1 && lookUp(lowering.product, node.parts, []) !== null,
  );
}

/** `total(parts.cost)`, `sum(parts)`: a function, or what was taken for one, of something that the design has. */
function looksLikeCall({ product }: Lowering, { code }: CodeSpan): boolean {
  const [, called = '', within = ''] = CALL.exec(code) ?? [];
  const isFunction = FUNCTION_NAMES.includes(called);
  return (within.match(DOTTED_NAME) ?? []).some((name) => {
    const parts = name.split('.');
    const isOfDesign = product.tables.has(parts[0] ?? '') || lookUp(product, parts, []) !== null;
    return isOfDesign && (isFunction || parts.length > 1);
  });
}

const CALL = /^\s*([A-Za-z]\w*)\s*\((.*)/s;
const DOTTED_NAME = /[A-Za-z_][\w-]*(?:\.[A-Za-z0-9_][\w-]*)*/g;

function broken(
  code: CodeSpan,
  problems: readonly { readonly message: string; readonly span: Span }[],
  file: string,
): ReadCode {
  const reasons = problems.map(({ message, span }) =>
    reason('bad-value', `“${code.code}” is no expression: ${message}`, { file, span }),
  );
  return { code, type: { type: 'undecided' }, expression: null, reasons };
}

/** In prose an unknown name may be no name at all. */
function orNoName(lowering: Lowering, read: ReadCode, file: string): ReadCode {
  const reasons = read.reasons.map((cause) => {
    const isHere = cause.place.file === file && covers(read.code.span, cause.place.span.start);
    const isNear = nearestNames(lowering, read.code.code, atRoot(file, null)).length > 0;
    if (cause.code !== 'unknown-name' || !isHere || isNear || cause.fixes.length > 0) return cause;
    return { ...cause, message: `${cause.message} (if it is no name, list it under “Not limits:”)` };
  });
  return { ...read, reasons };
}

/** A text without its quotes is read as a name, and there is none. */
function withQuotes(lowering: Lowering, cause: Reason, expression: Expression): Reason {
  const quoted = cause.code === 'unknown-name' ? textWithoutQuotes(lowering, expression) : null;
  if (quoted === null || quoted.span.start !== cause.place.span.start) return cause;
  const name = quoted.parts.join('.');
  const fix = { title: `Write "${name}"`, edits: [{ span: quoted.span, text: `"${name}"` }] };
  return { ...cause, message: `there is no fact “${name}”; a text needs quotes: "${name}"`, fixes: [fix] };
}

/** `role = camera`, where camera is a text that some field has. */
function textWithoutQuotes(lowering: Lowering, expression: Expression): (Expression & { type: 'name' }) | null {
  for (const node of descendants(expression)) {
    if (node.type !== 'comparison' || node.right.type !== 'name' || node.left.type !== 'name') continue;
    const field = node.left.parts[node.left.parts.length - 1] ?? '';
    if (lowering.textsOf(field).has(node.right.parts.join('.'))) return node.right;
  }
  return null;
}

function ordinary(code: CodeSpan): ReadCode {
  return { code, type: { type: 'ordinary' }, expression: null, reasons: [] };
}

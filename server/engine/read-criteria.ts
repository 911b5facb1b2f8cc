/** A requirement → its criteria: from its sentence, from the conditions in its code spans, and from its checks. */
import type { Place } from '../model/place';
import { attributesOf, type Requirement } from '../model/requirement';
import type { Rational } from '../quantity/rational';
import { UNITY } from '../quantity/unit';
import type { QuantityValue } from '../quantity/value';
import { spanBeside } from '../syntax/anchor';
import type { Expression } from '../syntax/expression/ast';
import { printExpression } from '../syntax/expression/print';
import type { CodeSpan } from '../syntax/markdown/block';
import { readStatement } from '../syntax/sentence/read-statement';
import type { Span } from '../syntax/span';
import { comparisonsIn, type ReadCode, readCode, readReferenceCode } from './code-spans';
import type { Criterion } from './criterion';
import type { Lowering } from './lowering/lowering';
import { openLimits, problemsBeside } from './open-limits';
import {
  type InnerComparison,
  type LimitEnd,
  type LimitTrace,
  type Pairing,
  type PairingProblem,
  type ProseLimit,
  pairStatement,
} from './pairing';
import { type Reason, reason } from './typed';

export interface ReadCriteria {
  readonly criteria: readonly Criterion[];
  /** What the reading of the sentence asks. */
  readonly problems: readonly PairingProblem[];
  /** Causes that lie outside the sentence: unknown names, facts without value. */
  readonly reasons: readonly Reason[];
  /** Conditions that say when the requirement applies. */
  readonly appliesWhen: readonly Expression[];
  /** Modes it is judged in; empty for all. */
  readonly modes: readonly string[];
  /** Something in it could be computed or was meant to be: otherwise it is judged by evidence. */
  readonly computes: boolean;
}

export function readCriteria(lowering: Lowering, requirement: Requirement): ReadCriteria {
  const { file } = requirement;
  const notLimits = attributesOf(requirement, 'Not limits').flatMap(({ text, codes }) => notLimitsOf(text, codes));
  const checks = references(lowering, requirement, 'Check');
  const applies = references(lowering, requirement, 'Applies when');
  const codes = requirement.statement?.codes.map((code) => readCode(lowering, code, file, notLimits)) ?? [];
  const pairing = pair(lowering, requirement, codes, checks, notLimits);
  const fromProse = pairing === null ? [] : proseCriteria(codes, pairing, file);
  const fromChecks = checks.flatMap((check) => wholeCriteria(check, file));
  const wrongChecks = checks.flatMap((check) => notAConditionReason(check, file));
  const all = [...codes, ...checks, ...applies];
  const open = openLimits(requirement);
  return {
    criteria: distinct([...fromProse, ...fromChecks]),
    problems: problemsBeside(open, pairing?.problems ?? [], requirement),
    reasons: [...open, ...all.flatMap(({ reasons }) => reasons), ...wrongChecks, ...withoutCode(requirement)],
    appliesWhen: [
      ...whereConditions(codes, pairing),
      ...applies.flatMap(({ expression }) => (expression === null ? [] : [expression])),
    ],
    modes: pairing?.modes ?? [],
    computes:
      fromProse.length + fromChecks.length > 0 ||
      (pairing?.problems.some(({ undecides }) => undecides) ?? false) ||
      all.some(({ type }) => type.type === 'undecided'),
  };
}

function references(lowering: Lowering, requirement: Requirement, key: string): readonly ReadCode[] {
  return attributesOf(requirement, key).flatMap(({ codes }) =>
    codes.map((code) => readReferenceCode(lowering, code, requirement.file)),
  );
}

/** A condition that is written as plain text would be passed over in silence. */
function withoutCode(requirement: Requirement): readonly Reason[] {
  return ['Check', 'Applies when'].flatMap((key) =>
    attributesOf(requirement, key)
      .filter(({ codes }) => codes.length === 0)
      .map(({ text, span }) =>
        reason('bad-value', `“${key}” holds a condition in a code span: ${key}: \`${text === '' ? '…' : text}\``, {
          file: requirement.file,
          span,
        }),
      ),
  );
}

/** A check that says what the sentence says already is the same criterion. */
function distinct(criteria: readonly Criterion[]): readonly Criterion[] {
  return [...new Map([...criteria].reverse().map((one) => [one.text, one])).values()].reverse();
}

/** `Not limits:` lists the very words, parted by semicolons; a code span stands for its content. */
function notLimitsOf(text: string, codes: readonly CodeSpan[]): readonly string[] {
  let next = 0;
  const written = text.replace(/\uFFFC/gu, () => codes[next++]?.code ?? '');
  return written
    .split(';')
    .map((word) => word.trim())
    .filter((word) => word !== '');
}

function pair(
  lowering: Lowering,
  requirement: Requirement,
  codes: readonly ReadCode[],
  checks: readonly ReadCode[],
  notLimits: readonly string[],
): Pairing | null {
  if (requirement.statement === null) return null;
  const inChecks: readonly InnerComparison[] = checks.flatMap(({ expression }) =>
    expression === null ? [] : comparisonsIn(expression),
  );
  return pairStatement(
    readStatement(requirement.statement),
    codes.map(({ type }) => type),
    lowering.product.units,
    {
      notLimits,
      modes: [...lowering.product.modes],
      checks: inChecks,
    },
  );
}

function whereConditions(codes: readonly ReadCode[], pairing: Pairing | null): readonly Expression[] {
  return (pairing?.appliesWhen ?? []).flatMap((index) => {
    const expression = codes[index]?.expression ?? null;
    return expression === null ? [] : [expression];
  });
}

/** Limits and conditions in the order in which they stand. */
function proseCriteria(codes: readonly ReadCode[], pairing: Pairing, file: string): readonly Criterion[] {
  return codes.flatMap((code, index) => {
    if (pairing.mentioned.has(index) || pairing.appliesWhen.includes(index)) return [];
    const limits = pairing.limits.filter((limit) => limit.code === index);
    return [
      ...limits.map((limit) => limitCriterion(codes, code, limit, file)).filter((one) => one !== null),
      ...(isAskedAbout(code, pairing) ? [] : wholeCriteria(code, file)),
    ];
  });
}

/** The sentence asks which way a yes/no name is meant, so it is no criterion yet. */
function isAskedAbout({ type, code }: ReadCode, { problems }: Pairing): boolean {
  return (
    type.type === 'boolean' &&
    problems.some(({ span, undecides }) => undecides && span.start <= code.span.start && code.span.end <= span.end)
  );
}

/** A code span that is itself a condition, or a yes/no name: what it says holds. */
function wholeCriteria({ type, expression, code }: ReadCode, file: string): readonly Criterion[] {
  if (expression === null || (type.type !== 'condition' && type.type !== 'boolean')) return [];
  const parts = conjuncts(expression, null);
  return parts.map(({ condition, over }) => {
    const place = { file, span: parts.length === 1 ? code.span : condition.span };
    return criterion(condition, over, place, place, null, false);
  });
}

function notAConditionReason({ type, expression, code }: ReadCode, file: string): readonly Reason[] {
  if (expression === null || type.type === 'condition' || type.type === 'boolean' || type.type === 'undecided')
    return [];
  return [
    reason('unit-mismatch', `“${code.code}” is no condition; a check compares: ${code.code} <= …`, {
      file,
      span: code.span,
    }),
  ];
}

interface Conjunct {
  readonly condition: Expression;
  readonly over: (Expression & { type: 'aggregate' }) | null;
}

/** A condition that stands by itself → its criteria. */
export function criteriaOf(expression: Expression, place: Place): readonly Criterion[] {
  return conjuncts(expression, null).map(({ condition, over }) =>
    criterion(condition, over, place, place, null, false),
  );
}

/** A top-level *and* is a criterion each; *all* over rows is asked of every row. */
function conjuncts(node: Expression, over: Conjunct['over']): readonly Conjunct[] {
  if (node.type === 'logical' && node.operator === 'and')
    return [...conjuncts(node.left, over), ...conjuncts(node.right, over)];
  if (node.type === 'unary' && node.operator === 'not' && node.operand.type === 'comparison') {
    return [{ condition: { ...node.operand, relation: OPPOSITE[node.operand.relation] }, over }];
  }
  if (node.type === 'aggregate' && node.name === 'all' && node.element !== null && over === null)
    return conjuncts(node.element, node);
  return [{ condition: node, over }];
}

const OPPOSITE = { '>=': '<', '>': '<=', '<=': '>', '<': '>=', '=': '!=', '!=': '=' } as const;

function limitCriterion(
  codes: readonly ReadCode[],
  { expression, code }: ReadCode,
  limit: ProseLimit,
  file: string,
): Criterion | null {
  if (expression === null) return null;
  const { relation, trace } = limit;
  const low = limit.low === null ? null : endExpression(codes, limit.low, trace.quantity);
  const high = limit.high === null ? null : endExpression(codes, limit.high, trace.quantity);
  const place = { file, span: traceSpan(trace) };
  const namePlace = { file, span: code.span };
  const { span } = code;
  if (relation === 'within' || relation === 'spans') {
    if (low === null || high === null) return null;
    return criterion(
      { type: 'ends', relation, value: expression, low, high, span },
      null,
      place,
      namePlace,
      trace,
      limit.provisional,
    );
  }
  const right = low ?? high;
  if (right === null) return null;
  return criterion(
    { type: 'comparison', relation, left: expression, right, span },
    null,
    place,
    namePlace,
    trace,
    limit.provisional,
  );
}

function endExpression(codes: readonly ReadCode[], end: LimitEnd, span: Span): Expression | null {
  if (end.type === 'quantity') return literalAt(end.value, span);
  const base = codes[end.code]?.expression ?? null;
  if (base === null) return null;
  return { type: 'binary', operator: '*', left: literalAt(plainNumber(end.factor), span), right: base, span };
}

function plainNumber(value: Rational): QuantityValue {
  return {
    type: 'quantity',
    spread: 'exact',
    low: value,
    typical: value,
    high: value,
    unit: UNITY,
    form: { type: 'plain' },
  };
}

function literalAt(value: QuantityValue, span: Span): Expression {
  return { type: 'literal', value, span };
}

/** From the relation to the quantity, whichever stands first. */
function traceSpan({ relation, quantity }: LimitTrace): Span {
  if (relation === null) return quantity;
  return spanBeside(relation, Math.min(relation.start, quantity.start), Math.max(relation.end, quantity.end));
}

function criterion(
  condition: Expression,
  over: Conjunct['over'],
  place: Place,
  namePlace: Place,
  trace: LimitTrace | null,
  provisional: boolean,
): Criterion {
  const text = printExpression(over === null ? condition : { ...over, element: condition });
  return { condition, over, text, place, namePlace, trace, provisional };
}

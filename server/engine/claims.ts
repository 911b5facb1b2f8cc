/** A criterion → what it claims of the design's terms, in every mode and for every row that it is asked of. */
import { coherentUnit } from '../quantity/coherent-unit';
import type { Rational } from '../quantity/rational';
import type { Unit } from '../quantity/unit';
import type { Expression } from '../syntax/expression/ast';
import { mirrored } from './code-spans';
import type { Criterion } from './criterion';
import { environmentOf, noRow, type Selected, select, tableOf, tagsOf } from './lowering/aggregates';
import { spansNothing } from './lowering/comparisons';
import { atRoot, type Environment, placeIn } from './lowering/environment';
import type { Lowering } from './lowering/lowering';
import { openEnd } from './no-value';
import * as term from './term';
import { type Reason, reasonsOf, type Typed, type TypedQuantity } from './typed';
import type { Granted } from './waive';

export type Claim =
  | {
      readonly type: 'comparison';
      readonly relation: term.PlainRelation;
      readonly value: TypedQuantity;
      readonly limit: TypedQuantity;
      /** The limit's, in which figures are shown; here and below. */
      readonly unit: Unit;
    }
  | {
      readonly type: 'within';
      readonly value: TypedQuantity;
      readonly low: TypedQuantity;
      readonly high: TypedQuantity;
      readonly unit: Unit;
    }
  | {
      readonly type: 'spans';
      readonly range: { readonly low: term.Term | null; readonly high: term.Term | null };
      readonly low: TypedQuantity;
      readonly high: TypedQuantity;
      readonly unit: Unit;
      /** Why the ends of the range that are open leave it undecided. */
      readonly open: readonly Reason[];
    }
  | { readonly type: 'condition'; readonly condition: term.Condition }
  | { readonly type: 'undecided'; readonly reasons: readonly Reason[] };

/** `distance relation 0`, over everything that the distance can be. */
export interface Side {
  readonly type: 'side';
  readonly relation: term.PlainRelation;
  readonly distance: term.Term;
}

/** A condition that is no plain comparison. */
export interface Clause {
  readonly type: 'clause';
  readonly condition: term.Condition;
}

export type Part = Side | Clause;

export interface Case {
  readonly claim: Claim;
  /** Null where no mode decides; the criterion then has one case a row. */
  readonly mode: string | null;
  readonly row: string | null;
}

/** @param modes the modes it is judged in; empty for all of the product's */
export function casesOf(lowering: Lowering, criterion: Criterion, modes: readonly string[]): readonly Case[] {
  if (modes.length > 0) return modes.flatMap((mode) => casesInMode(lowering, criterion, mode));
  const plain = lowering.tracked(() => casesInMode(lowering, criterion, null));
  if (!plain.moded || lowering.product.modes.size === 0) {
    for (const name of plain.uses) lowering.noteUse(name);
    return plain.result;
  }
  return [...lowering.product.modes].flatMap((mode) => casesInMode(lowering, criterion, mode));
}

function casesInMode(lowering: Lowering, criterion: Criterion, mode: string | null): readonly Case[] {
  const environment = atRoot(criterion.place.file, mode);
  const { condition, over } = criterion;
  if (over === null) return [{ claim: claimAt(lowering, condition, environment), mode, row: null }];
  const table = tableOf(lowering, over, environment);
  if ('type' in table) return [{ claim: undecidedBy(table), mode, row: null }];
  const selection = select(lowering, over, table, environment);
  if ('type' in selection) return [{ claim: undecidedBy(selection), mode, row: null }];
  if (selection.length === 0) {
    return [{ claim: { type: 'undecided', reasons: [noRow(over, environment)] }, mode, row: null }];
  }
  return selection.flatMap((selected) =>
    claimsOfRow(lowering, condition, selected, environment).map((claim) => ({ claim, mode, row: selected.row.id })),
  );
}

function claimsOfRow(
  lowering: Lowering,
  node: Expression,
  selected: Selected,
  environment: Environment,
): readonly Claim[] {
  return tagsOf(selected).map((tag) => {
    const at = environmentOf(selected.table, selected.row, tag, selected.node, environment);
    return selected.condition === null
      ? claimAt(lowering, node, at)
      : claimWhere(lowering, node, selected.condition, at);
  });
}

/** Where it is not sure that the row is selected, the condition is asked only as far as it is. */
function claimWhere(lowering: Lowering, node: Expression, where: term.Condition, environment: Environment): Claim {
  const typed = lowering.expression(node, environment);
  if (typed.type !== 'condition') return undecidedBy(typed);
  return { type: 'condition', condition: term.either([term.negated(where), typed.condition]) };
}

function claimAt(lowering: Lowering, node: Expression, environment: Environment): Claim {
  const whole = lowering.expression(node, environment);
  if (whole.type !== 'condition') return undecidedBy(whole);
  const condition: Claim = { type: 'condition', condition: whole.condition };
  if (node.type === 'comparison') return plainClaim(lowering, node, environment) ?? condition;
  return node.type === 'ends' ? twoEndsClaim(lowering, node, environment) : condition;
}

function plainClaim(
  lowering: Lowering,
  node: Expression & { type: 'comparison' },
  environment: Environment,
): Claim | null {
  // The side that is written as a figure is the limit; between two figures of the design it is the right one.
  const turned = node.left.type === 'literal' && node.right.type !== 'literal';
  const [valueNode, limitNode] = turned ? [node.right, node.left] : [node.left, node.right];
  const value = lowering.expression(valueNode, environment);
  const limit = lowering.expression(limitNode, environment);
  if (value.type !== 'quantity' || limit.type !== 'quantity') return null;
  const relation = turned ? mirrored(node.relation) : node.relation;
  return { type: 'comparison', relation, value, limit, unit: unitOf(lowering, limit, value) };
}

function twoEndsClaim(lowering: Lowering, node: Expression & { type: 'ends' }, environment: Environment): Claim {
  const [value, low, high] = [node.value, node.low, node.high].map((part) => lowering.expression(part, environment));
  if (value?.type !== 'quantity' || low?.type !== 'quantity' || high?.type !== 'quantity')
    return { type: 'undecided', reasons: [] };
  const unit = unitOf(lowering, high, value);
  if (node.relation === 'within') return { type: 'within', value, low, high, unit };
  const { range } = value;
  if (range === null) return { type: 'undecided', reasons: [spansNothing(node, environment)] };
  const place = placeIn(environment, node.value.span);
  const open = (['min', 'max'] as const).filter((end) => (end === 'min' ? range.low : range.high) === null);
  return { type: 'spans', range, low, high, unit, open: open.map((end) => openEnd('this range', end, place)) };
}

/** The unit that figures are shown in: the limit's, else the value's, else the coherent one. */
function unitOf(lowering: Lowering, limit: TypedQuantity, value: TypedQuantity): Unit {
  if (
    limit.unit !== null &&
    limit.unit.dimension.base.size === limit.dimension.base.size &&
    limit.unit.rates.size === 0
  )
    return limit.unit;
  if (value.unit !== null && value.unit.rates.size === 0) return value.unit;
  return coherentUnit(value.dimension, lowering.product.units);
}

function undecidedBy(typed: Typed): Claim {
  return { type: 'undecided', reasons: reasonsOf(typed) ?? [] };
}

/** What a claim asks, one by one: signs of distances to its limits, and conditions that are no plain comparison. */
export function partsOf(claim: Claim): readonly Part[] {
  switch (claim.type) {
    case 'comparison':
      return [side(claim.relation, claim.value.term, claim.limit.term)];
    case 'within':
      return [side('>=', claim.value.term, claim.low.term), side('<=', claim.value.term, claim.high.term)];
    case 'spans':
      return [
        ...(claim.range.low === null ? [] : [side('<=', claim.range.low, claim.low.term)]),
        ...(claim.range.high === null ? [] : [side('>=', claim.range.high, claim.high.term)]),
      ];
    case 'condition':
      return partsOfCondition(claim.condition);
    case 'undecided':
      return [];
  }
}

/** What a claim asks under a waiver; of what has no figures, as without one. */
export function partsGranted(claim: Claim, { low, high }: Granted): readonly Part[] {
  const end = (relation: '<=' | '>=', value: term.Term | null, limit: Rational | null) =>
    value === null || limit === null ? [] : [side(relation, value, term.constant(limit))];
  switch (claim.type) {
    case 'comparison':
    case 'within':
      return [...end('>=', claim.value.term, low), ...end('<=', claim.value.term, high)];
    case 'spans':
      return [...end('<=', claim.range.low, low), ...end('>=', claim.range.high, high)];
    default:
      return partsOf(claim);
  }
}

/** What holds together is asked one by one. */
function partsOfCondition(condition: term.Condition): readonly Part[] {
  if (condition.type === 'both') return condition.conditions.flatMap(partsOfCondition);
  if (condition.type === 'comparison')
    return [{ type: 'side', relation: condition.relation, distance: condition.difference }];
  return [{ type: 'clause', condition }];
}

function side(relation: term.PlainRelation, value: term.Term, limit: term.Term): Side {
  return { type: 'side', relation, distance: term.difference(value, limit) };
}

/** Judges a criterion in every mode and for every row it is asked of, and takes the worst. */
import { coherentUnit } from '../quantity/coherent-unit';
import type { Rational } from '../quantity/rational';
import * as rational from '../quantity/rational';
import type { Unit } from '../quantity/unit';
import type { Expression } from '../syntax/expression/ast';
import { mirrored } from './code-spans';
import type { Criterion, Judgement } from './criterion';
import { judgeComparison, judgeSpans, judgeWithin } from './judge';
import { judgeCondition } from './judge-condition';
import { environmentOf, noRow, type Selected, select, tableOf, tagsOf } from './lowering/aggregates';
import { spansNothing } from './lowering/comparisons';
import { atRoot, type Environment, placeIn } from './lowering/environment';
import type { Lowering } from './lowering/lowering';
import { openEnd } from './no-value';
import * as term from './term';
import { type Reason, reasonsOf, type TypedQuantity } from './typed';
import { compareVerdicts } from './verdict';

export interface CriterionResult extends Judgement {
  readonly criterion: Criterion;
  /** The worst mode and row, where it runs over several. */
  readonly mode: string | null;
  readonly row: string | null;
  /** Every name that it rests on. */
  readonly uses: ReadonlySet<string>;
}

/** @param modes the modes it is judged in; empty for all of the product's */
export function judgeCriterion(lowering: Lowering, criterion: Criterion, modes: readonly string[]): CriterionResult {
  const { result, uses } = lowering.tracked(() => judgeInModes(lowering, criterion, modes));
  return { ...result, criterion, uses: lowering.restsOn(uses) };
}

interface Case extends Judgement {
  readonly mode: string | null;
  readonly row: string | null;
}

function judgeInModes(lowering: Lowering, criterion: Criterion, modes: readonly string[]): Case {
  if (modes.length > 0) return worstOf(modes.flatMap((mode) => judgeRows(lowering, criterion, mode)));
  const plain = lowering.tracked(() => judgeRows(lowering, criterion, null));
  if (!plain.moded || lowering.product.modes.size === 0) {
    for (const name of plain.uses) lowering.noteUse(name);
    return worstOf(plain.result);
  }
  return worstOf([...lowering.product.modes].flatMap((mode) => judgeRows(lowering, criterion, mode)));
}

/** The worst verdict, then the smallest margin, then the first written. */
function worstOf(cases: readonly Case[]): Case {
  return cases.reduce((worst, candidate) => (isWorse(candidate, worst) ? candidate : worst));
}

function isWorse(a: Case, b: Case): boolean {
  const order = compareVerdicts(a.verdict, b.verdict);
  if (order !== 0) return order < 0;
  const [left, right] = [a.figures?.margin ?? null, b.figures?.margin ?? null];
  return left !== null && right !== null && rational.compare(left, right) < 0;
}

function judgeRows(lowering: Lowering, criterion: Criterion, mode: string | null): readonly Case[] {
  const environment = atRoot(criterion.place.file, mode);
  if (criterion.over === null) return [{ ...judgeAt(lowering, criterion.condition, environment), mode, row: null }];
  const table = tableOf(lowering, criterion.over, environment);
  if ('type' in table) return [{ ...without(reasonsOf(table) ?? []), mode, row: null }];
  const selection = select(lowering, criterion.over, table, environment);
  if ('type' in selection) return [{ ...without(reasonsOf(selection) ?? []), mode, row: null }];
  if (selection.length === 0) return [{ ...without([noRow(criterion.over, environment)]), mode, row: null }];
  return selection.flatMap((selected) => judgeRow(lowering, criterion, selected, environment, mode));
}

function judgeRow(
  lowering: Lowering,
  criterion: Criterion,
  selected: Selected,
  environment: Environment,
  mode: string | null,
): readonly Case[] {
  return tagsOf(selected).map((tag) => {
    const at = environmentOf(selected.table, selected.row, tag, selected.node, environment);
    const judged =
      selected.condition === null
        ? judgeAt(lowering, criterion.condition, at)
        : judgeWhere(lowering, criterion.condition, selected, at);
    return { ...judged, mode, row: selected.row.id };
  });
}

/** Where it is not sure that the row is selected, the condition is asked only as far as it is. */
function judgeWhere(
  lowering: Lowering,
  node: Expression,
  { condition }: Selected,
  environment: Environment,
): Judgement {
  const typed = lowering.expression(node, environment);
  const reasons = reasonsOf(typed);
  if (reasons !== null) return without(reasons);
  if (typed.type !== 'condition' || condition === null) return without([]);
  return judgeCondition(term.either([term.negated(condition), typed.condition]));
}

function judgeAt(lowering: Lowering, node: Expression, environment: Environment): Judgement {
  const whole = lowering.expression(node, environment);
  const reasons = reasonsOf(whole);
  if (reasons !== null) return without(reasons);
  if (whole.type !== 'condition') return without([]);
  if (node.type === 'comparison') return judgePlain(lowering, node, environment) ?? judgeCondition(whole.condition);
  if (node.type === 'ends') return judgeEnds(lowering, node, environment);
  return judgeCondition(whole.condition);
}

function judgePlain(
  lowering: Lowering,
  node: Expression & { type: 'comparison' },
  environment: Environment,
): Judgement | null {
  // The side that is written as a figure is the limit; between two figures of the design it is the right one.
  const turned = node.left.type === 'literal' && node.right.type !== 'literal';
  const [valueNode, limitNode] = turned ? [node.right, node.left] : [node.left, node.right];
  const value = lowering.expression(valueNode, environment);
  const limit = lowering.expression(limitNode, environment);
  if (value.type !== 'quantity' || limit.type !== 'quantity') return null;
  const relation = turned ? mirrored(node.relation) : node.relation;
  return judgeComparison(lowering.extremes, relation, value, limit, unitOf(lowering, limit, value));
}

function judgeEnds(lowering: Lowering, node: Expression & { type: 'ends' }, environment: Environment): Judgement {
  const [value, low, high] = [node.value, node.low, node.high].map((part) => lowering.expression(part, environment));
  if (value?.type !== 'quantity' || low?.type !== 'quantity' || high?.type !== 'quantity') return without([]);
  const unit = unitOf(lowering, high, value);
  if (node.relation === 'within') return judgeWithin(lowering.extremes, value, low, high, unit);
  if (value.range === null) return without([spansNothing(node, environment)]);
  return judgeRange(lowering, node, value.range, low, high, unit, environment);
}

function judgeRange(
  lowering: Lowering,
  node: Expression & { type: 'ends' },
  range: { readonly low: term.Term | null; readonly high: term.Term | null },
  low: TypedQuantity,
  high: TypedQuantity,
  unit: Unit,
  environment: Environment,
): Judgement {
  const place = placeIn(environment, node.value.span);
  const open = (['min', 'max'] as const).filter((end) => (end === 'min' ? range.low : range.high) === null);
  if (range.low !== null && range.high !== null)
    return judgeSpans(lowering.extremes, { low: range.low, high: range.high }, low, high, unit);
  const known = range.low ?? range.high;
  // The end that is known may break the criterion already.
  const judged =
    known === null
      ? null
      : range.low !== null
        ? judgeComparison(lowering.extremes, '<=', { ...low, term: known }, low, unit)
        : judgeComparison(lowering.extremes, '>=', { ...high, term: known }, high, unit);
  if (judged?.verdict === 'unmet') return judged;
  return without(open.map((end) => openEnd('this range', end, place)));
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

function without(reasons: readonly Reason[]): Judgement {
  return { verdict: 'undecided', figures: null, reasons, remark: null };
}

/** The margin of a result, for comparing; null where there is none. */
export function marginOf({ figures }: Judgement): Rational | null {
  return figures?.margin ?? null;
}

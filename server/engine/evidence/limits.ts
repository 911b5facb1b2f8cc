/** Limits that are themselves computed: what a run keeps of them, and whether they have come nearer since. */
import type { ProvedValue, TestRun } from '../../model/verification';
import type { Interval } from '../../quantity/interval';
import * as interval from '../../quantity/interval';
import type { Rational } from '../../quantity/rational';
import * as rational from '../../quantity/rational';
import type { Unit } from '../../quantity/unit';
import { descendants, type Expression } from '../../syntax/expression/ast';
import { parseExpression } from '../../syntax/expression/parser';
import { printExpression } from '../../syntax/expression/print';
import { type ChangedValue, changedProduct } from '../changes';
import type { Criterion, Figures } from '../criterion';
import { type CriterionResult, judgeCriterion } from '../judge-criterion';
import { Lowering } from '../lowering/lowering';
import { canonicalText } from '../relations/canonical';
import { factNamed, knownValue } from './measured';
import { roundedOutward } from './rounding';

/** A limit that is no plain figure, at the end that is worse. */
export interface ComputedLimit {
  readonly node: Expression;
  /** `2 * recording.total-rate`. */
  readonly text: string;
  /** Which end of the value it bounds. */
  readonly side: 'low' | 'high' | 'both';
  readonly value: Rational;
}

/** None where the limits stand in the sentence as figures. */
export function computedLimits({ criterion, figures }: CriterionResult): readonly ComputedLimit[] {
  if (figures === null) return [];
  return limitsOf(criterion, figures).flatMap(({ node, side, value }): readonly ComputedLimit[] =>
    value === null || !isComputed(node)
      ? []
      : [{ node, side, value, text: printExpression(standing(criterion, node)) }],
  );
}

/** Whether a limit came nearer, after what was kept of it, else computed again from the figures kept beside it. */
export function limitsSince(
  lowering: Lowering,
  result: CriterionResult,
  modes: readonly string[],
  run: TestRun,
  file: string,
): 'as-before' | 'nearer' | 'unknown' {
  const { figures, criterion } = result;
  if (figures === null || !limitNodes(criterion).some(isComputed)) return 'as-before';
  const limits = computedLimits(result);
  const then = limits.map((limit) => keptLimit(lowering, criterion, limit, run.proved ?? [], figures.unit, file));
  if (then.includes(null)) return limitsAgainst(lowering, result, modes, run);
  const turned = figures.relation === 'spans' ? -1 : 1;
  const isNearer = limits.some(({ side, value }, index) => {
    const kept = then[index];
    if (kept == null) return false;
    const now = roundedOutward(interval.point(value), kept.unit);
    const [low, high] = [compare(now.low, kept.extent.low), compare(now.high, kept.extent.high)];
    return (side !== 'high' && low * turned > 0) || (side !== 'low' && high * turned < 0);
  });
  return isNearer ? 'nearer' : 'as-before';
}

interface PlacedLimit {
  readonly node: Expression;
  readonly side: ComputedLimit['side'];
  readonly value: Rational | null;
}

function limitsOf(criterion: Criterion, { low, high }: Figures): readonly PlacedLimit[] {
  const [first, second] = limitNodes(criterion);
  if (first === undefined) return [];
  if (second !== undefined)
    return [
      { node: first, side: 'low', value: low },
      { node: second, side: 'high', value: high },
    ];
  const side = low === null ? 'high' : high === null ? 'low' : 'both';
  return [{ node: first, side, value: low ?? high }];
}

function limitNodes({ condition }: Criterion): readonly Expression[] {
  if (condition.type === 'ends') return [condition.low, condition.high];
  if (condition.type !== 'comparison') return [];
  return [condition.left.type === 'literal' ? condition.left : condition.right];
}

function isComputed(node: Expression): boolean {
  return [...descendants(node)].some(({ type }) => type === 'name' || type === 'aggregate');
}

/** A limit of a row is named beside its table. */
function standing({ over }: Criterion, node: Expression): Expression {
  return over === null ? node : { ...over, element: node };
}

interface KeptLimit {
  readonly extent: Interval;
  /** Rounded in the unit that it was kept in. */
  readonly unit: Unit;
}

function keptLimit(
  { product }: Lowering,
  criterion: Criterion,
  { node }: ComputedLimit,
  entries: readonly ProvedValue[],
  unit: Unit,
  file: string,
): KeptLimit | null {
  const meaning = (one: Expression, of: string) => canonicalText(one, { product, file: of, followsNames: true });
  const own = meaning(standing(criterion, node), criterion.place.file);
  for (const { name, nameSpan, content } of entries) {
    const { expression, problems } = parseExpression(name, product.units, () => nameSpan);
    if (problems.length > 0 || meaning(expression, file) !== own) continue;
    if (content.type !== 'value' || content.value.type !== 'quantity') return null;
    const { low, high, unit: kept } = content.value;
    const isSameKind = kept.dimension.key === unit.dimension.key && kept.point === unit.point;
    return isSameKind ? { extent: roundedOutward({ low, high }, kept), unit: kept } : null;
  }
  return null;
}

function compare(now: Rational | null, then: Rational | null): number {
  return now === null || then === null ? 0 : rational.compare(now, then);
}

/** For runs that keep no limit: computed again from the figures that the run was recorded against. */
function limitsAgainst(
  lowering: Lowering,
  result: CriterionResult,
  modes: readonly string[],
  { against }: TestRun,
): 'as-before' | 'nearer' | 'unknown' {
  const values = against.flatMap((one): readonly ChangedValue[] => {
    const named = factNamed(lowering.product, one.name);
    const value = knownValue(one);
    return named === null || value === null ? [] : [{ name: named.fact.name, mode: named.mode, value }];
  });
  const product = changedProduct(lowering.product, { values, without: [] });
  const then = judgeCriterion(new Lowering(product), result.criterion, modes, 'worst-case').figures;
  const now = result.figures;
  const known = new Set(values.map(({ name }) => name));
  const isWhole = [...result.uses].every((name) => {
    const type = lowering.product.facts.get(name)?.content.type;
    return known.has(name) || type === undefined || type === 'expression' || type === 'ends';
  });
  if (then === null || now === null || !isWhole) return 'unknown';
  // A limit in `low` keeps values up; one that is higher than it was is nearer. What is to be spanned is the other way.
  const turned = now.relation === 'spans' ? -1 : 1;
  const [low, high] = [compare(now.low, then.low) * turned, compare(now.high, then.high) * turned];
  return low > 0 || high < 0 ? 'nearer' : 'as-before';
}

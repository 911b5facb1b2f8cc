/** What a run proved, held against what is asked today: whether the design has moved toward the limit since. */
import type { ProvedValue, TestRun } from '../../model/verification';
import type { Interval } from '../../quantity/interval';
import type { Rational } from '../../quantity/rational';
import * as rational from '../../quantity/rational';
import type { Unit } from '../../quantity/unit';
import type { QuantityValue } from '../../quantity/value';
import type { Expression } from '../../syntax/expression/ast';
import { parseExpression } from '../../syntax/expression/parser';
import type { Criterion, Figures } from '../criterion';
import type { CriterionResult } from '../judge-criterion';
import type { Lowering } from '../lowering/lowering';
import { criteriaOf } from '../read-criteria';
import { type Allowed, implies, type Side, wordsImply } from '../relations/allowed';
import { canonicalText } from '../relations/canonical';
import { limitOf } from '../relations/limit';
import { limitsSince } from './limits';
import { factNamed, knownValue, type NamedFact } from './measured';
import { roundedOutward } from './rounding';
import type { Moved, StaleCause } from './state';

export type Coverage =
  | { readonly type: 'covered'; readonly moved: Moved | null }
  | { readonly type: 'stale'; readonly cause: StaleCause };

/** @param modes the modes that the requirement is judged in */
export function coverageOf(
  lowering: Lowering,
  result: CriterionResult,
  modes: readonly string[],
  run: TestRun,
  file: string,
): Coverage {
  if (result.verdict === 'undecided') return stale({ type: 'undecided' });
  const { proved, isImplied } = provedFor(lowering, result, modes, run.proved ?? [], file);
  if (proved === null) return stale({ type: 'not-recorded', result });
  if (!isImplied) return stale({ type: 'tightened', result, proved });
  if (result.figures === null) return ofCondition(result, proved);
  const then = intervalOf(proved, result.figures.unit);
  if (then === null) return stale({ type: 'not-recorded', result });
  const limits = limitsSince(lowering, result, modes, run, file);
  if (limits === 'unknown') return stale({ type: 'not-recorded', result });
  if (limits === 'nearer') return stale({ type: 'limit-moved', result });
  return ofFigures(result, result.figures, then);
}

function stale(cause: StaleCause): Coverage {
  return { type: 'stale', cause };
}

function ofCondition(result: CriterionResult, { content }: ProvedValue): Coverage {
  const held = content.type === 'value' && content.value.type === 'boolean' && content.value.boolean;
  if (!held) return stale({ type: 'not-recorded', result });
  return result.verdict === 'met' ? { type: 'covered', moved: null } : stale({ type: 'no-longer', result });
}

function ofFigures(
  result: CriterionResult,
  figures: Figures,
  { extent, unit }: { readonly extent: Interval; readonly unit: Unit },
): Coverage {
  const then = roundedOutward(extent, unit);
  const now = roundedOutward(figures.value, unit);
  const moved = { result, then, now, unit };
  const [low, high] = [compareEnds(now.low, then.low, -1), compareEnds(now.high, then.high, 1)];
  if (isNearer(figures.relation, low, high)) return stale({ type: 'moved', ...moved });
  return { type: 'covered', moved: isFarther(figures.relation, low, high) ? moved : null };
}

/** Whether an end lies lower, higher or where it was; an open end lies beyond all others on its side. */
function compareEnds(now: Rational | null, then: Rational | null, side: -1 | 1): number {
  if (now === null || then === null) return now === then ? 0 : now === null ? side : -side;
  return rational.compare(now, then);
}

function isNearer(relation: Figures['relation'], low: number, high: number): boolean {
  switch (relation) {
    case '>=':
    case '>':
      return low < 0;
    case '<=':
    case '<':
      return high > 0;
    case 'spans':
      return low > 0 || high < 0;
    case '!=':
      return low !== 0 || high !== 0;
    default:
      return low < 0 || high > 0;
  }
}

function isFarther(relation: Figures['relation'], low: number, high: number): boolean {
  switch (relation) {
    case '>=':
    case '>':
      return low > 0;
    case '<=':
    case '<':
      return high < 0;
    default:
      return low !== 0 || high !== 0;
  }
}

/**
 * What the run keeps of the worst case of one fact, or of its value in one mode; null where it keeps no criterion on
 * that alone.
 * @param modes the modes that the requirement is judged in
 */
export function worstCaseThen(
  lowering: Lowering,
  run: TestRun,
  measured: NamedFact,
  modes: readonly string[],
  file: string,
): QuantityValue | null {
  const [only = null, ...others] = modes;
  for (const entry of run.proved ?? []) {
    const value = knownValue(entry);
    if (value?.type !== 'quantity') continue;
    for (const criterion of criteriaProved(lowering, entry, file)) {
      const subject = subjectOf(lowering, criterion);
      const mode = subject?.mode ?? (others.length === 0 ? only : null);
      if (subject?.fact === measured.fact && mode === measured.mode) return value;
    }
  }
  return null;
}

function subjectOf({ product }: Lowering, { condition }: Criterion): NamedFact | null {
  const subject = sideOf(condition);
  return subject?.type === 'name' ? factNamed(product, subject.parts.join('.')) : null;
}

function sideOf(condition: Expression): Expression | null {
  if (condition.type === 'ends') return condition.value;
  if (condition.type !== 'comparison') return null;
  return condition.left.type === 'literal' ? condition.right : condition.left;
}

interface ProvedFor {
  readonly proved: ProvedValue | null;
  /** What was proved implies what is asked. */
  readonly isImplied: boolean;
}

/** The entry that speaks of the same: the very criterion, else one with a limit on the same expression. */
function provedFor(
  lowering: Lowering,
  { criterion }: CriterionResult,
  modes: readonly string[],
  entries: readonly ProvedValue[],
  file: string,
): ProvedFor {
  const meaning = meaningOf(lowering, criterion);
  const own = limitOf(lowering, criterion, modes);
  let weaker: ProvedValue | null = null;
  for (const entry of entries) {
    for (const proved of criteriaProved(lowering, entry, file)) {
      if (meaningOf(lowering, proved) === meaning) return { proved: entry, isImplied: true };
      const limit = limitOf(lowering, proved, modes);
      if (limit === null || own === null || limit.subject !== own.subject) continue;
      if (!own.modes.every((mode) => limit.modes.includes(mode))) continue;
      if (allowedImplies(limit.allowed, own.allowed)) return { proved: entry, isImplied: true };
      weaker ??= entry;
    }
  }
  return { proved: weaker, isImplied: false };
}

function criteriaProved({ product }: Lowering, { name, nameSpan }: ProvedValue, file: string): readonly Criterion[] {
  const { expression, problems } = parseExpression(name, product.units, () => nameSpan);
  return problems.length > 0 ? [] : criteriaOf(expression, { file, span: nameSpan });
}

function meaningOf({ product }: Lowering, { condition, over, place }: Criterion): string {
  const whole: Expression = over === null ? condition : { ...over, element: condition };
  return canonicalText(whole, { product, file: place.file, followsNames: true });
}

function allowedImplies(kept: Allowed, asked: Allowed): boolean {
  if (kept.type === 'words' || asked.type === 'words')
    return kept.type === 'words' && asked.type === 'words' && wordsImply(kept, asked);
  if (asked.except !== null) return false;
  const sides = Object.entries(asked.bounds) as [Side, NonNullable<Allowed & { type: 'figures' }>['bounds'][Side]][];
  return sides.every(([side, bound]) => bound === undefined || implies(kept.bounds, side, bound));
}

/** The recorded worst case in base units; null where it is none, or of another dimension. */
function intervalOf(
  { content }: ProvedValue,
  expected: Unit,
): { readonly extent: Interval; readonly unit: Unit } | null {
  if (content.type !== 'value' || content.value.type !== 'quantity') return null;
  const { low, high, unit } = content.value;
  return unit.dimension.key === expected.dimension.key && unit.point === expected.point
    ? { extent: { low, high }, unit }
    : null;
}

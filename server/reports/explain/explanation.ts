/** What is known of one requirement, fact or part, gathered for whoever shows it. */

import type { Analysis, FactResult, RequirementResult } from '../../engine/analysis';
import { type ChangeOfVerdict, compareResults } from '../../engine/comparison';
import type { CriterionResult } from '../../engine/judge-criterion';
import type { FigureRanges, NeededOf, RangeAnalysis } from '../../engine/ranges/ranges';
import { rootSumSquare } from '../../engine/rss';
import { type Driver, driversOf } from '../../engine/sensitivity';
import { trial } from '../../engine/trial';
import type { Row } from '../../model/fact';
import { isDerived } from '../../model/fact';
import { listOf } from '../../model/requirement';
import type { Interval } from '../../quantity/interval';

export interface RequirementExplanation {
  readonly result: RequirementResult;
  readonly criteria: readonly CriterionExplanation[];
  /** How figures would have to move for it to be met, nearest first; empty where it is met. */
  readonly needed: readonly NeededOf[];
  readonly parents: readonly string[];
  readonly children: readonly string[];
  /** Given figures that it rests on, with how far they may move. */
  readonly figures: readonly FactExplanation[];
}

export interface CriterionExplanation {
  readonly result: CriterionResult;
  readonly rss: Interval | null;
  /** Null where there is no derivative. */
  readonly drivers: readonly Driver[] | null;
}

export interface FactExplanation {
  readonly result: FactResult;
  readonly ranges: readonly FigureRanges[];
  /** Requirements that rest on it. */
  readonly requirements: readonly RequirementResult[];
  /** Given figures that it is derived from; empty for a given one. */
  readonly derivedFrom: readonly string[];
}

export interface RowExplanation {
  readonly row: Row;
  readonly fields: readonly FactExplanation[];
  readonly requirements: readonly RequirementResult[];
  /** What would become of requirements without it. */
  readonly without: readonly { readonly result: RequirementResult; readonly change: ChangeOfVerdict }[];
}

export function explainRequirement(
  analysis: Analysis,
  ranges: RangeAnalysis,
  result: RequirementResult,
): RequirementExplanation {
  const { requirement, uses } = result;
  const facts = analysis.facts.filter(({ fact }) => uses.has(fact.name) && !isDerived(fact.content));
  return {
    result,
    criteria: result.criteria.map((criterion) => explainCriterion(analysis, criterion)),
    needed: ranges.needed.get(requirement) ?? [],
    parents: listOf(requirement, 'Derives from'),
    children: analysis.requirements.flatMap((other) =>
      listOf(other.requirement, 'Derives from').includes(requirement.id) ? [other.requirement.id] : [],
    ),
    figures: facts.map((fact) => explainFact(analysis, ranges, fact)),
  };
}

function explainCriterion({ product, lowering }: Analysis, result: CriterionResult): CriterionExplanation {
  const { claim } = result;
  const value = claim.type === 'comparison' || claim.type === 'within' ? claim.value.term : null;
  if (value === null) return { result, rss: null, drivers: null };
  return {
    result,
    rss: rootSumSquare(product, lowering.extremes, value),
    drivers: driversOf(lowering.extremes, value)?.filter(({ share }) => share > 0) ?? null,
  };
}

export function explainFact(
  { requirements, lowering, product }: Analysis,
  ranges: RangeAnalysis,
  result: FactResult,
): FactExplanation {
  const { name, content } = result.fact;
  const derivedFrom = !isDerived(content)
    ? []
    : [...lowering.restsOn(new Set([name]))].filter((other) => {
        const fact = product.facts.get(other);
        return fact !== undefined && !isDerived(fact.content) && other !== name;
      });
  return {
    result,
    ranges: ranges.ofFact(name),
    requirements: requirements.filter(({ uses }) => uses.has(name)),
    derivedFrom,
  };
}

export function explainRow(analysis: Analysis, ranges: RangeAnalysis, row: Row): RowExplanation {
  const { product, requirements, facts } = analysis;
  const names = new Set([...row.fields.values()].map(({ name }) => name));
  const { touched } = trial(product, requirements, { values: [], without: [{ table: row.table, id: row.id }] });
  return {
    row,
    fields: facts.filter(({ fact }) => names.has(fact.name)).map((fact) => explainFact(analysis, ranges, fact)),
    requirements: requirements.filter(({ uses }) => [...names].some((name) => uses.has(name))),
    without: touched
      .map(({ before, after }) => ({ result: after, change: compareResults(before, after) }))
      .filter(({ change }) => change !== 'same'),
  };
}

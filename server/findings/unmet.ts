/** unmet, at-risk, use-within: what the design breaks or may break, by how much, and the figures it rests on. */
import type { Analysis, RequirementResult } from '../engine/analysis';
import { factNamed } from '../engine/evidence/measured';
import type { CriterionResult } from '../engine/judge-criterion';
import type { AnalysisPart } from '../engine/parts';
import type { NeededOf, RangeAnalysis } from '../engine/ranges/ranges';
import { driversOf } from '../engine/sensitivity';
import type { Fact } from '../model/fact';
import { writtenValue } from '../model/written-value';
import { formatValue } from '../quantity/format';
import { valueText } from '../quantity/value-text';
import { descendants } from '../syntax/expression/ast';
import { printExpression } from '../syntax/expression/print';
import { limitText, shortfall, subjectOf } from './describe';
import type { Draft, Related } from './finding';
import { figureText, isMend, neededText } from './range-text';

/** Given figures named beside a broken limit at the most. */
const MOST_RELATED = 6;
/** Given figures named in a message. */
const MOST_GIVEN = 3;

/** Needed ranges named in a message. */
const MOST_NEEDED = 3;

/** @param ranges how figures would have to move; null where that was not asked for */
export function* brokenLimits(analysis: Analysis, part: AnalysisPart, ranges: RangeAnalysis | null): Iterable<Draft> {
  for (const result of part.requirements) {
    if (result.verdict === 'not applicable' || result.verdict === 'waived') continue;
    const mends = mendsOf(result, ranges);
    for (const criterion of result.criteria) {
      if (criterion.verdict === 'unmet')
        yield draft(analysis, result, criterion, 'unmet', unmetMessage(analysis, criterion) + mends);
      if (criterion.verdict === 'at risk')
        yield draft(analysis, result, criterion, 'at-risk', atRiskMessage(criterion) + mends);
      if (criterion.remark === 'use-within' && criterion.verdict !== 'met')
        yield useWithin(analysis, result, criterion);
    }
  }
}

/** `. Would be met by supply.draw ≤ 60 W (now 65 W); nothing else alone`: the nearest first. */
function mendsOf({ requirement, verdict }: RequirementResult, ranges: RangeAnalysis | null): string {
  const all = ranges?.needed.get(requirement) ?? [];
  if (verdict === 'undecided' || all.length === 0) return '';
  const mends = all.flatMap(({ figure, range }) => {
    const text = isMend(figure, range) ? neededText(figure, range) : null;
    return text === null ? [] : [`${figure.name} ${text} (now ${figureText(figure, figure.now, 'nearest')})`];
  });
  const isShown = all.every(({ range }) => range.type !== 'not-shown');
  if (mends.length === 0) return isShown ? `. No figure alone would mend it${forbidden(all)}` : '';
  const more =
    mends.length > MOST_NEEDED ? `, or ${mends.length - MOST_NEEDED} more` : isShown ? '; nothing else alone' : '';
  return `. Would be met by ${mends.slice(0, MOST_NEEDED).join(', or ')}${more}`;
}

/** The requirement that stands in the way of the nearest. */
function forbidden(all: readonly NeededOf[]): string {
  for (const { figure, range } of all)
    if (range.type === 'none' && range.forbiddenBy !== '')
      return `; moving ${figure.name} would break ${range.forbiddenBy} first`;
  return '';
}

function draft(
  analysis: Analysis,
  result: RequirementResult,
  criterion: CriterionResult,
  code: 'unmet' | 'at-risk',
  message: string,
): Draft {
  return {
    code,
    requirement: result.requirement.id,
    message: `${result.requirement.id}: ${message}`,
    place: criterion.criterion.place,
    related: figuresBelow(analysis, criterion),
  };
}

function unmetMessage(analysis: Analysis, result: CriterionResult): string {
  const { figures } = result;
  if (figures === null)
    return `${printExpression(result.criterion.condition)} does not hold${inCase(result)}${givenIn(analysis, result)}`;
  const { is, missed } = shortfall(figures, 'typical');
  return `${subjectOf(result)} is ${is}, ${missed}`;
}

/** What the facts that a condition names are: `; rating is "IP65"`. */
function givenIn({ product }: Analysis, { criterion }: CriterionResult): string {
  const names = [...descendants(criterion.condition)].flatMap((node) =>
    node.type === 'name' ? node.parts.join('.') : [],
  );
  const given = [...new Set(names)].flatMap((name) => {
    const content = product.facts.get(name)?.content;
    return content?.type === 'value' ? `${name} is ${valueText(content.value)}` : [];
  });
  return given.length === 0 ? '' : `; ${given.slice(0, MOST_GIVEN).join(', ')}`;
}

function atRiskMessage(result: CriterionResult): string {
  const { figures, remark } = result;
  if (figures === null)
    return `${printExpression(result.criterion.condition)} holds at typical values, but not for every tolerance${inCase(result)}`;
  const { is, missed } = shortfall(figures, 'value');
  if (remark === 'not-shown')
    return `${subjectOf(result)} could not be shown to be ${limitText(figures)} within the step limit; no more is known than ${is}`;
  return `${subjectOf(result)} holds at its typical value, but its tolerance makes it ${is}, ${missed}`;
}

function inCase({ mode, row }: CriterionResult): string {
  return `${row === null ? '' : ` for ${row}`}${mode === null ? '' : ` in mode ${mode}`}`;
}

function useWithin(analysis: Analysis, result: RequirementResult, criterion: CriterionResult): Draft {
  const subject = subjectOf(criterion);
  return {
    code: 'use-within',
    requirement: result.requirement.id,
    message: `${result.requirement.id}: ${subject} has a spread, so it is never exactly one figure; write ends: “between A and B”, or “${subject} within A to B”`,
    place: criterion.criterion.place,
    related: figuresBelow(analysis, criterion),
  };
}

/** The given figures that a criterion rests on: what drives it first, then in the order of their names in the design. */
function figuresBelow({ product, lowering }: Analysis, { claim, uses }: CriterionResult): readonly Related[] {
  const value = claim.type === 'comparison' || claim.type === 'within' ? claim.value.term : null;
  const drivers = (value && driversOf(lowering.extremes, value)) ?? [];
  const names = new Set([...drivers.filter(({ share }) => share > 0).map(({ name }) => name), ...uses]);
  const related: Related[] = [];
  const shown = new Set<Fact>();
  for (const name of names) {
    const named = factNamed(product, name);
    const written = named && writtenValue(named.fact.content, named.mode);
    if (named === null || written?.type !== 'quantity' || shown.has(named.fact)) continue;
    shown.add(named.fact);
    related.push({
      place: { file: named.fact.file, span: named.fact.span },
      message: `${name} is ${formatValue(written)}`,
    });
    if (related.length === MOST_RELATED) break;
  }
  return related;
}

/** unmet, at-risk, use-within: what the design breaks or may break, by how much, and the figures it rests on. */
import type { Analysis, RequirementResult } from '../engine/analysis';
import type { CriterionResult } from '../engine/judge-criterion';
import { formatValue } from '../quantity/format';
import type { SimpleValue } from '../quantity/value';
import { descendants } from '../syntax/expression/ast';
import { printExpression } from '../syntax/expression/print';
import { limitText, shortfall, subjectOf } from './describe';
import type { Draft, Related } from './finding';

/** Given figures named beside a broken limit at the most. */
const MOST_RELATED = 6;
/** Given figures named in a message. */
const MOST_GIVEN = 3;

export function* brokenLimits(analysis: Analysis): Iterable<Draft> {
  for (const result of analysis.requirements) {
    if (result.verdict === 'not applicable') continue;
    for (const criterion of result.criteria) {
      if (criterion.verdict === 'unmet')
        yield draft(analysis, result, criterion, 'unmet', unmetMessage(analysis, criterion));
      if (criterion.verdict === 'at risk')
        yield draft(analysis, result, criterion, 'at-risk', atRiskMessage(criterion));
      if (criterion.remark === 'use-within' && criterion.verdict !== 'met')
        yield useWithin(analysis, result, criterion);
    }
  }
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

function valueText(value: SimpleValue): string {
  switch (value.type) {
    case 'quantity':
      return formatValue(value);
    case 'text':
      return `"${value.text}"`;
    case 'boolean':
      return value.boolean ? 'yes' : 'no';
    case 'set':
      return value.items.map(valueText).join(', ');
  }
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

/** The given figures that a criterion rests on, in the order of their names in the design. */
export function figuresBelow(analysis: Analysis, { uses }: CriterionResult): readonly Related[] {
  const related: Related[] = [];
  for (const name of uses) {
    const fact = analysis.product.facts.get(name);
    if (fact?.content.type !== 'value' || fact.content.value.type !== 'quantity') continue;
    related.push({
      place: { file: fact.file, span: fact.span },
      message: `${name} is ${formatValue(fact.content.value)}`,
    });
  }
  return related.slice(0, MOST_RELATED);
}

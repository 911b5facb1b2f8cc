/** `explain` for programs: one of `requirement`, `fact` and `part`, the others null. */
import { CHANGES_OF_VERDICT } from '../../engine/comparison';
import type { NeededOf } from '../../engine/ranges/ranges';
import type { ProductAnalysis } from '../../findings/product-analysis';
import { factJson, findingJson, type JsonContext, jsonContext, requirementJson } from '../check-json';
import { numberIn } from '../numbers';
import type { FactExplanation, RequirementExplanation, RowExplanation } from './explanation';

export type Explanation =
  | { readonly type: 'requirement'; readonly explanation: RequirementExplanation }
  | { readonly type: 'fact'; readonly explanation: FactExplanation }
  | { readonly type: 'row'; readonly explanation: RowExplanation };

export function explainJson(explained: Explanation, whole: ProductAnalysis): Readonly<Record<string, unknown>> {
  const context = jsonContext(whole);
  return {
    schema: 1,
    requirement: explained.type === 'requirement' ? ofRequirement(explained.explanation, context) : null,
    fact: explained.type === 'fact' ? ofFact(explained.explanation, context) : null,
    part: explained.type === 'row' ? ofRow(explained.explanation, context) : null,
  };
}

function ofRequirement(explanation: RequirementExplanation, context: JsonContext) {
  const { result, needed, children, figures } = explanation;
  const { id } = result.requirement;
  return {
    ...requirementJson(result, context),
    readFrom: result.criteria.map(({ criterion }) =>
      readFrom(criterion.trace, context.result.texts, criterion.place.file),
    ),
    needed: needed.map(neededJson),
    parentOf: children,
    findings: context.result.findings
      .filter(({ requirement }) => requirement === id)
      .map((finding) => findingJson(finding, context)),
    facts: figures.map(({ result: fact }) => factJson(fact, context)),
  };
}

/** The words that gave relation and quantity; null where a code span says it all. */
function readFrom(
  trace: RequirementExplanation['result']['criteria'][number]['criterion']['trace'],
  texts: ReadonlyMap<string, string>,
  file: string,
) {
  if (trace === null) return null;
  const text = texts.get(file) ?? '';
  const words = (span: { readonly start: number; readonly end: number } | null) =>
    span === null ? null : text.slice(span.start, span.end);
  return {
    relation: words(trace.relation),
    quantity: words(trace.quantity),
    number: words(trace.number),
    unit: words(trace.unit),
  };
}

function neededJson({ figure, range }: NeededOf) {
  const { unit } = figure.value;
  return {
    figure: figure.name,
    movement: figure.movement === 'half-width' ? 'half-width' : 'value',
    now: numberIn(figure.now, unit),
    min: range.type === 'range' ? numberIn(range.low?.value ?? null, unit) : null,
    max: range.type === 'range' ? numberIn(range.high?.value ?? null, unit) : null,
    unit: unit.canonical,
    forbiddenBy: range.type === 'none' ? range.forbiddenBy : null,
  };
}

function ofFact({ result, requirements, derivedFrom }: FactExplanation, context: JsonContext) {
  return {
    ...factJson(result, context),
    source: result.fact.source,
    derivedFrom,
    requirements: requirements.map(({ requirement }) => requirement.id),
  };
}

function ofRow({ row, fields, requirements, without }: RowExplanation, context: JsonContext) {
  return {
    name: `${row.table}.${row.id}`,
    fields: fields.map(({ result }) => factJson(result, context)),
    requirements: requirements.map(({ requirement }) => requirement.id),
    without: Object.fromEntries(
      CHANGES_OF_VERDICT.filter((change) => change !== 'same').map((change) => [
        change,
        without.filter((one) => one.change === change).map(({ result }) => result.requirement.id),
      ]),
    ),
  };
}

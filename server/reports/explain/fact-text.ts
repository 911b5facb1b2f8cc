/** `explain` of a fact and of a row of a table, for people. */
import type { FactContent } from '../../engine/analysis';
import { limitUnits, shownUnit } from '../../findings/fact-units';
import { allowedText, mendLines, notCountedText } from '../../findings/move-text';
import type { ProductAnalysis } from '../../findings/product-analysis';
import { shownTitle } from '../../findings/requirement-text';
import { formatOutward } from '../../quantity/format';
import * as interval from '../../quantity/interval';
import { valueText } from '../../quantity/value-text';
import { printExpression } from '../../syntax/expression/print';
import type { TextStyle } from '../text-style';
import { VERDICT_MARKS } from '../verdict-counts';
import type { FactExplanation, RowExplanation } from './explanation';
import { placeText, section } from './layout';

export function factText(explanation: FactExplanation, whole: ProductAnalysis, style: TextStyle): string {
  const { result, ranges, derivedFrom } = explanation;
  const { fact, values, reasons } = result;
  const place = placeText(whole, { file: fact.file, span: fact.nameSpan });
  const { content } = fact;
  const written = content.type === 'expression' ? [`= ${printExpression(content.expression)}`] : [];
  return [
    `${style.paint('heading', fact.name)}  ${style.paint('quiet', place)}`,
    ...[...written, ...values.map(({ mode, content: own }) => valueLine(mode, own, explanation, whole))].map(
      (line) => `  ${line}`,
    ),
    ...(fact.source === null ? [] : [`  source: ${fact.source}`]),
    ...section(
      'What stands in the way',
      reasons.map(({ message }) => message),
      style,
    ),
    ...section('How far it may move, all else as it is', rangeLines(ranges), style),
    ...section('What it would take to mend', neededLines(ranges), style),
    ...section('Derived from', derivedFrom, style),
    ...requirementSection(explanation.requirements, style),
  ].join('\n');
}

export function rowText(explanation: RowExplanation, whole: ProductAnalysis, style: TextStyle): string {
  const { row, fields, requirements, without } = explanation;
  const name = `${row.table}.${row.id}`;
  const found = whole.findings.filter(({ code, message }) => code === 'unneeded' && message.startsWith(`${name}:`));
  const changes = without.map(({ result, change }) => `${result.requirement.id}: ${change}, ${result.verdict}`);
  return [
    `${style.paint('heading', name)}  ${style.paint('quiet', placeText(whole, row.place))}`,
    ...section(
      'Fields',
      fields.flatMap((field) => figureLines(field, whole)),
      style,
    ),
    ...section(
      'What is found',
      found.map(({ severity, code, message }) => `${severity} ${code}: ${message}`),
      style,
    ),
    ...section('Without it', changes.length === 0 ? ['no requirement changes'] : changes, style),
    ...requirementSection(requirements, style),
  ].join('\n');
}

/** `supply.efficiency: 0.91 ± 0.02; may go down to 0.9 (TRN-032)`, a line for each figure of it. */
export function figureLines({ result, ranges }: FactExplanation, whole: ProductAnalysis): readonly string[] {
  const { fact } = result;
  const { content } = fact;
  const own =
    content.type === 'value'
      ? valueText(content.value)
      : content.type === 'expression'
        ? `= ${printExpression(content.expression)}`
        : content.type === 'modes'
          ? [...content.modes]
              .map(([mode, one]) => `${mode} ${one.type === 'value' ? valueText(one.value) : ''}`)
              .join(', ')
          : content.type === 'tbd'
            ? 'to be determined'
            : '';
  const [only] = ranges;
  const place = placeText(whole, { file: fact.file, span: fact.nameSpan });
  const head = `${fact.name}: ${own}`;
  if (ranges.length === 1 && only !== undefined) {
    const text = allowedText(only);
    return [`${head}${text === null ? '' : `; ${text}`}  ${place}`];
  }
  return [`${head}  ${place}`, ...rangeLines(ranges).map((line) => `  ${line}`)];
}

function rangeLines(ranges: FactExplanation['ranges']): readonly string[] {
  return ranges.flatMap((one) => {
    const name = one.figure.movement === 'half-width' ? `the tolerance of ${one.figure.name}` : one.figure.name;
    const text = allowedText(one) ?? 'not found out';
    const notCounted = notCountedText(one);
    return [`${name} ${text}${notCounted === null ? '' : `; ${notCounted}`}`];
  });
}

function neededLines(ranges: FactExplanation['ranges']): readonly string[] {
  return ranges.flatMap(({ figure, needed }) =>
    needed.flatMap(({ requirement, range }) => {
      const [line] = mendLines([{ figure, range }]);
      return line === undefined ? [] : [`${requirement.id}: ${line}`];
    }),
  );
}

function valueLine(
  mode: string | null,
  content: FactContent,
  { result, requirements }: FactExplanation,
  whole: ProductAnalysis,
): string {
  return `${contentText(content, result.fact.name, requirements, whole)}${mode === null ? '' : ` in mode ${mode}`}`;
}

function contentText(
  content: FactContent,
  name: string,
  requirements: FactExplanation['requirements'],
  whole: ProductAnalysis,
): string {
  switch (content.type) {
    case 'quantity': {
      const { units } = whole.analysis.product;
      const unit = shownUnit(
        content.unit === null ? limitUnits(requirements).get(name) : undefined,
        content.unit,
        content.dimension,
        units,
      );
      const worst = formatOutward(content.full, unit);
      const isPlain = interval.isPoint(content.full) || formatOutward(content.typical, unit) === worst;
      return isPlain ? worst : `${worst}, typically ${formatOutward(content.typical, unit)}`;
    }
    case 'text':
      return `"${content.text}"`;
    case 'boolean':
      return content.boolean ? 'yes' : 'no';
    case 'set':
      return content.items.map((item) => contentText(item, name, requirements, whole)).join(', ');
    case 'undecided':
      return 'undecided';
  }
}

function requirementSection(requirements: FactExplanation['requirements'], style: TextStyle): readonly string[] {
  const lines = requirements.map(
    ({ requirement, verdict }) =>
      `${requirement.id}  ${shownTitle(requirement)}: ${style.paint(VERDICT_MARKS[verdict], verdict)}`,
  );
  return section('Requirements that rest on it', lines.length === 0 ? ['none'] : lines, style);
}

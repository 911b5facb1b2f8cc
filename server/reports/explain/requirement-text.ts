/** `explain` of a requirement, for people. */

import { SAFETY_CAUTION } from '../../../grammar/cautions';
import type { Figures } from '../../engine/criterion';
import { caseText, marginText, worstCaseText } from '../../findings/criterion-text';
import { limitText } from '../../findings/describe';
import { mendLines } from '../../findings/move-text';
import type { ProductAnalysis } from '../../findings/product-analysis';
import { shownTitle } from '../../findings/requirement-text';
import { isSafety, type Requirement } from '../../model/requirement';
import { differenceUnit } from '../../quantity/conversion';
import { formatNumber, formatOutward } from '../../quantity/format';
import * as rational from '../../quantity/rational';
import { UNITY } from '../../quantity/unit';
import type { TextStyle } from '../text-style';
import { VERDICT_MARKS } from '../verdict-counts';
import type { CriterionExplanation, RequirementExplanation } from './explanation';
import { figureLines } from './fact-text';
import { placeText, section } from './layout';

export function requirementText(explanation: RequirementExplanation, whole: ProductAnalysis, style: TextStyle): string {
  const { result, criteria, needed, parents, children, figures } = explanation;
  const { requirement, verdict, reasons } = result;
  const head = `${style.paint('heading', `${requirement.id}  ${shownTitle(requirement)}`)}: ${style.paint(VERDICT_MARKS[verdict], verdict)}  ${style.paint('quiet', placeText(whole, { file: requirement.file, span: requirement.idSpan }))}`;
  const own = whole.findings.filter((finding) => finding.requirement === requirement.id);
  const kin = [
    parents.length === 0 ? '' : `derives from ${parents.join(', ')}`,
    children.length === 0 ? '' : `${children.join(', ')} ${children.length === 1 ? 'derives' : 'derive'} from it`,
  ].filter((text) => text !== '');
  return [
    head,
    ...statementLines(requirement),
    ...(isSafety(requirement) ? [`  ${style.paint('doubtful', SAFETY_CAUTION)}`] : []),
    ...criteria.flatMap((criterion) => criterionLines(criterion, whole, style)),
    ...section(
      'What stands in the way',
      reasons.map(({ message }) => message),
      style,
    ),
    ...section('Would be met by', mendLines(needed), style),
    ...section(
      'What is found',
      own.map(({ severity, code, message }) => `${severity} ${code}: ${message}`),
      style,
    ),
    ...section('Evidence', verdict === 'not applicable' ? [] : [result.evidence.state], style),
    ...section('Kin', kin, style),
    ...section(
      'Rests on',
      figures.flatMap((figure) => figureLines(figure, whole)),
      style,
    ),
  ].join('\n');
}

function statementLines({ statement }: Requirement): readonly string[] {
  if (statement === null) return [];
  let code = 0;
  const text = statement.text.replace(/\uFFFC/gu, () => `\`${statement.codes[code++]?.code ?? ''}\``);
  return text.split('\n').map((line) => `  ${line.trim()}`);
}

function criterionLines(
  { result, rss, drivers }: CriterionExplanation,
  whole: ProductAnalysis,
  style: TextStyle,
): readonly string[] {
  const { criterion, verdict, figures, reasons } = result;
  const head = `  ${style.paint('heading', criterion.text)}: ${style.paint(VERDICT_MARKS[verdict], verdict)}${caseText(result)}`;
  const lines = [
    ...(figures === null ? [] : figuresLines(figures)),
    ...readFrom(result, whole),
    ...(rss === null || figures === null || drivers === null || drivers.length < 2
      ? []
      : [`by root sum square ${formatOutward(rss, figures.unit)}`]),
    ...(drivers === null || figures === null ? [] : driverLines(drivers, figures)),
    ...reasons.map(({ message }) => message),
  ];
  return ['', head, ...lines.map((line) => `    ${line}`)];
}

function figuresLines(figures: Figures): readonly string[] {
  const margin = marginText(figures);
  const typical = formatOutward(figures.typical, figures.unit);
  const worst = worstCaseText(figures);
  const spread = typical === worst ? worst : `${worst} in the worst case, typically ${typical}`;
  return [`${spread}; asked for is ${limitText(figures)}${margin === null ? '' : `; margin ${margin}`}`];
}

/** Which words of the sentence gave the limit. */
function readFrom({ criterion }: CriterionExplanation['result'], { texts }: ProductAnalysis): readonly string[] {
  const { trace, place, namePlace } = criterion;
  if (trace === null) return [];
  const text = texts.get(place.file) ?? '';
  const words = [trace.relation, trace.quantity].flatMap((span) =>
    span === null ? [] : [`“${text.slice(span.start, span.end).replace(/\s+/g, ' ')}”`],
  );
  const name = text.slice(namePlace.span.start, namePlace.span.end).replace(/\s+/g, ' ');
  return [`read from ${words.join(' ')} and ${name}`];
}

function driverLines(drivers: NonNullable<CriterionExplanation['drivers']>, { unit }: Figures): readonly string[] {
  if (drivers.length === 0) return [];
  const lines = drivers.map(({ name, unit: own, slope, share }) => {
    const [above, below] = [differenceUnit(unit), own === null ? UNITY : differenceUnit(own)];
    const slopeText = formatNumber(rational.divide(rational.multiply(slope, below.factor), above.factor), 'nearest');
    const figure = name === '' ? 'a figure in the expression' : name;
    const moves = `${slopeText} ${above.canonical === UNITY.canonical ? '' : `${above.canonical} `}per ${below.canonical}`;
    return `  ${(share * 100).toFixed(1).padStart(5)} %  ${figure}: ${moves}`;
  });
  return ['its spread comes from these, taken to move apart; by how much it moves with each:', ...lines];
}

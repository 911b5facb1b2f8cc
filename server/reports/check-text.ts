/** `check` for people: each document with its requirements and what is found in it, then one line that sums up. */
import type { Severity } from '../../grammar/findings';
import type { RequirementResult } from '../engine/analysis';
import type { CriterionResult } from '../engine/judge-criterion';
import type { Finding } from '../findings/finding';
import type { ProductAnalysis } from '../findings/product-analysis';
import { createLineIndex } from '../syntax/line-index';
import { figuresText } from './criterion-text';
import { shownTitle } from './requirement-text';
import type { Mark, TextStyle } from './text-style';
import { countsText, VERDICT_MARKS } from './verdict-counts';

const SEVERITY_MARKS: Readonly<Record<Severity, Mark>> = {
  error: 'bad',
  warning: 'doubtful',
  information: 'quiet',
  hint: 'quiet',
};
const VERDICT_COLUMNS = 16;

export function checkText(result: ProductAnalysis, productName: string, style: TextStyle): string {
  const { analysis, findings } = result;
  const files = [
    ...new Set([
      ...analysis.requirements.map(({ requirement }) => requirement.file),
      ...findings.map(({ place }) => place.file),
    ]),
  ].sort();
  const blocks = files.map((file) => documentText(file, result, style));
  const head = style.paint('heading', productName);
  return `${[head, ...blocks, summaryText(result, style)].join('\n\n')}\n`;
}

function documentText(file: string, { analysis, findings, texts }: ProductAnalysis, style: TextStyle): string {
  const index = createLineIndex(texts.get(file) ?? '');
  const requirements = analysis.requirements.filter(({ requirement }) => requirement.file === file);
  const idColumns = Math.max(0, ...requirements.map(({ requirement }) => requirement.id.length)) + 2;
  const lines = requirements.flatMap((requirement) => requirementLines(requirement, idColumns, style));
  const found = findings
    .filter(({ place, severity }) => place.file === file && severity !== 'hint')
    .map((finding) => findingLine(finding, index.positionAt(finding.place.span.start), style));
  return [style.paint('heading', file), ...lines, ...found].join('\n');
}

function requirementLines(result: RequirementResult, idColumns: number, style: TextStyle): readonly string[] {
  const { requirement, verdict, basis, criteria } = result;
  const head = `  ${style.paint(VERDICT_MARKS[verdict], style.pad(basis === 'rss' && verdict === 'met' ? 'met (rss)' : verdict, VERDICT_COLUMNS))}${style.pad(requirement.id, idColumns)}${shownTitle(requirement)}${notesOf(result)}`;
  const indent = ' '.repeat(2 + VERDICT_COLUMNS + idColumns);
  const several = criteria.length > 1;
  return [head.trimEnd(), ...criteria.map((criterion) => indent + criterionLine(criterion, several, style))];
}

/** What stands behind the verdict: ` (stale)`, ` (waived until 2027-03-31, else unmet; planned)`; nothing where it is verified. */
function notesOf({ verdict, basis, evidence, waiver, withoutWaiver }: RequirementResult): string {
  if (verdict === 'not applicable') return '';
  const hasMoved = evidence.state === 'verified' && evidence.items.some(({ moved }) => moved.length > 0);
  const notes = [
    basis === 'evidence' && verdict !== 'open' ? 'by evidence' : '',
    waiver?.type === 'in-force' ? `until ${waiver.waiver.until} by ${waiver.waiver.who}, else ${withoutWaiver}` : '',
    evidence.state === 'verified' ? '' : evidence.state,
    hasMoved ? 'verified; moved, still covered' : '',
  ].filter((note) => note !== '');
  return notes.length === 0 ? '' : ` (${notes.join('; ')})`;
}

function criterionLine(result: CriterionResult, several: boolean, style: TextStyle): string {
  const own = several ? `${result.verdict}: ` : '';
  return style.paint('quiet', `${own}${result.criterion.text}${figuresText(result)}`);
}

function findingLine(
  { severity, code, message }: Finding,
  at: { readonly line: number; readonly character: number },
  style: TextStyle,
): string {
  const place = style.pad(`${at.line + 1}:${at.character + 1}`, VERDICT_COLUMNS - 8);
  return `    ${place}${style.paint(SEVERITY_MARKS[severity], severity)} ${code}: ${message}`;
}

function summaryText({ analysis, findings }: ProductAnalysis, style: TextStyle): string {
  const total = analysis.requirements.length;
  const counts = countsText(analysis.requirements, style);
  const found = (['error', 'warning', 'information'] as const)
    .map((severity) => ({ severity, count: findings.filter((finding) => finding.severity === severity).length }))
    .filter(({ count }) => count > 0)
    .map(
      ({ severity, count }) =>
        `${count} ${severity === 'information' ? 'to know' : `${severity}${count === 1 ? '' : 's'}`}`,
    );
  const requirements = `${total} requirement${total === 1 ? '' : 's'}`;
  const verdictText = counts === '' ? '' : `: ${counts}`;
  return `${requirements}${verdictText}. ${found.length === 0 ? 'Nothing found' : found.join(', ')}.`;
}

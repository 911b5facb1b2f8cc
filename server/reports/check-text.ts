/** `check` for people: each document with its requirements and what is found in it, then one line that sums up. */

import type { RequirementResult } from '../engine/analysis';
import type { CriterionResult } from '../engine/judge-criterion';
import { figuresText } from '../findings/criterion-text';
import type { Finding } from '../findings/finding';
import type { ProductAnalysis } from '../findings/product-analysis';
import { shownTitle } from '../findings/requirement-text';
import { groupBy } from '../model/group-by';
import { createLineIndex } from '../syntax/line-index';
import { openPointsText, summaryText } from './check-summary';
import { findingLine, mostLines } from './finding-lines';
import type { TextStyle } from './text-style';
import { VERDICT_MARKS } from './verdict-counts';

const VERDICT_COLUMNS = 16;

/** @param shown `most`: of many mild findings of one kind in a document the first, and the names of the rest; no hints */
export function checkText(
  result: ProductAnalysis,
  productName: string,
  style: TextStyle,
  shown: 'most' | 'all' = 'most',
): string {
  const { analysis, findings } = result;
  const files = [
    ...new Set([
      ...analysis.requirements.map(({ requirement }) => requirement.file),
      ...findings.map(({ place }) => place.file),
    ]),
  ].sort();
  const requirements = groupBy(analysis.requirements, ({ requirement }) => requirement.file);
  const found = groupBy(findings, ({ place }) => place.file);
  const blocks = files.map((file) =>
    documentText(file, result.texts.get(file) ?? '', requirements.get(file) ?? [], found.get(file) ?? [], style, shown),
  );
  const head = style.paint('heading', productName);
  return `${[head, ...blocks, ...openPointsText(result, style), summaryText(result, style, shown)].join('\n\n')}\n`;
}

function documentText(
  file: string,
  text: string,
  requirements: readonly RequirementResult[],
  findings: readonly Finding[],
  style: TextStyle,
  shown: 'most' | 'all',
): string {
  const index = createLineIndex(text);
  const idColumns = requirements.reduce((most, { requirement }) => Math.max(most, requirement.id.length), 0) + 2;
  const lines = requirements.flatMap((requirement) => requirementLines(requirement, idColumns, style));
  const found =
    shown === 'all' ? findings.map((finding) => findingLine(finding, index, style)) : mostLines(findings, index, style);
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

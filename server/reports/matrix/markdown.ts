/** `matrix --format markdown`: the matrix as GitHub Flavored Markdown, for forges and for pull requests. */

import { CAUTIONS, SAFETY_CAUTION } from '../../../grammar/cautions';
import { EVIDENCE_STATES } from '../../engine/evidence/state';
import { type Links, placeLink } from '../page/links';
import { markdownCode as code, escapedMarkdown as escaped, markdownLink, markdownTable } from '../page/markdown-text';
import { VERDICTS } from './coverage';
import type { LinePlace, Matrix, MatrixRow, RestingRequirement, Statement } from './record';
import {
  EVIDENCE_MEANINGS,
  figureWords,
  methodWords,
  revisionWords,
  summaryWords,
  VERDICT_MEANINGS,
  valueWords,
  verdictWords,
  worstWords,
} from './words';

export function matrixMarkdown(matrix: Matrix, links: Links): string {
  const parts = [
    `# ${escaped(matrix.product)}: requirements matrix`,
    `${escaped(summaryWords(matrix))}. Date ${matrix.date ?? 'not given'}; revision ${escaped(revisionWords(matrix.revision))}; phase ${matrix.phase}.`,
    `> **Caution.** ${CAUTIONS.join(' ')}`,
    '## Where it stands',
    ...coverageTables(matrix),
    '## Requirements',
    requirementTable(matrix, links),
    '## What rests on each figure',
    factTable(matrix, links),
    '## What rests on each part',
    partTable(matrix, links),
    '## Open points',
    openPointTable(matrix, links),
    '## Waivers',
    waiverTable(matrix, links),
  ];
  return `${parts.join('\n\n')}\n`;
}

function coverageTables({ coverage, documents }: Matrix): readonly string[] {
  const { verdicts, evidence } = coverage;
  return [
    markdownTable(
      ['Verdict', 'Requirements', 'Meaning'],
      VERDICTS.map((verdict) => [verdict, String(verdicts[verdict]), VERDICT_MEANINGS[verdict]]),
    ),
    markdownTable(
      ['Evidence', 'Requirements', 'Meaning'],
      EVIDENCE_STATES.map((state) => [state, String(evidence[state]), EVIDENCE_MEANINGS[state]]),
    ),
    markdownTable(
      ['Document', 'Requirements', ...VERDICTS],
      documents.map((document) => [
        escaped(document.file),
        String(document.requirements),
        ...VERDICTS.map((verdict) => String(document.verdicts[verdict])),
      ]),
    ),
  ];
}

function requirementTable({ requirements }: Matrix, links: Links): string {
  const columns = [
    'ID',
    'Requirement',
    'Verdict',
    'Criterion as read',
    'Value, worst case',
    'Margin',
    'Rests on',
    'Derives from',
    'Evidence',
  ];
  return markdownTable(
    columns,
    requirements.map((row) => requirementCells(row, links)),
  );
}

function requirementCells(row: MatrixRow, links: Links): readonly string[] {
  const each = (text: (criterion: MatrixRow['criteria'][number]) => string) => lines(row.criteria.map(text));
  return [
    placed(row.id, row.place, links),
    lines([
      row.title === '' ? '' : `**${escaped(row.title)}**`,
      statementText(row.statement),
      row.safety ? `*${SAFETY_CAUTION}*` : '',
    ]),
    lines([verdictWords(row), row.overSpecified ? 'over-specified' : '', row.provisional ? 'provisional' : '']),
    each((criterion) => code(criterion.text)),
    each((criterion) => escaped([valueWords(criterion), worstWords(criterion)].filter(Boolean).join(', '))),
    each(({ margin }) => escaped(figureWords(margin))),
    [...row.facts, ...row.parts].map(code).join(', '),
    row.derivesFrom.map(({ id }) => escaped(id)).join(', '),
    lines([row.evidence ?? 'none needed', ...row.methods.map((method) => escaped(methodWords(method)))]),
  ];
}

function statementText(statement: Statement | null): string {
  const pieces = statement?.pieces ?? [];
  // Spaces at the ends of a piece part it from the code beside it.
  return pieces
    .map(({ text, isCode }) => (isCode ? code(text) : text.replace(/^(\s*)(.*?)(\s*)$/s, spaced)))
    .join('')
    .trim();
}

function spaced(_: string, before: string, text: string, after: string): string {
  return `${before === '' ? '' : ' '}${escaped(text)}${after === '' ? '' : ' '}`;
}

function factTable({ facts }: Matrix, links: Links): string {
  if (facts.length === 0) return 'No requirement rests on a figure.';
  return markdownTable(
    ['Figure', 'Value', 'May go', 'Requirements'],
    facts.map(({ name, place, value, allowed, requirements }) => [
      markdownLink(code(name), placeLink(links, place.file, place.line)),
      escaped(value),
      escaped(allowed),
      resting(requirements),
    ]),
  );
}

function partTable({ parts }: Matrix, links: Links): string {
  if (parts.length === 0) return 'No requirement rests on a part.';
  return markdownTable(
    ['Part', 'Name', 'By its', 'Requirements'],
    parts.map(({ name, label, place, fields, requirements }) => [
      markdownLink(code(name), placeLink(links, place.file, place.line)),
      escaped(label),
      escaped(fields.join(', ')),
      resting(requirements),
    ]),
  );
}

function openPointTable({ openPoints }: Matrix, links: Links): string {
  if (openPoints.length === 0) return 'Nothing is to be determined, resolved or confirmed.';
  return markdownTable(
    ['Open point', 'Owner', 'Place', 'Requirements'],
    openPoints.map(({ message, owners, place, requirements }) => [
      escaped(message),
      escaped(owners.join(', ')),
      placed(`${place.file}:${place.line}`, place, links),
      resting(requirements),
    ]),
  );
}

function waiverTable({ waivers }: Matrix, links: Links): string {
  if (waivers.length === 0) return 'No exception was granted.';
  return markdownTable(
    ['Requirement', 'State', 'To', 'Reason', 'By', 'Until'],
    waivers.map(({ requirement, place, state, problem, extent, reason, who, until }) => [
      placed(requirement.id, place, links),
      lines([state, escaped(problem)]),
      escaped(extent),
      escaped(reason),
      escaped(who),
      until,
    ]),
  );
}

function placed(text: string, { file, line }: LinePlace, links: Links): string {
  return markdownLink(escaped(text), placeLink(links, file, line));
}

/** `TRN-031 (at risk), TRN-032` */
function resting(requirements: readonly RestingRequirement[]): string {
  return requirements.map(({ id, verdict }) => escaped(verdict === 'met' ? id : `${id} (${verdict})`)).join(', ');
}

function lines(texts: readonly string[]): string {
  return texts.filter((text) => text !== '').join('<br>');
}

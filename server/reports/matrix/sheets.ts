/** The matrix as sheets of typed cells, for spreadsheets and CSV. */

import { CAUTIONS, SAFETY_CAUTION } from '../../../grammar/cautions';
import { compareVerdicts } from '../../engine/verdict';
import { TOOL } from '../tool';
import type { Matrix, MatrixCriterion, MatrixRow, RestingRequirement } from './record';
import { EVIDENCE_MEANINGS, methodWords, revisionWords, summaryWords, VERDICT_MEANINGS } from './words';

/** Null: empty. */
export type Cell = string | number | null;

export interface Sheet {
  readonly name: string;
  /** Names, and widths in characters. */
  readonly columns: readonly (readonly [name: string, width: number])[];
  readonly rows: readonly (readonly Cell[])[];
}

export function sheetsOf(matrix: Matrix): readonly Sheet[] {
  return [
    requirementSheet(matrix),
    criterionSheet(matrix),
    factSheet(matrix),
    partSheet(matrix),
    openPointSheet(matrix),
    waiverSheet(matrix),
    aboutSheet(matrix),
  ];
}

/** A row a requirement, with the figures of the criterion that decides it. */
export function requirementSheet({ requirements }: Matrix): Sheet {
  return {
    name: 'Requirements',
    columns: [
      ['ID', 12],
      ['Title', 24],
      ['Statement', 60],
      ['Obligation', 10],
      ['Priority', 10],
      ['Owner', 16],
      ['Verdict', 14],
      ['Verdict without waiver', 14],
      ['Basis', 12],
      ...CRITERION_COLUMNS,
      ['Other criteria', 40],
      ['Over-specified', 10],
      ['Provisional', 10],
      ['Rests on figures', 40],
      ['Rests on parts', 30],
      ['Derives from', 16],
      ['Evidence', 12],
      ['Methods', 40],
      ['Remarks', 60],
      ['Rationale', 40],
      ['Source', 24],
      ['Caution', 40],
      ['File', 30],
      ['Line', 8],
    ],
    rows: requirements.map(requirementCells),
  };
}

function requirementCells(row: MatrixRow): readonly Cell[] {
  const decisive = decisiveCriterion(row);
  const others = row.criteria.filter((criterion) => criterion !== decisive).map(({ text }) => text);
  return [
    row.id,
    row.title,
    row.statement?.text ?? '',
    row.obligation,
    row.priority,
    row.owner,
    row.verdict,
    row.withoutWaiver,
    row.basis,
    ...criterionCells(decisive),
    others.join('\n'),
    yesOrNo(row.overSpecified),
    yesOrNo(row.provisional),
    row.facts.join(', '),
    row.parts.join(', '),
    row.derivesFrom.map(({ id }) => id).join(', '),
    row.evidence,
    row.methods.map(methodWords).join('\n'),
    row.remarks.map(({ code, message }) => `${code}: ${message}`).join('\n'),
    row.rationale,
    row.source,
    row.safety ? SAFETY_CAUTION : '',
    row.place.file,
    row.place.line,
  ];
}

/** The worst verdict, then the least to spare, then the first written. */
function decisiveCriterion({ criteria }: MatrixRow): MatrixCriterion | null {
  const [first, ...others] = criteria;
  if (first === undefined) return null;
  return others.reduce((worst, one) => (isWorse(one, worst) ? one : worst), first);
}

function isWorse(a: MatrixCriterion, b: MatrixCriterion): boolean {
  const order = compareVerdicts(a.verdict, b.verdict);
  return order === 0 ? (a.share ?? Number.POSITIVE_INFINITY) < (b.share ?? Number.POSITIVE_INFINITY) : order < 0;
}

const CRITERION_COLUMNS: Sheet['columns'] = [
  ['Criterion as read', 36],
  ['Relation', 9],
  ['Limit, least', 12],
  ['Limit, greatest', 12],
  ['Value, least', 12],
  ['Value, greatest', 12],
  ['Value', 16],
  ['Unit', 9],
  ['Margin', 12],
  ['Unit of margin', 9],
  ['Margin / limit', 12],
  ['Worst mode', 12],
  ['Worst row', 12],
];

/** Numbers are not rounded; what is no quantity stands under *Value*. */
function criterionCells(criterion: MatrixCriterion | null): readonly Cell[] {
  if (criterion === null) return CRITERION_COLUMNS.map(() => null);
  const { text, limit, low, high, word, margin, share, mode, row } = criterion;
  return [
    text,
    limit?.relation ?? null,
    limit?.low ?? null,
    limit?.high ?? null,
    low === null ? null : (low.number ?? low.digits),
    high === null ? null : (high.number ?? high.digits),
    word,
    limit?.unit ?? null,
    margin?.number ?? null,
    margin?.unit ?? null,
    share,
    mode,
    row,
  ];
}

function criterionSheet({ requirements }: Matrix): Sheet {
  const rows = requirements.flatMap(({ id, criteria }) =>
    criteria.map((criterion) => [id, criterion.verdict, ...criterionCells(criterion)]),
  );
  return { name: 'Criteria', columns: [['ID', 12], ['Verdict', 14], ...CRITERION_COLUMNS], rows };
}

function factSheet({ facts }: Matrix): Sheet {
  return {
    name: 'Figures',
    columns: [
      ['Figure', 32],
      ['Value', 32],
      ['Given or derived', 12],
      ['Source', 32],
      ['May go', 40],
      ['Requirements', 50],
      ['File', 30],
      ['Line', 8],
    ],
    rows: facts.map(({ name, value, given, source, allowed, requirements, place }) => [
      name,
      value,
      given ? 'given' : 'derived',
      source,
      allowed,
      idsOf(requirements),
      place.file,
      place.line,
    ]),
  };
}

function partSheet({ parts }: Matrix): Sheet {
  return {
    name: 'Parts',
    columns: [
      ['Part', 24],
      ['Name', 28],
      ['By its', 40],
      ['Requirements', 50],
      ['File', 30],
      ['Line', 8],
    ],
    rows: parts.map(({ name, label, fields, requirements, place }) => [
      name,
      label,
      fields.join(', '),
      idsOf(requirements),
      place.file,
      place.line,
    ]),
  };
}

function openPointSheet({ openPoints }: Matrix): Sheet {
  return {
    name: 'Open points',
    columns: [
      ['Open point', 70],
      ['Owner', 24],
      ['Requirements', 40],
      ['File', 30],
      ['Line', 8],
    ],
    rows: openPoints.map(({ message, owners, requirements, place }) => [
      message,
      owners.join(', '),
      idsOf(requirements),
      place.file,
      place.line,
    ]),
  };
}

function waiverSheet({ waivers }: Matrix): Sheet {
  return {
    name: 'Waivers',
    columns: [
      ['ID', 12],
      ['State', 14],
      ['To', 20],
      ['Reason', 40],
      ['By', 24],
      ['Until', 12],
      ['Problem', 40],
      ['File', 30],
      ['Line', 8],
    ],
    rows: waivers.map(({ requirement, state, extent, reason, who, until, problem, place }) => [
      requirement.id,
      state,
      extent,
      reason,
      who,
      until,
      problem,
      place.file,
      place.line,
    ]),
  };
}

function aboutSheet(matrix: Matrix): Sheet {
  const rows: readonly (readonly Cell[])[] = [
    ['Product', matrix.product],
    ['Date', matrix.date],
    ['Revision', revisionWords(matrix.revision)],
    ['Phase', matrix.phase],
    ['Summary', summaryWords(matrix)],
    ...CAUTIONS.map((caution) => ['Caution', caution]),
    ...Object.entries(VERDICT_MEANINGS).map(([verdict, meaning]) => [`Verdict: ${verdict}`, meaning]),
    ...Object.entries(EVIDENCE_MEANINGS).map(([state, meaning]) => [`Evidence: ${state}`, meaning]),
    ['Made by', `${TOOL.name} ${TOOL.version}`],
  ];
  return {
    name: 'About',
    columns: [
      ['What', 24],
      ['Words', 100],
    ],
    rows,
  };
}

function idsOf(requirements: readonly RestingRequirement[]): string {
  return requirements.map(({ id }) => id).join(', ');
}

function yesOrNo(value: boolean): string {
  return value ? 'yes' : '';
}

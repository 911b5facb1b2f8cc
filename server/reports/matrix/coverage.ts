/** Counts of requirements by verdict and evidence, for the whole product and for each document. */
import { EVIDENCE_STATES, type EvidenceState } from '../../engine/evidence/state';
import type { Verdict } from '../../engine/verdict';
import type { Coverage, DocumentCoverage, MatrixRow } from './record';

/** The order in which verdicts are told, what needs attention first. */
export const VERDICTS: readonly Verdict[] = [
  'unmet',
  'at risk',
  'undecided',
  'open',
  'waived',
  'met',
  'not applicable',
];

export function coverageOf(rows: readonly MatrixRow[]): Coverage {
  const verdicts = countsOf(VERDICTS);
  const evidence = countsOf<EvidenceState>(EVIDENCE_STATES);
  for (const row of rows) {
    verdicts[row.verdict] += 1;
    if (row.evidence !== null) evidence[row.evidence] += 1;
  }
  const count = (holds: (row: MatrixRow) => boolean) => rows.filter(holds).length;
  return {
    requirements: rows.length,
    verdicts,
    evidence,
    metByRss: count(({ verdict, basis }) => verdict === 'met' && basis === 'rss'),
    overSpecified: count(({ overSpecified }) => overSpecified),
    provisional: count(({ provisional }) => provisional),
  };
}

export function documentCoverage(rows: readonly MatrixRow[]): readonly DocumentCoverage[] {
  const byFile = new Map<string, MatrixRow[]>();
  for (const row of rows) {
    const own = byFile.get(row.place.file);
    if (own === undefined) byFile.set(row.place.file, [row]);
    else own.push(row);
  }
  return [...byFile].map(([file, own]) => ({ file, ...coverageOf(own) }));
}

function countsOf<Key extends string>(keys: readonly Key[]): Record<Key, number> {
  return Object.fromEntries(keys.map((key) => [key, 0])) as Record<Key, number>;
}

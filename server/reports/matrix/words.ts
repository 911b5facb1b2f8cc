/** The words for verdicts and evidence, with what each means: the legend of every form of the matrix. */
import type { EvidenceState } from '../../engine/evidence/state';
import type { Verdict } from '../../engine/verdict';
import type { Matrix, MatrixCriterion, MatrixRow, MethodEntry, Revision } from './record';

export const VERDICT_MEANINGS: Readonly<Record<Verdict, string>> = {
  unmet: 'it fails somewhere in the ranges with every tolerance at its typical value',
  'at risk': 'it holds with every tolerance at its typical value, but not for all of them',
  undecided: 'something is missing or can be read in two ways',
  open: 'there is nothing to compute, and no evidence yet',
  waived: 'it is not met, and an exception was granted',
  met: 'it holds for every value of the ranges and tolerances, or is proved by evidence',
  'not applicable': 'the condition under which it applies is false',
};

export const EVIDENCE_MEANINGS: Readonly<Record<EvidenceState, string>> = {
  failed: 'the latest conclusive run failed',
  untested: 'no method and no record is named',
  planned: 'a method or a record is named, with no conclusive run',
  stale: 'the design has moved toward the limit since it was tested',
  partial: 'it passed, but not over all the conditions',
  calculated: 'verified by analysis of the figures here',
  verified: 'every named method has evidence that still holds',
};

/** `met (rss)`, `met (by evidence)`, `waived (else unmet)` */
export function verdictWords({ verdict, basis, withoutWaiver }: MatrixRow): string {
  if (withoutWaiver !== null) return `${verdict} (else ${withoutWaiver})`;
  if (basis === 'rss' && verdict !== 'not applicable') return `${verdict} (rss)`;
  return basis === 'evidence' && verdict !== 'open' && verdict !== 'not applicable'
    ? `${verdict} (by evidence)`
    : verdict;
}

/** `test TP-03: verified, passed 2026-10-02` */
export function methodWords(entry: MethodEntry): string {
  const name = [entry.method, entry.record?.id ?? ''].filter((part) => part !== '').join(' ');
  return `${name}: ${[entry.state, ...outcomeWords(entry)].join(', ')}`;
}

/** What is to say of a method besides its state: `passed 2026-10-02`, `moved, still covered`. */
export function outcomeWords({ record, state, run, moved }: MethodEntry): readonly string[] {
  return [
    run === null ? '' : `${RESULT_WORDS[run.result] ?? run.result} ${run.date}`,
    moved && state === 'verified' ? 'moved, still covered' : '',
    record !== null && record.place === null ? 'no such record' : '',
  ].filter((words) => words !== '');
}

const RESULT_WORDS: Readonly<Record<string, string>> = { pass: 'passed', fail: 'failed' };

/** `47.63 W to 61.57 W`, `36 V or more`, `IP66`; empty where there is nothing to show. */
export function valueWords({ low, high, word }: MatrixCriterion): string {
  const shown = (end: typeof low) => (end === null ? '' : end.unit === '' ? end.digits : `${end.digits} ${end.unit}`);
  if (low === null || high === null) {
    if (low !== null) return `${shown(low)} or more`;
    return high === null ? (word ?? '') : `${shown(high)} or less`;
  }
  return shown(low) === shown(high) ? shown(low) : `${shown(low)} to ${shown(high)}`;
}

export function figureWords(figure: MatrixCriterion['margin']): string {
  if (figure === null) return '';
  return figure.unit === '' ? figure.digits : `${figure.digits} ${figure.unit}`;
}

/** `in mode record`, `worst cam` */
export function worstWords({ mode, row }: MatrixCriterion): string {
  return [row === null ? '' : `worst ${row}`, mode === null ? '' : `in mode ${mode}`].filter(Boolean).join(', ');
}

/** Digits of a commit that people compare. */
const COMMIT_DIGITS = 12;

/** `8ca7d1439c56 with changes that are not committed` */
export function revisionWords(revision: Revision | null): string {
  if (revision === null) return 'not under version control';
  const { commit, isModified } = revision;
  if (commit === null) return 'nothing is committed yet';
  return `${commit.slice(0, COMMIT_DIGITS)}${isModified ? ' with changes that are not committed' : ''}`;
}

/** `30 requirements: 1 unmet, 2 at risk, 24 met` */
export function summaryWords({ coverage }: Matrix): string {
  const { requirements, verdicts } = coverage;
  const counts = Object.entries(verdicts).filter(([, count]) => count > 0);
  const total = `${requirements} requirement${requirements === 1 ? '' : 's'}`;
  return counts.length === 0
    ? total
    : `${total}: ${counts.map(([verdict, count]) => `${count} ${verdict}`).join(', ')}`;
}

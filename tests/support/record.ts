/** Records a run in texts, as the command does in files. */
import { filledRun, type RunRequest } from '../../server/features/record-run';
import { applied, runEdit } from '../../server/features/run-yaml';
import { analyseFiles } from './analyse';

const PLAIN: RunRequest = { id: 'TP-1', result: 'pass', date: '2026-11-01', article: null, measured: [], at: [] };

/** The text of `product.md` with the run in it. Fails where the run cannot be recorded. */
export function recordedIn(text: string, request: Partial<RunRequest> = {}): string {
  const { analysis } = analyseFiles({ 'product.md': text });
  const asked = { ...PLAIN, ...request };
  const filled = filledRun(analysis, asked);
  if ('mistake' in filled) throw new Error(filled.mistake);
  const edit = runEdit(text, asked.id, filled.entries);
  if (edit === null) throw new Error('nothing can be added');
  return applied(text, edit);
}

/** Requirement ids and the evidence of each. */
export function evidenceIn(text: string): Readonly<Record<string, string>> {
  const { analysis } = analyseFiles({ 'product.md': text });
  return Object.fromEntries(analysis.requirements.map(({ requirement, evidence }) => [requirement.id, evidence.state]));
}

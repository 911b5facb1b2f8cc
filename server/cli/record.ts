/** `plimsoll record`: appends a run to the file that holds its record. */

import type { FindingCode } from '../../grammar/findings';
import { filledRun, type RunRequest } from '../features/record-run';
import { applied, runEdit } from '../features/run-yaml';

import type { Finding } from '../findings/finding';
import type { ProductAnalysis } from '../findings/product-analysis';
import { type Host, pathIn } from '../host';
import { decodeText } from '../host-text';
import { isYetToCome, type RunResult } from '../model/verification';
import type { NamedText } from '../model/written-value';
import { createLineIndex } from '../syntax/line-index';
import type { ExitStatus } from './exit-status';
import { refuse } from './output';
import { judge, type NotedProduct, openProduct, readAgain } from './product';

export interface RecordOptions {
  readonly dir: string;
  readonly result: RunResult;
  readonly measured: readonly NamedText[];
  readonly at: readonly NamedText[];
  readonly article?: string;
  readonly date?: string;
}

/** Another record of the same moment changes the file first; then its text is read again, so often at the most. */
const MOST_TRIES = 20;

/** @param day the day of the run where none is given */
export async function runRecord(host: Host, id: string, options: RecordOptions, day: string): Promise<ExitStatus> {
  const { dir, result, measured, at } = options;
  const request = { id, result, measured, at, date: options.date ?? day, article: options.article ?? null };
  const product = await openProduct(host, dir);
  if (product === null) return refuse(`${dir}: there is no such folder`);
  for (let tries = 1; ; tries++) {
    await readAgain(host, product, null);
    const outcome = await recordOnce(host, product, request);
    if (outcome.type === 'recorded') return said(outcome, isYetToCome(request, day) ? [yetToCome(request, day)] : []);
    if (outcome.type === 'failed' || tries === MOST_TRIES) return refuse(outcome.reason);
  }
}

type Outcome =
  | { readonly type: 'recorded'; readonly file: string; readonly id: string; readonly notes: readonly string[] }
  | { readonly type: 'failed'; readonly reason: string }
  /** The file is no longer the one that was read. */
  | { readonly type: 'overtaken'; readonly reason: string };

async function recordOnce(host: Host, product: NotedProduct, request: RunRequest): Promise<Outcome> {
  const { result, incomplete } = judge(product, request.date, 'verdicts');
  if (result.badConfiguration) return failed('plimsoll.yaml has mistakes; nothing was recorded');
  if (incomplete) return failed('a part of the product cannot be read; nothing was recorded');
  const filled = filledRun(result.analysis, request);
  if ('mistake' in filled) return failed(`${filled.mistake}${whyUnread(result, request.id)}`);
  const { file } = filled.record;
  const broken = result.findings.find(({ code, place }) => code === 'bad-front-matter' && place.file === file);
  if (broken !== undefined) return failed(`${placeOf(result, broken)}: ${broken.message}; nothing was recorded`);
  const path = pathIn(product.place.root, file);
  const read = await host.readFile(path);
  if (read.type !== 'bytes') return failed(`${file}: cannot be read`);
  const { text } = decodeText(read.bytes);
  if (text !== result.texts.get(file))
    return { type: 'overtaken', reason: `${file}: it is being changed all the time` };
  const edit = runEdit(text, request.id, filled.entries);
  if (edit === null)
    return failed(`${file}: the runs of ${request.id} are written in a way that nothing can be added to`);
  const written = await host.writeFile(path, applied(text, edit), { type: 'unchanged', bytes: read.bytes });
  if (written.type === 'written') return { type: 'recorded', file, id: request.id, notes: filled.notes };
  return {
    type: written.type === 'refused' ? 'overtaken' : 'failed',
    reason: `${file}: not written: ${written.reason}`,
  };
}

/** A record that stands in a document and could not be read is not simply missing. */
function whyUnread({ analysis, findings, texts }: ProductAnalysis, id: string): string {
  if (analysis.product.verifications.has(id)) return '';
  const found = findings.find(({ code, place }) => {
    const text = texts.get(place.file) ?? '';
    return WHOLE_DOCUMENT.includes(code) || (code === 'bad-value' && text.includes(id));
  });
  return found === undefined ? '' : `; ${placeOf({ texts }, found)} cannot be read: ${found.message}`;
}

/** `product.md:4` */
function placeOf({ texts }: Pick<ProductAnalysis, 'texts'>, { place: { file, span } }: Finding): string {
  return `${file}:${createLineIndex(texts.get(file) ?? '').positionAt(span.start).line + 1}`;
}

/** Findings that leave all records of a document unread. */
const WHOLE_DOCUMENT: readonly FindingCode[] = ['bad-front-matter', 'bad-encoding', 'too-large'];

function failed(reason: string): Outcome {
  return { type: 'failed', reason };
}

function yetToCome({ date }: RunRequest, day: string): string {
  return `today is ${day}, so a run of ${date} counts as one that is yet to take place`;
}

function said({ file, id, notes }: Outcome & { type: 'recorded' }, more: readonly string[]): ExitStatus {
  for (const note of [...notes, ...more]) process.stderr.write(`plimsoll: ${note}\n`);
  process.stdout.write(`Recorded a run of ${id} in ${file}.\n`);
  return 0;
}

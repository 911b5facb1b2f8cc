/** Documents with a mark `|` where the cursor stands, and edits made in memory. */
import type { ProductAnalysis } from '../../server/findings/product-analysis';
import type { Edit } from '../../server/syntax/span';
import { analyseFiles } from './analyse';

export interface Marked {
  readonly whole: ProductAnalysis;
  readonly file: string;
  readonly text: string;
  readonly offset: number;
  /** All files, without the mark. */
  readonly files: Readonly<Record<string, string>>;
}

/** The one file with a mark is where the cursor stands. `ranges`: as an editor has it at rest. */
export function marked(files: Readonly<Record<string, string>>, asked: 'verdicts' | 'ranges' = 'verdicts'): Marked {
  const [file, written] = Object.entries(files).find(([, text]) => text.includes('|')) ?? ['', ''];
  const offset = written.indexOf('|');
  if (offset < 0) throw new Error('no file has a mark');
  const text = written.slice(0, offset) + written.slice(offset + 1);
  const unmarked = { ...files, [file]: text };
  return { whole: analyseFiles(unmarked, asked), file, text, offset, files: unmarked };
}

/** The files as they are once the edits are made. */
export function edited(
  files: Readonly<Record<string, string>>,
  edits: ReadonlyMap<string, readonly Edit[]>,
): Readonly<Record<string, string>> {
  const changed = [...edits].map(([file, list]) => [file, withEdits(files[file] ?? '', list)]);
  return { ...files, ...Object.fromEntries(changed) };
}

function withEdits(text: string, edits: readonly Edit[]): string {
  return edits
    .toSorted((a, b) => b.span.start - a.span.start)
    .reduce((so, { span, text: inserted }) => so.slice(0, span.start) + inserted + so.slice(span.end), text);
}

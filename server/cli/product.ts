/** Finds, reads and judges the product of a folder for a command, and reads again what has changed of it. */
import { resolve } from 'node:path';
import type { ProductAnalysis } from '../findings/product-analysis';
import type { Host } from '../host';
import { findProduct } from '../host-files';
import { createOpenProduct, type OpenProduct, readAgain as readFilesAgain } from '../workspace-files';
import { type FileNotes, fileNotes } from './files';
import { withProgress } from './output';
import { parseAhead } from './parse-ahead';

export interface CheckedProduct {
  readonly result: ProductAnalysis;
  readonly name: string;
  /** The product's folder. */
  readonly root: string;
  /** Something could not be read; lines on standard error said what. */
  readonly incomplete: boolean;
}

/** Verdicts only, or also how far figures may move. */
export type Asked = 'verdicts' | 'ranges';

/** A product that a command has opened, and what was said of its files. */
export interface NotedProduct extends OpenProduct {
  notes: FileNotes;
}

/** Reads and judges the product that holds the folder; null, and a line on standard error, where there is no such folder. */
export async function checkProduct(
  host: Host,
  dir: string,
  today: string,
  asked: Asked = 'ranges',
): Promise<CheckedProduct | null> {
  const product = await openProduct(host, dir);
  if (product === null) {
    process.stderr.write(`plimsoll: ${dir}: there is no such folder\n`);
    return null;
  }
  return withProgress(process.stderr, `reading ${product.place.root}`, async (report) => {
    await readAgain(host, product, null);
    report('judging');
    return judge(product, today, asked);
  });
}

/** The product that holds the folder, nothing of it read yet; null where there is no such folder. */
export async function openProduct(host: Host, dir: string): Promise<NotedProduct | null> {
  const place = await findProduct(host, resolve(dir).replaceAll('\\', '/'));
  return place === null ? null : { ...createOpenProduct(place), notes: { lines: [], isIncomplete: false } };
}

/**
 * Reads files that are new or among those changed (null: any may have), and drops those that are gone. What could not be
 * read is said on standard error once.
 * @returns whether anything is other than it was
 */
export async function readAgain(
  host: Host,
  product: NotedProduct,
  changed: ReadonlySet<string> | null,
): Promise<boolean> {
  const { notes } = product;
  const { isOther, texts, complaint } = await readFilesAgain(host, product, changed, parseAhead);
  const { lines, isIncomplete } = fileNotes(product.place, texts);
  const complaints = complaint === null ? [] : [complaint];
  product.notes = { lines: [...complaints, ...lines], isIncomplete: isIncomplete || complaints.length > 0 };
  for (const line of product.notes.lines) if (!notes.lines.includes(line)) process.stderr.write(`plimsoll: ${line}\n`);
  return isOther || notes.lines.join('\n') !== product.notes.lines.join('\n');
}

/** Judges what was read. `today`: ISO 8601. */
export function judge(
  { place, workspace, notes }: NotedProduct,
  today: string,
  asked: Asked = 'ranges',
): CheckedProduct {
  const result = workspace.analysis({ today, ranges: asked === 'ranges' });
  const name = workspace.configuration.product ?? result.analysis.product.title ?? folderName(place.root);
  return { result, name, root: place.root, incomplete: notes.isIncomplete };
}

function folderName(root: string): string {
  return root.slice(root.lastIndexOf('/') + 1) || root;
}

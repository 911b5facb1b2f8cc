/** Finds and reads the product of a folder for a command. */
import { resolve } from 'node:path';
import type { ProductAnalysis } from '../findings/product-analysis';
import { type Host, pathIn } from '../host';
import { findProduct, readDocument, readProduct } from '../host-files';
import { decodeText } from '../host-text';
import { CONFIGURATION_FILE } from '../model/configuration';
import { createProductWorkspace, type ProductWorkspace } from '../workspace';
import { fileNotes } from './files';
import { withProgress } from './output';

export interface CheckedProduct {
  readonly result: ProductAnalysis;
  readonly name: string;
  /** Something could not be read; lines on standard error said what. */
  readonly incomplete: boolean;
}

/** Reads and judges the product that holds the folder; null, and a line on standard error, where there is no such folder. */
export async function checkProduct(host: Host, dir: string): Promise<CheckedProduct | null> {
  const folder = resolve(dir).replaceAll('\\', '/');
  const place = await findProduct(host, folder);
  if (place === null) {
    process.stderr.write(`plimsoll: ${dir}: there is no such folder\n`);
    return null;
  }
  return withProgress(process.stderr, `reading ${place.root}`, async (report) => {
    const workspace = createProductWorkspace();
    const unreadable = place.hasConfiguration ? await readConfigurationInto(host, place.root, workspace) : null;
    const texts = await readProduct(host, place.root, workspace.configuration);
    for (const { path, text, problem } of texts.documents) {
      if (problem === null) workspace.setDocument(path, text);
      else workspace.setProblem(path, problem);
    }
    await readDataInto(host, place.root, workspace);
    const notes = fileNotes(place, texts);
    for (const line of [...(unreadable === null ? [] : [unreadable]), ...notes.lines])
      process.stderr.write(`plimsoll: ${line}\n`);
    report('judging');
    const result = workspace.analysis();
    const name = workspace.configuration.product ?? result.analysis.product.title ?? folderName(place.root);
    return { result, name, incomplete: notes.isIncomplete || unreadable !== null };
  });
}

/** The CSV files that tables read. */
async function readDataInto(host: Host, root: string, workspace: ProductWorkspace): Promise<void> {
  for (const path of workspace.missingData()) {
    const read = await readDocument(host, root, path);
    workspace.setData(path, 'reason' in read || read.problem !== null ? null : read.text);
  }
}

async function readConfigurationInto(host: Host, root: string, workspace: ProductWorkspace): Promise<string | null> {
  const read = await host.readFile(pathIn(root, CONFIGURATION_FILE));
  if (read.type !== 'bytes')
    return `${CONFIGURATION_FILE}: cannot be read: ${read.type === 'unreadable' ? read.reason : read.type}`;
  const { text, problem } = decodeText(read.bytes);
  if (problem !== null) return `${CONFIGURATION_FILE}: ${problem.message}`;
  workspace.setConfiguration(text);
  return null;
}

function folderName(root: string): string {
  return root.slice(root.lastIndexOf('/') + 1) || root;
}

/** Gives the workbench extensions that the browser loads, from the workbench's own origin. */
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { unzipSync } from 'fflate';
import type { Page } from 'playwright-core';
import { workbenchProgram } from '../../../.ci/workbench.mjs';
import type { WorkbenchServer } from './workbench-server';

const PACKED = join(import.meta.dirname, '..', '..', '..', 'plimsoll.vsix');
/** Where files stand in the package. */
const INSIDE = 'extension/';

export interface WebExtensions {
  /** Makes the page load them with its own. */
  offer(page: Page, server: WorkbenchServer): Promise<void>;
  remove(): void;
}

/**
 * The page may connect to its own origin alone, which serves the folder that the workbench is installed in.
 * @param writers each writes an extension into a folder
 */
export function serveExtensions(...writers: readonly ((folder: string) => void)[]): WebExtensions {
  const program = workbenchProgram();
  if (program === null) throw new Error('no workbench is installed');
  const folder = mkdtempSync(join(dirname(program), '..', '..', 'plimsoll-web-'));
  for (const [index, write] of writers.entries()) write(join(folder, String(index)));
  const paths = writers.map((_, index) => `/_static/${basename(folder)}/${index}`);
  return {
    offer: async (page, { port }) => void (await page.addInitScript(addToSettings, { port, paths })),
    remove: () => rmSync(folder, { recursive: true, force: true }),
  };
}

/** The packed extension, as it is. */
export function unpackExtension(folder: string): void {
  for (const [name, bytes] of Object.entries(unzipSync(readFileSync(PACKED)))) {
    if (!name.startsWith(INSIDE) || name.endsWith('/')) continue;
    const path = join(folder, name.slice(INSIDE.length));
    mkdirSync(dirname(path), { recursive: true });
    writeFileSync(path, bytes);
  }
}

/** Runs in the page, before it reads its settings from an attribute. */
function addToSettings({ port, paths }: { readonly port: number; readonly paths: readonly string[] }): void {
  const read = Element.prototype.getAttribute;
  Element.prototype.getAttribute = function (attribute) {
    const value = read.call(this, attribute);
    if (attribute !== 'data-settings' || this.id !== 'vscode-workbench-web-configuration' || value === null)
      return value;
    const places = paths.map((path) => ({ scheme: 'http', authority: `127.0.0.1:${port}`, path }));
    return JSON.stringify({ ...JSON.parse(value), additionalBuiltinExtensions: places });
  };
}

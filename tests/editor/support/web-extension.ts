/** Gives the workbench the packed extension as one that the browser loads, from the workbench's own origin. */
import { mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { unzipSync } from 'fflate';
import type { Page } from 'playwright-core';
import { workbenchProgram } from '../../../.ci/workbench.mjs';
import type { WorkbenchServer } from './workbench-server';

const PACKED = join(import.meta.dirname, '..', '..', '..', 'plimsoll.vsix');
/** Where files stand in the package. */
const INSIDE = 'extension/';
const NAME = `plimsoll-web-${process.pid}`;

export interface WebExtension {
  /** Makes the page load it with its own extensions. */
  offer(page: Page, server: WorkbenchServer): Promise<void>;
  remove(): void;
}

/** The page may connect to its own origin alone, which serves the folder that the workbench is installed in. */
export function unpackWebExtension(): WebExtension {
  const program = workbenchProgram();
  if (program === null) throw new Error('no workbench is installed');
  const folder = join(dirname(program), '..', '..', NAME);
  for (const [name, bytes] of Object.entries(unzipSync(readFileSync(PACKED)))) {
    if (!name.startsWith(INSIDE) || name.endsWith('/')) continue;
    const path = join(folder, name.slice(INSIDE.length));
    mkdirSync(dirname(path), { recursive: true });
    writeFileSync(path, bytes);
  }
  return {
    offer: async (page, { port }) => void (await page.addInitScript(addToSettings, { port, name: NAME })),
    remove: () => rmSync(folder, { recursive: true, force: true }),
  };
}

/** Runs in the page, before it reads its settings from an attribute. */
function addToSettings({ port, name }: { readonly port: number; readonly name: string }): void {
  const read = Element.prototype.getAttribute;
  Element.prototype.getAttribute = function (attribute) {
    const value = read.call(this, attribute);
    if (attribute !== 'data-settings' || this.id !== 'vscode-workbench-web-configuration' || value === null)
      return value;
    const place = { scheme: 'http', authority: `127.0.0.1:${port}`, path: `/_static/${name}` };
    return JSON.stringify({ ...JSON.parse(value), additionalBuiltinExtensions: [place] });
  };
}

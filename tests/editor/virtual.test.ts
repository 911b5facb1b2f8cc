/** Tern in a folder that is on no disk and that only the editor can read, in the browser and on Node. */
import { join } from 'node:path';
import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest';
import { writeShelf } from './support/shelf';
import { serveExtensions, unpackExtension } from './support/web-extension';
import { Workbench } from './support/workbench';

const SAMPLE = join(import.meta.dirname, '..', '..', 'sample-workspace');
const shelf = (folder: string) => writeShelf(folder, SAMPLE);

describe.each([
  ['with the server in the page', [shelf, unpackExtension], false],
  ['with the server on Node', [shelf], true],
] as const)('a virtual folder %s', (_, extensions, installs) => {
  const served = serveExtensions(...extensions);
  let workbench: Workbench;
  beforeAll(async () => {
    workbench = await Workbench.open({ files: {}, virtual: 'shelf:/', installs, prepare: served.offer });
  });
  afterEach(({ task }) => workbench?.keepFailure(task));
  afterAll(async () => {
    await workbench?.close();
    served.remove();
  });

  test('all of its files are read and judged', async () => {
    await workbench.explorerRow('requirements').click();
    await workbench.explorerRow('power.md').dblclick();
    await expect.poll(() => workbench.statusItem().textContent()).toMatch(/1 unmet · 1 at risk · .* met$/);
    await workbench.command('Plimsoll: Show Requirements');
    await workbench.treeRow(/TRN-055 Cost.*unmet/).waitFor();
  });

  test('an edit is judged before anything is saved', async () => {
    await workbench.treeRow(/TRN-055 Cost.*unmet/).click();
    await workbench.replace('760 EUR', '860 EUR');
    await workbench.treeRow(/TRN-055 Cost(?!.*unmet).*met/).waitFor();
    await workbench.picture(`virtual ${installs ? 'node' : 'page'}`);
    expect(workbench.consoleErrors).toEqual([]);
  });
});

/** Tern with the extension in the browser and its server in a worker: nothing of it runs on the machine that has the files. */
import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest';
import { unsavedFigureMarksAnother } from './support/scenes';
import { serveExtensions, unpackExtension } from './support/web-extension';
import { Workbench } from './support/workbench';

describe('Tern in the browser alone', () => {
  const extensions = serveExtensions(unpackExtension);
  let workbench: Workbench;
  beforeAll(async () => {
    workbench = await Workbench.open({ files: 'sample', installs: false, prepare: extensions.offer });
  });
  afterEach(({ task }) => workbench?.keepFailure(task));
  afterAll(async () => {
    await workbench?.close();
    extensions.remove();
  });

  test('it is judged, though nothing is installed on the machine', async () => {
    await workbench.openFile('requirements/power.md');
    await expect.poll(() => workbench.statusItem().textContent()).toMatch(/1 unmet · 1 at risk · .* met$/);
  });

  test('Problems and the tree fill', async () => {
    await workbench.showProblems();
    await workbench.problem(/TRN-055: cost\.parts is .* above the limit of at most 760 EUR/).waitFor();
    await workbench.filterProblems('TRN-031');
    await workbench.command('Plimsoll: Show Requirements');
    await workbench.treeRow(/TRN-055 Cost.*unmet/).waitFor();
    await workbench.treeRow(/TRN-031 Draw.*at risk/).waitFor();
  });

  test('the server is started again, in a worker of its own', async () => {
    await workbench.command('Plimsoll: Restart the Language Server');
    await workbench.treeRow(/TRN-031 Draw.*at risk/).waitFor();
  });

  test('a change in one file marks another before anything is saved', () =>
    unsavedFigureMarksAnother(workbench, 'web'));

  test('nothing went wrong in the page, and nobody was called', () => {
    expect(workbench.consoleErrors).toEqual([]);
    expect([...workbench.requestedHosts]).toEqual(['127.0.0.1']);
  });
});

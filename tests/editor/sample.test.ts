/** Tern in a real workbench: what is marked, said, listed and mended, and what an edit does before it is saved. */
import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest';
import { unsavedFigureMarksAnother } from './support/scenes';
import { Workbench } from './support/workbench';

describe('Tern in the workbench', () => {
  let workbench: Workbench;
  beforeAll(async () => {
    workbench = await Workbench.open({ files: 'sample' });
  });
  afterEach(({ task }) => workbench?.keepFailure(task));
  afterAll(() => workbench?.close());

  test('the status bar sums the product up', async () => {
    await workbench.openFile('requirements/power.md');
    await workbench.statusItem().waitFor();
    await expect.poll(() => workbench.statusItem().textContent()).toMatch(/1 unmet · 1 at risk · .* met$/);
  });

  test('Problems lists what is wrong, each with its place', async () => {
    await workbench.showProblems();
    await workbench.problem(/TRN-055: cost\.parts is .* above the limit of at most 760 EUR/).waitFor();
    await workbench.filterProblems('TRN-031');
    await workbench.problem(/TRN-031: supply\.draw in mode record holds at its typical value/).waitFor();
  });

  test('the sentence has a squiggle, and hovering says what was read', async () => {
    await workbench.goTo(16, 20);
    await workbench.squiggles('warning').first().waitFor();
    const hover = await workbench.hover(workbench.line('no more than 60 W').getByText('60', { exact: false }).first());
    const said = await hover.textContent();
    expect(said).toContain('TRN-031');
    await workbench.picture('hover');
  });

  test('behind the sentence stands the criterion as read, over it the verdict', async () => {
    await workbench.page.keyboard.press('Escape');
    await workbench.line('supply.draw <= 60 W').waitFor();
    await workbench.page.locator('.codelens-decoration', { hasText: 'at risk' }).first().waitFor();
    await workbench.picture('hints');
  });

  test('the tree has each requirement with its verdict', async () => {
    await workbench.command('Plimsoll: Show Requirements');
    await workbench.treeRow(/TRN-055 Cost.*unmet/).waitFor();
    await workbench.picture('tree');
  });

  test('a change in one file marks another before anything is saved', () =>
    unsavedFigureMarksAnother(workbench, 'unsaved-change'));

  test('the figure says how far it may go, once that is worked out', async () => {
    await workbench.line('depth: {value: 80 %').getByText('may go').waitFor();
    await workbench.picture('ranges');
  });

  test('the filter leaves what was asked for', async () => {
    await workbench.command('Plimsoll: Filter Requirements');
    await workbench.quickInput().fill('undecided');
    await workbench.page.keyboard.press('ArrowDown');
    await workbench.page.keyboard.press('Space');
    await workbench.page.keyboard.press('Enter');
    await workbench.treeRow('TRN-031 Draw').waitFor({ state: 'hidden' });
    await workbench.treeRow(/TRN-045 Mounting torque.*undecided/).waitFor();
    await workbench.picture('filtered');
    await workbench.command('Plimsoll: Show All Requirements');
    await workbench.treeRow('TRN-031 Draw').waitFor();
  });

  // For its picture alone: which half of a split window has the focus is the editor's affair, and others test the rest.
  if (process.env.UPDATE)
    test('a figure and the promise that it breaks, side by side', async () => {
      await workbench.openFile('design/power.md');
      await workbench.command('View: Split Editor Right');
      await workbench.openFile('requirements/power.md');
      await workbench.goTo(25);
      await workbench.command('View: Close Primary Side Bar');
      if (await workbench.page.locator('.part.panel').isVisible()) await workbench.page.keyboard.press('Control+J');
      await workbench.replace('0.91', '0.81');
      await workbench.squiggles('error').first().waitFor();
      await workbench.page
        .locator('.codelens-decoration', { hasText: /^unmet · margin/ })
        .first()
        .waitFor();
      await workbench.page.mouse.move(640, 790);
      await workbench.picture('side-by-side');
      await workbench.page.keyboard.press('Control+Z');
      await expect.poll(() => workbench.statusItem().textContent()).toContain('1 unmet');
    });

  test('nothing went wrong in the page, and nobody was called', () => {
    expect(workbench.consoleErrors).toEqual([]);
    expect([...workbench.requestedHosts]).toEqual(['127.0.0.1']);
  });
});

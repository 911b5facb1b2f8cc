/** From an empty folder to the red line and on, with the keyboard alone: starting, completing, mending, renaming. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest';
import { Workbench } from './support/workbench';

describe('writing with the keyboard alone', () => {
  let workbench: Workbench;
  beforeAll(async () => {
    workbench = await Workbench.open({ files: {} });
  });
  afterEach(({ task }) => workbench?.keepFailure(task));
  afterAll(() => workbench?.close());
  const press = (keys: string) => workbench.page.keyboard.press(keys);
  const type = (text: string) => workbench.page.keyboard.type(text);
  const save = async (holding: string) => {
    await press('Control+S');
    await expect.poll(() => readFileSync(join(workbench.folder, 'requirements.md'), 'utf8')).toContain(holding);
  };

  test('a command writes the five-minute file and selects the figure', async () => {
    await workbench.command('Plimsoll: Start a Product');
    await workbench.line('The product shall draw no more than 60 W').waitFor();
    await expect.poll(() => workbench.statusItem().textContent()).toContain('all 1 met');
    await workbench.line('supply.draw <= 60 W').waitFor();
    await workbench.picture('starter');
  });

  test('typing over the figure turns the sentence red', async () => {
    await type('65 W');
    await workbench.squiggles('error').first().waitFor();
    await workbench.showProblems();
    await workbench.problem(/P-1: supply.draw is 65 W, 5 W above the limit of at most 60 W/).waitFor();
    await expect.poll(() => workbench.statusItem().textContent()).toContain('1 unmet');
    expect(readFileSync(join(workbench.folder, 'requirements.md'), 'utf8')).toContain('45 W');
    await workbench.page.locator('.codelens-decoration', { hasText: 'unmet · margin' }).waitFor();
    await workbench.page.mouse.move(640, 790);
    await workbench.picture('red-line');
  });

  test('a tolerance that may break the promise puts it at risk', async () => {
    await workbench.replace('65 W', '58 W ± 5 %');
    await expect.poll(() => workbench.statusItem().textContent()).toContain('1 at risk');
    await workbench.picture('at-risk');
  });

  test('a name is completed', async () => {
    await workbench.focusEditor();
    await press('Control+End');
    await type('\n## P-2 Peak\nThe product shall draw at least 2 W (`');
    await type('sup');
    const suggestion = workbench.page.locator('.suggest-widget.visible .monaco-list-row', { hasText: 'supply.draw' });
    if (!(await suggestion.first().isVisible())) await press('Control+Space');
    await suggestion.first().waitFor();
    await workbench.picture('completion');
    await press('Enter');
    await workbench.line('at least 2 W (`supply.draw').waitFor();
    await type('`).');
    await workbench.picture('completed');
  });

  test('a misspelt name is mended by a quick fix', async () => {
    await workbench.focusEditor();
    await press('Control+End');
    await type('\n\n## P-3 Floor\nThe product shall draw at least 1 W (`supply.drow`).');
    await workbench.problem(/supply\.drow/).waitFor();
    await workbench.find('supply.drow');
    await press('Control+.');
    const menu = workbench.page.locator('.action-widget .monaco-list-row');
    await menu.first().waitFor();
    await workbench.picture('quick-fix');
    await press('Enter');
    await workbench.line('at least 1 W (`supply.draw').waitFor();
  });

  test('a rename reaches prose and front matter', async () => {
    await workbench.find('supply.draw');
    await press('F2');
    const box = workbench.page.locator('.rename-box input, .rename-box textarea').first();
    await box.waitFor();
    await box.fill('load');
    await press('Enter');
    await workbench.line('supply: {load:').waitFor();
    await workbench.line('no more than 60 W (`supply.load').waitFor();
    await workbench.picture('renamed');
    await save('(`supply.load`)');
  });

  test('nothing went wrong in the page, and nobody was called', () => {
    expect(workbench.consoleErrors).toEqual([]);
    expect([...workbench.requestedHosts]).toEqual(['127.0.0.1']);
  });
});

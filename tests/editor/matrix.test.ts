/** The matrix as a panel: the page of the command line, live beside the text, whose places open in the editor. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest';
import { TWO_PROMISES } from './support/scenes';
import { Workbench } from './support/workbench';
import { pause } from './support/workbench-server';

const PRODUCT = `${TWO_PROMISES}
## P-3 <img src=x onerror=alert(1)>
The lid shall be blue.

- Verify: inspection
`;

describe('the matrix beside the text', () => {
  let workbench: Workbench;
  beforeAll(async () => {
    workbench = await Workbench.open({ files: { 'product.md': PRODUCT }, size: { width: 1680, height: 900 } });
  });
  afterEach(({ task }) => workbench?.keepFailure(task));
  afterAll(() => workbench?.close());
  const part = (selector: string) => workbench.panel().locator(selector);
  const verdict = (id: string) => part(`#r-${id} .verdict`).first();

  test('opens from the status bar with every requirement, once', async () => {
    await workbench.openFile('product.md');
    await expect.poll(() => workbench.statusItem().textContent()).toContain('2 met');
    await workbench.statusItem().click();
    await part('#r-P-1').waitFor();
    await workbench.command('Plimsoll: Show the Matrix');
    expect(await workbench.page.locator('iframe.webview.ready').count()).toBe(1);
    expect(await part('#matrix-table tbody').count()).toBe(3);
    expect(await verdict('P-1').textContent()).toBe('met');
    await workbench.picture('matrix panel');
  });

  test('a place in it opens in the text', async () => {
    await part('#r-P-2 a[data-line]').first().click();
    await expect.poll(() => workbench.page.locator('#status\\.editor\\.selection').textContent()).toMatch(/Ln 13\b/);
  });

  test('whoever types in the text goes on typing there while the row that was clicked becomes another', async () => {
    await workbench.find('draw: 45 W');
    await workbench.page.keyboard.type('draw: 50 W');
    await expect.poll(() => part('#r-P-2').textContent()).toContain('0.2');
    await pause(300);
    await workbench.page.keyboard.type(' ± 1 %');
    await workbench.line('supply: {draw: 50 W ± 1 %}').waitFor();
    await workbench.replace('draw: 50 W ± 1 %', 'draw: 45 W');
    await expect.poll(() => part('#r-P-2').textContent()).toContain('1\u00A0h');
  });

  test('what is typed shows in it before it is saved, and nothing else loses its place', async () => {
    await part('input[name=text]').fill('run for');
    await expect.poll(() => part('#shown').textContent()).toContain('1 of 3');
    await part('#r-P-3').evaluate((row) => row.setAttribute('data-kept', 'yes'));
    await workbench.replace('draw: 45 W', 'draw: 65 W');
    await expect.poll(() => verdict('P-1').textContent()).toBe('unmet');
    await expect.poll(() => part('#shown').textContent()).toContain('1 of 3');
    expect(await part('input[name=text]').inputValue()).toBe('run for');
    expect(await part('#r-P-3').getAttribute('data-kept')).toBe('yes');
    expect(readFileSync(join(workbench.folder, 'product.md'), 'utf8')).toBe(PRODUCT);
    expect(await workbench.barriersInPanel()).toEqual([]);
  });

  test('by keyboard all rows are shown again', async () => {
    await part('button[type=reset]').focus();
    await workbench.page.keyboard.press('Enter');
    await expect.poll(() => part('#shown').textContent()).toContain('All 3');
  });

  test.each([
    ['Default Light Modern', 'vs'],
    ['Default Dark Modern', 'vs-dark'],
    ['Default High Contrast', 'hc-black'],
    ['Default High Contrast Light', 'hc-light'],
  ] as const)('keeps nobody out in %s', async (theme, shownAs) => {
    await workbench.useTheme(theme, shownAs);
    await pause(500);
    await workbench.picture(`matrix-${shownAs}`);
    expect(await workbench.barriersInPanel()).toEqual([]);
  });

  test('nothing in a document runs, and nothing is fetched', () => {
    expect(workbench.consoleErrors).toEqual([]);
  });
});

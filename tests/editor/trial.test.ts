/** The trial panel: other figures by keyboard, what follows at once, and one edit that can be undone. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest';
import { TWO_PROMISES } from './support/scenes';
import { Workbench } from './support/workbench';
import { pause } from './support/workbench-server';

describe('the trial panel', () => {
  let workbench: Workbench;
  beforeAll(async () => {
    workbench = await Workbench.open({ files: { 'product.md': TWO_PROMISES } });
  });
  afterEach(({ task }) => workbench?.keepFailure(task));
  afterAll(() => workbench?.close());
  const part = (selector: string) => workbench.panel().locator(selector);

  test('opens on a requirement with what it rests on', async () => {
    await workbench.openFile('product.md');
    await expect.poll(() => workbench.statusItem().textContent()).toContain('all 2 met');
    await workbench.command('Plimsoll: Try Other Figures');
    await workbench.page.locator('.quick-input-list .monaco-list-row', { hasText: 'P-2 Autonomy' }).first().click();
    await part('.figure').nth(1).waitFor();
    expect(await part('.figure .name').allTextContents()).toEqual(['supply.draw', 'bank.energy']);
    expect(await part('#stand').textContent()).toBe('met, margin 1 h');
  });

  test('a slider moved by keyboard shows what would follow', async () => {
    await part('.slider').first().focus();
    for (let step = 0; step < 20; step += 1) await workbench.page.keyboard.press('ArrowRight');
    await expect.poll(() => part('.field').first().inputValue()).toBe('65 W');
    await expect.poll(() => part('#stand').textContent()).toMatch(/^met, margin 1 h → unmet, .*; P-1 would be unmet$/);
    expect(await part('#rows tr').count()).toBe(2);
    await workbench.picture('trial');
    expect(await workbench.line('supply: {draw:').textContent()).toContain('45');
  });

  test('what came of it is said once it rests, not at every step', async () => {
    await expect.poll(() => part('#said').textContent()).toMatch(/→ unmet/);
    const said: string[] = [];
    await part('.slider').first().focus();
    for (let step = 0; step < 12; step += 1) {
      await workbench.page.keyboard.press(step < 6 ? 'ArrowRight' : 'ArrowLeft');
      said.push((await part('#said').textContent()) ?? '');
    }
    expect(new Set(said).size).toBe(1);
    expect(await part('#said').getAttribute('role')).toBe('status');
    expect(await part('[aria-live], [role=status], [role=alert]').count()).toBe(1);
  });

  test.each([
    ['Default Light Modern', 'vs'],
    ['Default Dark Modern', 'vs-dark'],
    ['Default High Contrast', 'hc-black'],
    ['Default High Contrast Light', 'hc-light'],
  ] as const)('keeps nobody out in %s', async (theme, shownAs) => {
    await workbench.useTheme(theme, shownAs);
    await pause(500);
    await workbench.picture(`trial-${shownAs}`);
    expect(await workbench.barriersInPanel()).toEqual([]);
  });

  test('what would change stands worst first', async () => {
    expect(await part('#rows tr').allTextContents()).toEqual([
      expect.stringMatching(/^P-1.*unmet/),
      expect.stringMatching(/^P-2.*unmet/),
    ]);
  });

  test('every part of it is reached by Tab, in the order in which it stands', async () => {
    await part('.field').first().focus();
    const reached: string[] = [];
    for (let tabs = 0; tabs < 7; tabs += 1) {
      reached.push(
        await part(':focus').evaluate((one) => one.getAttribute('aria-label') ?? (one.id || one.textContent || '')),
      );
      await workbench.page.keyboard.press('Tab');
    }
    expect(reached).toEqual([
      'figure supply.draw',
      'supply.draw, slider',
      'figure bank.energy',
      'bank.energy, slider',
      'apply',
      'reset',
      'P-1',
    ]);
  });

  test('what cannot be read is said beside the field', async () => {
    await part('.field').first().fill('65 V');
    await expect.poll(() => part('.complaint').first().textContent()).toContain('another unit');
    expect(await part('#apply').isDisabled()).toBe(true);
    expect(await workbench.barriersInPanel()).toEqual([]);
  });

  test('applied, the document is changed and the panel follows', async () => {
    await part('.field').first().fill('50 W');
    await expect.poll(() => part('#apply').isEnabled()).toBe(true);
    await part('#apply').focus();
    await workbench.page.keyboard.press('Enter');
    await workbench.line('supply: {draw: 50').waitFor();
    await expect.poll(() => part('#stand').textContent()).toContain('met, margin 0.2 h');
    expect(readFileSync(join(workbench.folder, 'product.md'), 'utf8')).toBe(TWO_PROMISES);
    expect(workbench.consoleErrors).toEqual([]);
  });
});

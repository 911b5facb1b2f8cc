/** The trial panel: other figures by keyboard, what follows at once, and one edit that can be undone. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest';
import { Workbench } from './support/workbench';

const PRODUCT = `---
requirements: My product
facts:
  supply: {draw: 45 W}
  bank: {energy: 360 Wh}
  autonomy: = bank.energy / supply.draw
---
# My product

## P-1 Power
The product shall draw no more than 60 W (\`supply.draw\`).

## P-2 Autonomy
The product shall run for at least 7 h (\`autonomy\`).
`;

describe('the trial panel', () => {
  let workbench: Workbench;
  beforeAll(async () => {
    workbench = await Workbench.open({ files: { 'product.md': PRODUCT } });
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

  test('what cannot be read is said beside the field', async () => {
    await part('.field').first().fill('65 V');
    await expect.poll(() => part('.complaint').first().textContent()).toContain('another unit');
    expect(await part('#apply').isDisabled()).toBe(true);
  });

  test('applied, the document is changed and the panel follows', async () => {
    await part('.field').first().fill('50 W');
    await expect.poll(() => part('#apply').isEnabled()).toBe(true);
    await part('#apply').focus();
    await workbench.page.keyboard.press('Enter');
    await workbench.line('supply: {draw: 50').waitFor();
    await expect.poll(() => part('#stand').textContent()).toContain('met, margin 0.2 h');
    expect(readFileSync(join(workbench.folder, 'product.md'), 'utf8')).toBe(PRODUCT);
    expect(workbench.consoleErrors).toEqual([]);
  });
});

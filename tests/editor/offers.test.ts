/** What is offered where something is wrong: a trial of the figure that is needed, a waiver to fill in, a lens, a rename. */
import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest';
import { Workbench } from './support/workbench';
import { pause } from './support/workbench-server';

const PRODUCT = `---
requirements: My product
facts:
  supply: {draw: 65 W}
---
# My product, of which P-1 is the first promise

## P-1 Power
The product shall draw no more than 60 W (\`supply.draw\`).
`;

describe('offers in the workbench', () => {
  let workbench: Workbench;
  beforeAll(async () => {
    workbench = await Workbench.open({ files: { 'product.md': PRODUCT } });
  });
  afterEach(({ task }) => workbench?.keepFailure(task));
  afterAll(() => workbench?.close());
  const press = (keys: string) => workbench.page.keyboard.press(keys);
  const offer = (title: string) =>
    workbench.page.locator('.action-widget .monaco-list-row', { hasText: title }).first();
  /** By keyboard: behind the list nothing can be pointed at for a moment. */
  const take = async (title: string) => {
    await press('Control+.');
    await offer(title).waitFor();
    for (let row = 0; row < 12 && !(await offer(title).evaluate((one) => one.matches('.focused'))); row += 1) {
      await press('ArrowDown');
      await pause(50);
    }
    await press('Enter');
  };
  const part = (selector: string) => workbench.panel().locator(selector);

  test('the needed figure opens a trial that begins with it', async () => {
    await workbench.openFile('product.md');
    await workbench.squiggles('error').first().waitFor();
    await workbench.line('supply.draw <= 60 W').waitFor();
    // What is needed is known once everything rests.
    await workbench.showProblems();
    await workbench.problem('Would be met by supply.draw').waitFor();
    await workbench.find('no more than');
    await take('Try supply.draw at 60 W, which P-1 needs');
    await expect.poll(() => part('.field').first().inputValue()).toBe('60 W');
    await expect.poll(() => part('#stand').textContent()).toMatch(/^unmet, margin -5 W → met/);
    await workbench.picture('offered-trial');
    await press('Control+W');
  });

  test('a lens opens a trial as written', async () => {
    await workbench.focusEditor();
    await workbench.page.locator('.codelens-decoration a', { hasText: 'try other figures' }).first().click();
    await expect.poll(() => part('#stand').textContent()).toBe('unmet, margin -5 W');
    await expect.poll(() => part('.field').first().inputValue()).toBe('65 W');
    await press('Control+W');
  });

  test('a waiver is begun and waives nothing', async () => {
    await workbench.find('no more than');
    await take('Waive P-1 to 65 W');
    await workbench.line('- Waived: to 65 W; reason; who; until year-month-day').waitFor();
    await workbench.problem('this waiver does not say until when').waitFor();
    await expect.poll(() => workbench.statusItem().textContent()).toContain('1 unmet');
    await workbench.focusEditor();
    await press('Control+Z');
  });

  test('a renamed id asks before it changes prose', async () => {
    await workbench.find('## P-1');
    await press('ArrowRight');
    await press('F2');
    const box = workbench.page.locator('.rename-box input, .rename-box textarea').first();
    await box.waitFor();
    await box.fill('P-9');
    await press('Enter');
    await workbench.page.locator('.refactor-preview, [id="refactorPreview"], .bulk-edit-panel').first().waitFor();
    await workbench.picture('rename-preview');
    await workbench.page
      .locator('.bulk-edit-panel .monaco-button, .refactor-preview .monaco-button', { hasText: 'Apply' })
      .first()
      .click();
    await workbench.line('## P-9 Power').waitFor();
    expect(await workbench.line('# My product, of which').textContent()).toContain('P-1');
    expect(workbench.consoleErrors).toEqual([]);
  });
});

/** The walkthrough as a newcomer takes it: from an empty folder to the red line, by mouse, and again by keyboard alone. */
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest';
import { Workbench } from './support/workbench';
import { pause } from './support/workbench-server';

describe('the walkthrough by mouse', () => {
  let workbench: Workbench;
  beforeAll(async () => {
    workbench = await Workbench.open({ files: {} });
  });
  afterEach(({ task }) => workbench?.keepFailure(task));
  afterAll(() => workbench?.close());
  const step = (title: string) => workbench.page.locator('.getting-started-step', { hasText: title }).first();

  test('opens and lists its steps', async () => {
    await workbench.command('Welcome: Open Walkthrough');
    const row = workbench.page.locator('.quick-input-list .monaco-list-row', { hasText: 'Five minutes with Plimsoll' });
    await row.first().click();
    await step('Write one promise').waitFor();
    await workbench.picture('walkthrough');
  });

  test('its first button writes the file and shows the figure', async () => {
    await workbench.page
      .locator('.getting-started-step .monaco-button, .getting-started-step button', { hasText: 'Start a Product' })
      .first()
      .click();
    await workbench.line('The product shall draw no more than 60 W').waitFor();
    expect(existsSync(join(workbench.folder, 'requirements.md'))).toBe(true);
    expect(await step('Break it').isVisible()).toBe(true);
    await workbench.picture('walkthrough-started');
  });

  test('the figure, double-clicked and typed over, turns the sentence red', async () => {
    await workbench.line('supply: {draw:').getByText('45', { exact: false }).first().dblclick();
    await workbench.page.keyboard.type('65');
    await workbench.squiggles('error').first().waitFor();
    await workbench.page.locator('.codelens-decoration', { hasText: 'unmet · margin' }).waitFor();
    await workbench.picture('walkthrough-red');
  });
});

describe('the walkthrough by keyboard alone', () => {
  let workbench: Workbench;
  beforeAll(async () => {
    workbench = await Workbench.open({ files: {} });
  });
  afterEach(({ task }) => workbench?.keepFailure(task));
  afterAll(() => workbench?.close());
  const press = (keys: string) => workbench.page.keyboard.press(keys);

  test('opens from the palette, and the first button is a few tabs away', async () => {
    await workbench.commandRow('Welcome: Open Walkthrough');
    await press('Enter');
    const row = workbench.page.locator('.quick-input-list .monaco-list-row', { hasText: 'Five minutes with Plimsoll' });
    await row.first().waitFor();
    await workbench.page.keyboard.type('Five minutes with');
    await pause(500);
    await press('Enter');
    await workbench.page.locator('.getting-started-step', { hasText: 'Write one promise' }).first().waitFor();
    await pause(1000);
    const focused = () => workbench.page.evaluate(() => document.activeElement?.textContent ?? '');
    for (let tabs = 0; tabs < 5 && (await focused()) !== 'Start a Product'; tabs += 1) await press('Tab');
    await press('Enter');
    await workbench.line('The product shall draw no more than 60 W').waitFor();
  });

  test('the figure is selected, and typing turns the sentence red', async () => {
    await workbench.page.keyboard.type('65 W');
    await workbench.squiggles('error').first().waitFor();
    await expect.poll(() => workbench.statusItem().textContent()).toContain('1 unmet');
    expect(workbench.consoleErrors).toEqual([]);
  });
});

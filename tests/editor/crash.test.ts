/** A language server that is killed: it comes back with all that it said, a bounded number of times, and then says so. */
import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest';
import { Workbench } from './support/workbench';
import { pause } from './support/workbench-server';

const PRODUCT = `---
requirements: My product
facts:
  supply: {draw: 65 W}
---
## P-1 Power
The product shall draw no more than 60 W (\`supply.draw\`).
`;
/** As the extension allows within three minutes. */
const RESTARTS = 4;

describe('a language server that is killed', () => {
  let workbench: Workbench;
  beforeAll(async () => {
    workbench = await Workbench.open({ files: { 'product.md': PRODUCT } });
  });
  afterEach(({ task }) => workbench?.keepFailure(task));
  afterAll(() => workbench?.close());
  const isOn = () => expect.poll(() => workbench.statusItem().textContent()).toContain('1 unmet');
  const kill = async () => {
    await expect.poll(() => workbench.hasLanguageServer).toBe(true);
    workbench.killLanguageServer();
  };

  test('comes back, and what it found with it', async () => {
    await workbench.openFile('product.md');
    await workbench.showProblems();
    await isOn();
    await kill();
    await workbench.focusEditor();
    await isOn();
    await workbench.problem(/P-1: supply.draw is 65 W/).waitFor();
    await workbench.squiggles('error').first().waitFor();
    expect(await workbench.toast('Plimsoll').isVisible()).toBe(false);
  });

  test('is told of what was typed meanwhile', async () => {
    await kill();
    await workbench.replace('65 W', '62 W');
    await workbench.problem(/P-1: supply.draw is 62 W/).waitFor();
  });

  test('stays off once it was killed too often, and says so with a way on', async () => {
    for (let kills = 2; kills <= RESTARTS; kills += 1) {
      await isOn();
      await kill();
      await pause(500);
    }
    await workbench.toast(/stopped 5 times within three minutes and stays off/).waitFor();
    await expect.poll(() => workbench.statusItem().textContent()).toContain('Plimsoll is off');
    await pause(2000);
    await workbench.picture('server-off');
    expect(await workbench.page.locator('.notification-toast').count()).toBe(1);
    expect(workbench.hasLanguageServer).toBe(false);
    await workbench.problem('P-1').waitFor({ state: 'detached' });
  });

  test('its log can be read from there, and it can be started again', async () => {
    await workbench.toast('stays off').getByText('Start Again').click();
    await isOn();
    await workbench.showProblems();
    await workbench.problem(/P-1: supply.draw is 62 W/).waitFor();
    await workbench.command('Plimsoll: Restart the Language Server');
    await expect.poll(() => workbench.hasLanguageServer, { interval: 5 }).toBe(true);
    workbench.killLanguageServer();
    await isOn();
    await workbench.command('Plimsoll: Show Log');
    await workbench.page
      .locator('.output-view, .output-view-container, [id="workbench.panel.output"]')
      .first()
      .waitFor();
  });
});

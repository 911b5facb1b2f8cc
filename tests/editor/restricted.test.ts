/** A folder that nobody trusts yet, in high contrast: everything is judged, git is not asked, and trust may come later. */
import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest';
import { Workbench } from './support/workbench';

describe('restricted mode in high contrast', () => {
  let workbench: Workbench;
  beforeAll(async () => {
    const settings = {
      'workbench.colorTheme': 'Default High Contrast',
      'security.workspace.trust.startupPrompt': 'never',
      'security.workspace.trust.banner': 'never',
    };
    workbench = await Workbench.open({ files: 'sample', asksForTrust: true, settings });
  });
  afterEach(({ task }) => workbench?.keepFailure(task));
  afterAll(() => workbench?.close());

  test('requirements are judged', async () => {
    await workbench.page.locator('.statusbar-item', { hasText: 'Restricted Mode' }).waitFor();
    await workbench.openFile('requirements/power.md');
    await expect.poll(() => workbench.statusItem().textContent()).toContain('1 unmet');
    await workbench.command('Plimsoll: Show Requirements');
    await workbench.treeRow(/TRN-031 Draw.*at risk/).waitFor();
    await workbench.picture('high-contrast');
    await workbench.page.locator('.monaco-workbench.hc-black').waitFor();
  });

  test('trusted later, they are judged again', async () => {
    await workbench.command('Workspaces: Manage Workspace Trust');
    await workbench.page
      .locator('.workspace-trust-editor .monaco-button', { hasText: /^Trust$/ })
      .first()
      .click();
    await workbench.page.locator('.statusbar-item', { hasText: 'Restricted Mode' }).waitFor({ state: 'detached' });
    await expect.poll(() => workbench.statusItem().textContent()).toContain('1 unmet');
    expect(workbench.consoleErrors).toEqual([]);
  });
});

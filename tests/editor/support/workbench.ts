/** One workbench in one headless browser, with what a person does in it as functions. */
import { copyFileSync, cpSync, existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { type Browser, chromium, type FrameLocator, type Locator, type Page } from 'playwright-core';
import { pause, startWorkbenchServer, type WorkbenchOptions, type WorkbenchServer } from './workbench-server';

const ROOT = join(import.meta.dirname, '..', '..', '..');
/** Pictures of the last run, to be looked at. */
const PICTURES = join(ROOT, 'dist', 'screenshots');
/** Those that README.md shows; made anew where UPDATE=1 asks for it. */
const IN_README = join(ROOT, 'client', 'pictures');
/** Milliseconds; a slow machine has time. */
export const PATIENCE = 40_000;

/** Two files that the workbench asks for and does not ship, and what an extension of its own says on a slow machine. */
const EXPECTED_ERRORS = /vsda|status of 404|workbench\.web\.main\.nls|Timed out getting tasks/;

/** Its own text, which runs in the page. */
const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

interface Barrier {
  readonly id: string;
  readonly nodes: readonly { readonly html: string; readonly any: readonly { readonly message: string }[] }[];
}

/** Nothing but this machine can be reached. */
const BROWSER_ARGUMENTS = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
  '--disable-dev-shm-usage',
  '--host-resolver-rules=MAP * ~NOTFOUND, EXCLUDE 127.0.0.1, EXCLUDE localhost',
];

export interface Opening extends Omit<WorkbenchOptions, 'folder'> {
  /** Files by path, or `sample` for a copy of Tern. */
  readonly files: Readonly<Record<string, string>> | 'sample';
  readonly size?: { readonly width: number; readonly height: number };
  /** Run before the page is loaded. */
  readonly prepare?: (page: Page, server: WorkbenchServer) => Promise<void>;
}

export class Workbench {
  private constructor(
    readonly page: Page,
    readonly folder: string,
    private readonly browser: Browser,
    private readonly server: WorkbenchServer,
    readonly consoleErrors: readonly string[],
    readonly requestedHosts: ReadonlySet<string>,
  ) {}

  static async open({ files, size, prepare, ...options }: Opening): Promise<Workbench> {
    const folder = mkdtempSync(join(tmpdir(), 'plimsoll-folder-'));
    writeFiles(folder, files);
    const server = await startWorkbenchServer({ ...options, folder });
    const browser = await chromium.launch({ executablePath: '/usr/bin/chromium', args: BROWSER_ARGUMENTS });
    const context = await browser.newContext({ viewport: size ?? { width: 1280, height: 800 } });
    const page = await context.newPage();
    page.setDefaultTimeout(PATIENCE);
    const errors: string[] = [];
    const hosts = new Set<string>();
    page.on('console', (message) => {
      if (message.type() === 'error' && !EXPECTED_ERRORS.test(message.text())) errors.push(message.text());
    });
    page.on('request', (request) => {
      const { protocol, hostname } = new URL(request.url());
      if (/^https?:|^wss?:/.test(protocol)) hosts.add(hostname);
    });
    await prepare?.(page, server);
    await page.goto(server.url);
    await page.locator('.monaco-workbench').waitFor({ timeout: 60_000 });
    await page.locator('.explorer-folders-view').first().waitFor({ timeout: 60_000 });
    return new Workbench(page, folder, browser, server, errors, hosts);
  }

  async close(): Promise<void> {
    await this.browser.close();
    await this.server.stop();
    rmSync(this.folder, { recursive: true, force: true });
  }

  /** Ends the language server as a crash does; false: there was none. */
  killLanguageServer(): boolean {
    const id = this.server.languageServer();
    if (id !== null) process.kill(id, 'SIGKILL');
    return id !== null;
  }

  get hasLanguageServer(): boolean {
    return this.server.languageServer() !== null;
  }

  toast(text: string | RegExp): Locator {
    return this.page.locator('.notifications-toasts .notification-toast', { hasText: text }).first();
  }

  /** Opens a file by its name, with the keyboard. */
  async openFile(path: string): Promise<void> {
    await this.page.keyboard.press('Control+P');
    const input = this.quickInput();
    await input.waitFor();
    await input.fill(path);
    const [name = path, folder = ''] = path.split('/').reverse();
    const row = this.page.locator('.quick-input-list .monaco-list-row', { hasText: name }).filter({ hasText: folder });
    await row.first().click();
    const shown = this.page.locator('.editor-group-container.active .monaco-breadcrumbs').first();
    await shown.filter({ hasText: name }).filter({ hasText: folder }).waitFor();
    await this.page.locator('.editor-instance .monaco-editor.focused .view-lines').first().waitFor();
  }

  async command(title: string): Promise<void> {
    await (await this.commandRow(title)).click();
  }

  /** The palette with a command at the top of its list. */
  async commandRow(title: string): Promise<Locator> {
    await this.page.keyboard.press('F1');
    const input = this.quickInput();
    await input.waitFor();
    const row = this.page.locator('.quick-input-list .monaco-list-row', { hasText: title }).first();
    // Commands of an extension come late; the list is made anew for a text that is typed anew.
    for (const start = Date.now(); !(await row.isVisible()) && Date.now() - start < PATIENCE; await pause(500)) {
      await input.fill('>');
      await input.fill(`>${title}`);
      await pause(500);
    }
    return row;
  }

  quickInput(): Locator {
    return this.page.locator('.quick-input-widget .quick-input-box input').first();
  }

  line(text: string): Locator {
    return this.page.locator('.editor-instance .view-line', { hasText: text }).first();
  }

  /** Puts the cursor at a line and column from 1, with the keyboard. */
  async goTo(line: number, column = 1): Promise<void> {
    await this.page.keyboard.press('Control+G');
    const input = this.quickInput();
    await input.waitFor();
    await input.fill(`:${line}:${column}`);
    await this.page.keyboard.press('Enter');
    await input.waitFor({ state: 'hidden' });
  }

  /** Selects the first place of a text in the editor and types over it. */
  async replace(text: string, by: string): Promise<void> {
    await this.find(text);
    await this.page.keyboard.type(by);
  }

  /** The first of those side by side. */
  async focusEditor(): Promise<void> {
    await this.page.keyboard.press('Control+1');
    await this.page.locator('.editor-group-container').first().locator('.monaco-editor.focused').waitFor();
  }

  /** Selects the first place of a text in the editor. */
  async find(text: string): Promise<void> {
    await this.focusEditor();
    await this.page.keyboard.press('Control+Home');
    await this.page.keyboard.press('Control+F');
    const input = this.page.locator('.find-widget.visible .find-part textarea').first();
    await input.waitFor();
    // A text that stands there already is not looked for again.
    await input.fill('');
    await input.fill(text);
    await this.page.locator('.find-widget .matchesCount', { hasText: /of/ }).waitFor();
    await this.page.locator('.statusbar-item', { hasText: /\(\d+ selected\)/ }).waitFor();
    // What else is open may take the key first.
    for (let round = 0; round < 5 && (await this.page.locator('.find-widget.visible').isVisible()); round += 1) {
      await this.page.keyboard.press('Escape');
      await pause(200);
    }
  }

  /** The page of a panel. */
  panel(): FrameLocator {
    return this.page.frameLocator('iframe.webview.ready').frameLocator('#active-frame');
  }

  /** Sets the colours by the settings of the folder. */
  async useTheme(name: string, shownAs: 'vs' | 'vs-dark' | 'hc-black' | 'hc-light'): Promise<void> {
    mkdirSync(join(this.folder, '.vscode'), { recursive: true });
    writeFileSync(join(this.folder, '.vscode', 'settings.json'), JSON.stringify({ 'workbench.colorTheme': name }));
    await this.page.locator(`.monaco-workbench.${shownAs}`).waitFor();
  }

  /** What keeps people out of the page of a panel, by every rule of axe-core (WCAG 2.2 A and AA, and good practice). */
  async barriersInPanel(): Promise<readonly string[]> {
    const frame = await this.panel().locator('body').elementHandle();
    const inside = await frame?.ownerFrame();
    if (inside == null) throw new Error('there is no panel');
    await inside.evaluate(AXE);
    return inside.evaluate(async () => {
      const { axe } = globalThis as unknown as { axe: { run(): Promise<{ violations: readonly Barrier[] }> } };
      const { violations } = await axe.run();
      return violations.flatMap(({ id, nodes }) =>
        nodes.map(({ html, any }) => `${id}: ${html} ${any[0]?.message ?? ''}`),
      );
    });
  }

  problem(text: string | RegExp): Locator {
    return this.page.locator('.markers-panel .monaco-list-row[aria-level="2"]', { hasText: text }).first();
  }

  async showProblems(): Promise<void> {
    if (!(await this.page.locator('.markers-panel').isVisible())) await this.page.keyboard.press('Control+Shift+M');
    await this.page.locator('.markers-panel').waitFor();
  }

  /** Narrows the list, which draws only the rows that are in sight. */
  async filterProblems(text: string): Promise<void> {
    await this.page.locator('.panel .monaco-inputbox input[placeholder^="Filter"]').first().fill(text);
  }

  squiggles(kind: 'error' | 'warning' | 'info'): Locator {
    return this.page.locator(`.editor-instance .squiggly-${kind}`);
  }

  statusItem(): Locator {
    return this.page.locator(
      '.statusbar-item[id="plimsoll.plimsoll.summary"], .statusbar-item[id*="plimsoll.summary"]',
    );
  }

  explorerRow(name: string): Locator {
    return this.page.locator(`.explorer-folders-view .monaco-list-row[aria-label^="${name}"]`);
  }

  treeRow(text: string | RegExp): Locator {
    return this.page.locator('.pane-body .monaco-list-row', { hasText: text });
  }

  async hover(target: Locator): Promise<Locator> {
    let box = await target.boundingBox();
    // The editor draws a line anew whenever something beside it changes.
    for (let round = 0; round < 10 && box === null; round += 1) {
      await pause(200);
      box = await target.boundingBox();
    }
    if (box === null) throw new Error('nothing there to point at');
    await this.page.mouse.move(box.x + box.width / 2 - 20, box.y - 30);
    await this.page.mouse.move(box.x + box.width / 2, box.y + box.height / 2, { steps: 5 });
    const hover = this.page.locator('.monaco-hover:visible').first();
    await hover.waitFor();
    return hover;
  }

  /** Shows what was there when a test failed. */
  async keepFailure({ name, result }: { readonly name: string; readonly result?: { readonly state: string } }) {
    if (result?.state === 'fail') await this.picture(`failed ${name}`);
  }

  /** Keeps a picture of the whole window, or of a part, in dist/screenshots. */
  async picture(name: string, of: Page | Locator = this.page): Promise<string> {
    mkdirSync(PICTURES, { recursive: true });
    const path = join(PICTURES, `${name}.png`);
    await pause(400);
    await of.screenshot({ path });
    if (process.env.UPDATE === '1' && existsSync(join(IN_README, `${name}.png`)))
      copyFileSync(path, join(IN_README, `${name}.png`));
    return path;
  }
}

function writeFiles(folder: string, files: Opening['files']): void {
  if (files === 'sample') cpSync(join(ROOT, 'sample-workspace'), folder, { recursive: true });
  for (const [path, text] of Object.entries(files === 'sample' ? {} : files)) {
    mkdirSync(dirname(join(folder, path)), { recursive: true });
    writeFileSync(join(folder, path), text);
  }
}

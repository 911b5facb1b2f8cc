/** A real browser that opens pages from disk, where there is one; `npm test` says so where there is none. */
import { existsSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { delimiter, join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { type Browser, type BrowserContextOptions, chromium, type Page } from 'playwright-core';

const NAMES = ['chromium', 'chromium-browser', 'google-chrome', 'chrome'];

/** Null: there is none on the path. */
export const BROWSER: string | null =
  (process.env.PATH ?? '')
    .split(delimiter)
    .flatMap((folder) => NAMES.map((name) => join(folder, name)))
    .find((path) => existsSync(path)) ?? null;

export function launchBrowser(): Promise<Browser> {
  if (BROWSER === null) throw new Error('there is no browser on the path');
  // As root a browser has no sandbox of its own; what it opens here is ours.
  return chromium.launch({ executablePath: BROWSER, args: ['--no-sandbox', '--disable-gpu'] });
}

export interface OpenedPage {
  readonly page: Page;
  /** What went wrong in the page, and everything it asked of a network. */
  readonly complaints: readonly string[];
  close(): Promise<void>;
}

/** Writes the page beside the other files and opens it from disk. */
export async function openPage(
  browser: Browser,
  html: string,
  options: BrowserContextOptions & {
    readonly fragment?: string;
    readonly files?: Readonly<Record<string, string>>;
    /** Run in the page before its own scripts. */
    readonly before?: () => void;
  } = {},
): Promise<OpenedPage> {
  const folder = mkdtempSync(join(tmpdir(), 'plimsoll-page-'));
  for (const [name, text] of Object.entries({ ...options.files, 'page.html': html }))
    writeFileSync(join(folder, name), text);
  const context = await browser.newContext(options);
  const page = await context.newPage();
  if (options.before !== undefined) await page.addInitScript(options.before);
  const complaints: string[] = [];
  page.on('pageerror', (error) => complaints.push(error.message));
  page.on('console', (message) => complaints.push(`${message.type()}: ${message.text()}`));
  page.on('dialog', (dialog) => {
    complaints.push(`dialog: ${dialog.message()}`);
    void dialog.dismiss();
  });
  page.on('request', (request) => {
    if (!request.url().startsWith('file:')) complaints.push(`asked for ${request.url()}`);
  });
  await page.goto(`${pathToFileURL(join(folder, 'page.html'))}${options.fragment ?? ''}`);
  const close = async () => {
    await context.close();
    rmSync(folder, { recursive: true });
  };
  return { page, complaints, close };
}

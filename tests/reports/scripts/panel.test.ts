/** The page of the matrix as an editor's panel has it: what a newer page leaves where it is, and what is asked of the editor. */
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { matrixHtml } from '../../../server/reports/matrix/html/page';
import { BROWSER, launchBrowser, type OpenedPage, openPage } from '../../support/browser';
import { HOSTILE_TEXTS, hostileFiles, matrixOfFiles } from '../../support/matrix';

const COUNT = 40;

function pageOf(draw: string, files: Readonly<Record<string, string>> = product(draw)): string {
  return matrixHtml(matrixOfFiles(files), { base: '' }, 'panel');
}

/** The higher the number of a requirement, the higher its limit; each rests on more figures than are shown at once. */
function product(draw: string): Readonly<Record<string, string>> {
  const names = ['a', 'b', 'c', 'd', 'e', 'f'];
  const requirements = Array.from({ length: COUNT }, (_, index) => {
    const sum = ['supply.draw', ...names.map((name) => `rest.${name}`)].join(' + ');
    return `## P-${index + 1} Power\n\nThe lamp shall draw at most ${index + 40} W (\`${sum}\`).\n\n`;
  });
  const facts = `  supply: {draw: ${draw}}\n  rest: {${names.map((name) => `${name}: 1 W`).join(', ')}}`;
  return { 'p.md': `---\nrequirements: Lamp\nfacts:\n${facts}\n---\n${requirements.join('\n')}` };
}

/** What an editor gives to the page; what the page asks for is kept. */
function actAsEditor(): void {
  const asked: unknown[] = [];
  Object.assign(window, {
    asked,
    acquireVsCodeApi: () => ({ postMessage: (message: unknown) => asked.push(message) }),
  });
  // Links within a page are followed by the editor, which leaves the address as it is.
  window.addEventListener('DOMContentLoaded', () =>
    document.addEventListener('click', (event) => {
      const href = event.target instanceof Element ? event.target.closest('a[href]')?.getAttribute('href') : null;
      if (!href?.startsWith('#')) return;
      event.preventDefault();
      document.getElementById(href.slice(1))?.scrollIntoView();
    }),
  );
}

describe.skipIf(BROWSER === null)('the matrix in a panel', () => {
  let browser: Browser;
  let opened: OpenedPage;
  beforeAll(async () => {
    browser = await launchBrowser();
  });
  afterAll(() => browser?.close());

  async function open(html: string): Promise<OpenedPage> {
    opened = await openPage(browser, html, { before: actAsEditor, viewport: { width: 1300, height: 700 } });
    await opened.page.locator('#filters').waitFor();
    return opened;
  }
  /** As the editor hands a newer page over. */
  const follow = (html: string | null) =>
    opened.page.evaluate(async (next) => {
      window.postMessage({ html: next }, '*');
      await new Promise((resolve) => setTimeout(resolve, 300));
    }, html);
  const focused = () =>
    opened.page.evaluate(() => document.activeElement?.closest('tbody')?.id ?? document.activeElement?.tagName);
  const verdictOf = (id: string) => opened.page.locator(`#r-${id} .verdict`).first().textContent();
  const order = () => opened.page.locator('#matrix-table tbody').evaluateAll((rows) => rows.map(({ id }) => id));

  test('what has the focus keeps it, whether its row is other or not', async () => {
    const { page, close } = await open(pageOf('30 W'));
    for (const id of ['P-2', 'P-30']) {
      await page.locator(`#r-${id} a`).first().focus();
      await follow(pageOf(id === 'P-2' ? '36 W' : '30 W'));
      expect(await focused()).toBe(`r-${id}`);
    }
    await follow(pageOf('36 W'));
    expect(await verdictOf('P-2')).toBe('unmet');
    await close();
  });

  test('sorted rows keep their order and the focus', async () => {
    const { page, close } = await open(pageOf('30 W'));
    await page.locator('th[data-sort=id] button').click();
    await page.locator('th[data-sort=id] button').click();
    await expect.poll(async () => (await order())[0]).toBe(`r-P-${COUNT}`);
    await page.locator('#r-P-20 a').first().focus();
    await follow(pageOf('36 W'));
    expect((await order())[0]).toBe(`r-P-${COUNT}`);
    expect(await focused()).toBe('r-P-20');
    await close();
  });

  test('the rows in sight stay where they are, and what was opened stays open', async () => {
    const { page, close } = await open(pageOf('30 W'));
    await page.locator('#r-P-25').scrollIntoViewIfNeeded();
    await page.locator('#r-P-25 details summary').first().click();
    await page.waitForTimeout(200);
    const top = () => page.locator('#r-P-25').evaluate((row) => Math.round(row.getBoundingClientRect().top));
    const before = await top();
    for (const draw of ['36 W', '65 W', '30 W']) {
      await follow(pageOf(draw));
      expect(Math.abs((await top()) - before)).toBeLessThanOrEqual(2);
      expect(
        await page
          .locator('#r-P-25 details')
          .first()
          .evaluate((one: HTMLDetailsElement) => one.open),
      ).toBe(true);
    }
    await close();
  });

  test('what was filtered out stays out of sight, and rows come and go in the order of the documents', async () => {
    const { page, close } = await open(pageOf('30 W'));
    await page.locator('input[name=text]').fill('P-2');
    await expect.poll(() => page.locator('#shown').textContent()).toContain('11 of');
    const { 'p.md': text = '' } = product('36 W');
    const moved = `${text.replace('## P-1 Power', '## P-1 Less')}\n## P-200 New\n\nThe lamp shall be blue.\n`;
    await follow(pageOf('', { 'p.md': moved.replace(/## P-3 [^#]+/, '') }));
    const numbers = Array.from({ length: COUNT }, (_, index) => index + 1).filter((number) => number !== 3);
    expect(await order()).toEqual([...numbers, 200].map((number) => `r-P-${number}`));
    expect(await page.locator('#shown').textContent()).toContain('12 of 40');
    expect(await page.locator('#r-P-1').isHidden()).toBe(true);
    await close();
  });

  test('a page that nobody keeps up to date says so, until it is', async () => {
    const { page, close } = await open(pageOf('30 W'));
    await follow(null);
    await follow(null);
    expect(await page.getByRole('alert').allTextContents()).toEqual([expect.stringContaining('of before')]);
    await follow(pageOf('36 W'));
    expect(await page.getByRole('alert').count()).toBe(0);
    expect(await verdictOf('P-2')).toBe('unmet');
    await close();
  });

  test('a place is asked for; a link that cannot be read asks for nothing and stops nothing', async () => {
    const { page, complaints, close } = await open(pageOf('30 W'));
    const asked = () => page.evaluate(() => (window as unknown as { asked: unknown[] }).asked);
    await page.locator('#r-P-2 a[data-line]').first().click();
    expect(await asked()).toEqual([{ type: 'open', file: 'p.md', line: 12 }]);
    await page.evaluate(() => {
      const link = document.createElement('a');
      link.href = '50%.md';
      document.body.append(link);
      link.click();
    });
    expect((await asked()).length).toBe(1);
    expect(complaints).toEqual([]);
    await close();
  });

  test('a link to a row that is filtered out shows it', async () => {
    const { page, close } = await open(pageOf('30 W'));
    await page.locator('input[name=text]').fill('nowhere');
    await page.locator('#shown', { hasText: /^0 of/ }).waitFor();
    await page.locator('#figures a[href="#r-P-20"]').first().click();
    await expect.poll(() => page.locator('#shown').textContent()).toContain(`All ${COUNT}`);
    expect(await page.locator('#r-P-20').evaluate((row) => row.getBoundingClientRect().top < innerHeight)).toBe(true);
    await close();
  });

  test('a page of other parts takes the place of the whole', async () => {
    const { page, close } = await open(pageOf('30 W'));
    await follow('<!doctype html><title>Other</title><main><h1>Other</h1></main>');
    expect(await page.locator('body > :not(script)').allTextContents()).toEqual(['Other']);
    await follow(pageOf('36 W'));
    expect(await verdictOf('P-2')).toBe('unmet');
    await close();
  });

  test('hostile texts that arrive later run nothing either', async () => {
    const { complaints, close } = await open(pageOf('30 W'));
    const hostile = hostileFiles(HOSTILE_TEXTS);
    await follow(pageOf('', hostile));
    expect(await order()).toEqual(matrixOfFiles(hostile).requirements.map(({ id }) => `r-${id}`));
    expect(complaints).toEqual([]);
    await close();
  });
});

/** The page of the matrix in a real browser, from disk: filter, sort, links, print, hostile texts, and nobody kept out. */
import { createRequire } from 'node:module';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { matrixHtml } from '../../server/reports/matrix/html/page';
import { BROWSER, launchBrowser, type OpenedPage, openPage } from '../support/browser';
import { HOSTILE_TEXTS, hostileFiles, matrixOfFiles, VARIED } from '../support/matrix';

const AXE = createRequire(import.meta.url).resolve('axe-core/axe.min.js');
const VARIED_PAGE = matrixHtml(matrixOfFiles(VARIED, 'Varied'), { base: '' });
const HOSTILE_PAGE = matrixHtml(matrixOfFiles(hostileFiles(HOSTILE_TEXTS), HOSTILE_TEXTS[0]), { base: '' });

describe.runIf(BROWSER !== null)('the matrix in a browser', () => {
  let browser: Browser;
  beforeAll(async () => {
    browser = await launchBrowser();
  });
  afterAll(() => browser.close());

  const using = async (opened: Promise<OpenedPage>, work: (page: Page) => Promise<void>) => {
    const { page, complaints, close } = await opened;
    try {
      await work(page);
      expect(complaints).toEqual([]);
    } finally {
      await close();
    }
  };

  const shownIds = (page: Page) => page.locator('#matrix-table tbody:not([hidden]) th > a > .id').allTextContents();
  const settled = (page: Page) => page.locator('#matrix-table:not([aria-busy])').waitFor();
  const ids = ['P-1', 'P-2', 'P-3', 'P-4', 'P-5', 'P-6', 'P-8', 'P-9', 'P-7'];

  test('is whole without a script', async () => {
    await using(openPage(browser, VARIED_PAGE, { javaScriptEnabled: false }), async (page) => {
      expect(await page.locator('#filters').isVisible()).toBe(false);
      expect(await page.locator('#matrix-table tbody').count()).toBe(ids.length);
      expect(await page.locator('#r-P-1').textContent()).toContain('49.5');
      await page.locator('#figures a[href="#r-P-1"]').first().click();
      expect(page.url()).toMatch(/#r-P-1$/);
    });
  });

  test('filters by verdict, evidence, document and text, and the address says so', async () => {
    await using(openPage(browser, VARIED_PAGE), async (page) => {
      expect(await shownIds(page)).toEqual(ids);
      await page.getByRole('checkbox', { name: 'unmet' }).check();
      await page.getByRole('checkbox', { name: 'at risk' }).check();
      await page.waitForURL(/at\+risk/);
      await settled(page);
      expect(await shownIds(page)).toEqual(['P-1', 'P-6']);
      expect(await page.getByRole('status').textContent()).toBe('2 of 9 requirements are shown');
      await page.getByRole('checkbox', { name: 'verified' }).check();
      await page.waitForURL(/evidence=verified/);
      await settled(page);
      expect(await shownIds(page)).toEqual(['P-1']);
      await page.getByRole('button', { name: 'Show all' }).click();
      await settled(page);
      expect(await shownIds(page)).toEqual(ids);
      expect(new URL(page.url()).hash).toBe('');
      await page.getByRole('searchbox', { name: 'Text' }).fill('BOX torque');
      await page.waitForURL(/text=/);
      await settled(page);
      expect(await shownIds(page)).toEqual(['P-4']);
    });
  });

  test('opens as its address asks for', async () => {
    await using(
      openPage(browser, VARIED_PAGE, { fragment: '#verdict=open%2Cwaived&sort=id&order=down' }),
      async (page) => {
        await settled(page);
        expect(await shownIds(page)).toEqual(['P-5', 'P-3']);
        expect(await page.getByRole('checkbox', { name: 'open' }).isChecked()).toBe(true);
        expect(await page.locator('th[aria-sort]').getAttribute('aria-sort')).toBe('descending');
      },
    );
  });

  test('sorts by the keyboard: up, down, and back to the order of the documents', async () => {
    await using(openPage(browser, VARIED_PAGE), async (page) => {
      const margin = page.getByRole('button', { name: 'Margin' });
      await margin.focus();
      const after = async (key: string) => {
        await page.keyboard.press(key);
        await settled(page);
        return shownIds(page);
      };
      // Shares of the limit: P-6 -1/6, P-5 -7/90, P-1 -0.5/60, P-2 0, P-7 5.2/30, P-9 1/3; the others have none.
      const upwards = ['P-6', 'P-5', 'P-1', 'P-2', 'P-7', 'P-9', 'P-3', 'P-4', 'P-8'];
      expect(await after('Enter')).toEqual(upwards);
      expect(await after('Enter')).toEqual(['P-9', 'P-7', 'P-2', 'P-1', 'P-5', 'P-6', 'P-3', 'P-4', 'P-8']);
      expect(await after('Enter')).toEqual(ids);
      await page.getByRole('button', { name: 'Verdict' }).click();
      await settled(page);
      expect((await shownIds(page)).slice(0, 3)).toEqual(['P-6', 'P-1', 'P-4']);
    });
  });

  test('a link to a row that is filtered out shows it', async () => {
    await using(openPage(browser, VARIED_PAGE, { fragment: '#verdict=unmet' }), async (page) => {
      await settled(page);
      expect(await page.locator('#r-P-2').isVisible()).toBe(false);
      await page.locator('#figures a[href="#r-P-2"]').click();
      await page.locator('#r-P-2').waitFor({ state: 'visible' });
      await settled(page);
      expect(new URL(page.url()).hash).toBe('#r-P-2');
      expect(await shownIds(page)).toEqual(ids);
      expect(await page.locator('#r-P-2').evaluate((row) => row.getBoundingClientRect().top < innerHeight)).toBe(true);
    });
  });

  test('a link to a row shows it where no row at all is left', async () => {
    await using(openPage(browser, VARIED_PAGE, { fragment: '#text=nowhere' }), async (page) => {
      await page.locator('#shown', { hasText: /^0 of/ }).waitFor();
      expect(await page.locator('#matrix-table').isVisible()).toBe(false);
      await page.locator('#figures a[href="#r-P-2"]').click();
      expect(await page.locator('#r-P-2').isVisible()).toBe(true);
      await settled(page);
      expect(await shownIds(page)).toEqual(ids);
      expect(await page.locator('#r-P-2').evaluate((row) => row.getBoundingClientRect().top < innerHeight)).toBe(true);
    });
  });

  test('links to the places in the documents', async () => {
    const files = { 'requirements.md': VARIED['requirements.md'] ?? '', 'design.md': VARIED['design.md'] ?? '' };
    await using(openPage(browser, VARIED_PAGE, { files }), async (page) => {
      const link = page.locator('#r-P-1 a').first();
      expect(await link.getAttribute('data-line')).toBe('5');
      const href = await link.getAttribute('href');
      expect(href).toBe('requirements.md#L5');
      const [request] = await Promise.all([page.waitForEvent('request'), link.click()]);
      expect(request.url()).toMatch(/requirements\.md(?:#L5)?$/);
    });
  });

  test.each(['A4', 'Letter'] as const)('prints on %s, all of it, with the header on every page', async (format) => {
    await using(openPage(browser, VARIED_PAGE), async (page) => {
      await page.emulateMedia({ media: 'print' });
      expect(await page.locator('.filters select').isVisible()).toBe(false);
      const folded = page.locator('details li').first();
      if ((await folded.count()) > 0) expect(await folded.isVisible()).toBe(true);
      const pdf = await page.pdf({ format, landscape: true });
      expect(pdf.subarray(0, 5).toString()).toBe('%PDF-');
      expect(pdf.length).toBeGreaterThan(10_000);
    });
  });

  test.each([
    [1280, 'light'],
    [1280, 'dark'],
    [390, 'light'],
    [390, 'dark'],
  ] as const)('at %i px, %s, nothing keeps anybody out and nothing sticks out', async (width, colorScheme) => {
    for (const html of [VARIED_PAGE, HOSTILE_PAGE]) {
      await using(openPage(browser, html, { viewport: { width, height: 900 }, colorScheme }), async (page) => {
        expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth)).toBeLessThanOrEqual(0);
      });
      // The engine has to be put into the page, which the page's own policy forbids to everybody else.
      const opened = await openPage(browser, html, { viewport: { width, height: 900 }, colorScheme, bypassCSP: true });
      await opened.page.addScriptTag({ path: AXE });
      const violations = await opened.page.evaluate(async () => {
        const { axe } = globalThis as unknown as {
          axe: { run(): Promise<{ violations: { id: string; nodes: { html: string }[] }[] }> };
        };
        const found = (await axe.run()).violations;
        return found.map(({ id, nodes }) => `${id}: ${nodes[0]?.html.slice(0, 200)}`);
      });
      await opened.close();
      expect(violations).toEqual([]);
    }
  });

  test('hostile texts are shown and do nothing', async () => {
    await using(openPage(browser, HOSTILE_PAGE, { fragment: '#text=%3Cscript%3E' }), async (page) => {
      await settled(page);
      expect(
        await page.locator('img, svg:not(.share), iframe, object, embed, [onerror], [onload], [onmouseover]').count(),
      ).toBe(0);
      expect(await page.locator('script').count()).toBe(1);
      expect(await page.locator('h1').textContent()).toBe(HOSTILE_TEXTS[0]);
      const schemes = await page
        .locator('a')
        .evaluateAll((links) => links.map((link) => (link as HTMLAnchorElement).protocol));
      expect([...new Set(schemes)].sort()).toEqual(['file:', 'http:']);
      expect(await shownIds(page)).toEqual(['P-1']);
    });
  });
});

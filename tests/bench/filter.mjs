/** How long filtering keeps a page of the matrix from answering: the longest task while each filter is asked for, in milliseconds. */
import { existsSync } from 'node:fs';
import { delimiter, join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { chromium } from 'playwright-core';

const executablePath = (process.env.PATH ?? '')
  .split(delimiter)
  .map((folder) => join(folder, 'chromium'))
  .find((path) => existsSync(path));
if (executablePath === undefined) process.stdout.write('{}\n');
else process.stdout.write(`${JSON.stringify(await measured(process.argv[2]))}\n`);

async function measured(file) {
  // As root a browser has no sandbox of its own; what it opens here is ours.
  const browser = await chromium.launch({ executablePath, args: ['--no-sandbox', '--disable-gpu'] });
  try {
    const page = await browser.newPage();
    page.setDefaultTimeout(300_000);
    await page.goto(pathToFileURL(file).href);
    await page.locator('#filters').waitFor();
    await page.evaluate(() => {
      window.longest = 0;
      new PerformanceObserver((list) => {
        for (const { duration } of list.getEntries()) window.longest = Math.max(window.longest, duration);
      }).observe({ type: 'longtask' });
    });
    const results = {};
    for (const [name, fragment] of [
      ['fewVerdicts', '#verdict=unmet'],
      ['text', '#text=promise+7'],
      ['everything', '#verdict='],
    ]) {
      results[name] = await longestTask(page, fragment);
    }
    return results;
  } finally {
    await browser.close();
  }
}

/** Waited for inside the page: a driver that looks for the table from outside walks a million elements each time. */
async function longestTask(page, fragment) {
  return page.evaluate(async (asked) => {
    const table = document.querySelector('#matrix-table');
    const started = performance.now();
    const settled = new Promise((resolve) => {
      new MutationObserver((_, observer) => {
        if (table.hasAttribute('aria-busy')) return;
        observer.disconnect();
        resolve(performance.now() - started);
      }).observe(table, { attributeFilter: ['aria-busy'] });
    });
    window.longest = 0;
    location.hash = asked;
    const milliseconds = Math.round(await settled);
    // Long tasks are told a little later.
    await new Promise((resolve) => setTimeout(resolve, 500));
    return { longestTask: Math.round(window.longest), settled: milliseconds };
  }, fragment);
}

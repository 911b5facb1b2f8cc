/** Draws client/icons/plimsoll.png from the SVG beside it, with the browser of the tests. Run after a change of the SVG. */
import { readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { chromium } from 'playwright-core';

const SIDE = 256;
const icons = join(dirname(dirname(fileURLToPath(import.meta.url))), 'client', 'icons');
const svg = readFileSync(join(icons, 'plimsoll.svg'), 'utf8');

const browser = await chromium.launch({ executablePath: '/usr/bin/chromium', args: ['--no-sandbox', '--disable-gpu'] });
const page = await browser.newPage({ viewport: { width: SIDE, height: SIDE } });
await page.setContent(`<style>*{margin:0}svg{display:block;width:${SIDE}px;height:${SIDE}px}</style>${svg}`);
await page.screenshot({ path: join(icons, 'plimsoll.png'), omitBackground: true });
await browser.close();

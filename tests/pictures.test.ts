/** The pictures of README.md are there, small, and described in words. */
import { readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';

const ROOT = join(import.meta.dirname, '..');
/** Bytes. */
const LARGEST = 300_000;

test('every picture of the README is there, small, and described', () => {
  const readme = readFileSync(join(ROOT, 'README.md'), 'utf8');
  const pictures = [...readme.matchAll(/!\[([^\]]*)\]\(([^)]+)\)/g)];
  expect(pictures.length).toBeGreaterThan(1);
  for (const [, words = '', path = ''] of pictures) {
    expect(words.length).toBeGreaterThan(20);
    expect(statSync(join(ROOT, path)).size).toBeLessThan(LARGEST);
  }
});

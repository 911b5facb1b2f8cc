/** Every request of our own is documented, and no other. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';

const root = join(import.meta.dirname, '..', '..');
const namesIn = (text: string, pattern: RegExp) => [...text.matchAll(pattern)].map(([, name]) => name).sort();

test('DEVELOPERS.md lists the requests that messages.ts has', () => {
  const messages = readFileSync(join(root, 'server', 'lsp', 'messages.ts'), 'utf8');
  const documented = readFileSync(join(root, 'DEVELOPERS.md'), 'utf8');
  const declared = namesIn(messages, /^ {2}'(plimsoll\/[\w/]+)':/gm);
  expect(declared.length).toBeGreaterThan(10);
  expect(namesIn(documented, /^\| `(plimsoll\/[\w/]+)` \|/gm)).toEqual(declared);
});

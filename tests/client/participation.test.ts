/** Which documents start the server. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { ROLES, takesPart } from '../../client/participation';

test('the keys are those that the server reads', () => {
  const model = readFileSync(join(import.meta.dirname, '../../server/model/document.ts'), 'utf8');
  const written = /const ROLES = \[([^\]]*)\]/.exec(model)?.[1] ?? '';
  expect([...written.matchAll(/'(\w+)'/g)].map(([, key]) => key)).toEqual(ROLES);
});

describe('takes part', () => {
  test.each([
    '---\nrequirements: A\n---\n',
    '---\r\nfacts:\r\n  a: 1 W\r\n---\r\n',
    '\uFEFF---\nother: 1\nparts: []\n---\n# A',
    '---\n"facts" : {}\n...\n',
  ])('%j', (text) => {
    expect(takesPart(text)).toBe(true);
  });
});

describe('takes no part', () => {
  test.each([
    '',
    '# A\n\n---\nrequirements: A\n---\n',
    '---\ntitle: A page\n---\nfacts: none\n',
    '---\nrequirements: not closed\n',
    '---\nnested:\n  facts: 1\n---\n',
    ' ---\nfacts: {}\n---\n',
  ])('%j', (text) => {
    expect(takesPart(text)).toBe(false);
  });
});

/** `plimsoll matrix`: where it writes, and where it rather does not. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, describe, expect, test, vi } from 'vitest';
import { deliver } from '../../server/cli/deliver';
import { createMemoryHost } from '../../server/host-memory';
import { inFolder, plimsoll } from '../support/command-line';
import { temporaryFolder } from '../support/folder';

const PRODUCT = `---
requirements: Lamp
facts:
  draw: 45 W
---
## P-1 Power
The lamp shall draw no more than 60 W (\`draw\`).
`;

test('goes to standard output as a page, and to a file where one is named', () => {
  inFolder({ 'p.md': PRODUCT }, (folder) => {
    expect(plimsoll(['matrix', folder]).out).toMatch(/^<!doctype html>/);
    const written = plimsoll(['matrix', folder, '--format', 'csv', '-o', join(folder, 'matrix.csv')]);
    expect(written).toMatchObject({ status: 0, out: '' });
    expect(readFileSync(join(folder, 'matrix.csv'), 'utf8')).toContain('P-1');
  });
});

test('a file that is there already stays as it is, unless it is to be overwritten', () => {
  const folder = temporaryFolder({ 'p.md': PRODUCT, 'matrix.html': 'somebody’s own' });
  const file = join(folder, 'matrix.html');
  const refused = plimsoll(['matrix', folder, '-o', file]);
  expect(refused).toMatchObject({ status: 2, out: '', errors: expect.stringContaining('--force overwrites it') });
  expect(readFileSync(file, 'utf8')).toBe('somebody’s own');
  expect(plimsoll(['matrix', folder, '-o', file, '--force']).status).toBe(0);
  expect(readFileSync(file, 'utf8')).toMatch(/^<!doctype html>/);
});

test.each([
  ['a folder that is not there', 'missing/matrix.html'],
  ['a folder', 'reports'],
  ['a path through a file', 'p.md/matrix.html'],
])('%s: exit status 2, a word why, and nothing half-written', (_, path) => {
  const folder = temporaryFolder({ 'p.md': PRODUCT, 'reports/own.txt': 'own' });
  const before = readdirSync(folder, { recursive: true });
  for (const force of [[], ['--force']]) {
    const run = plimsoll(['matrix', folder, '-o', join(folder, path), ...force]);
    expect(run).toMatchObject({ status: 2, out: '', errors: expect.stringContaining('not written') });
  }
  expect(readdirSync(folder, { recursive: true })).toEqual(before);
  expect(readFileSync(join(folder, 'p.md'), 'utf8')).toBe(PRODUCT);
});

describe('bytes that are no text', () => {
  const wasTerminal = process.stdout.isTTY;
  afterEach(() => {
    process.stdout.isTTY = wasTerminal;
    vi.restoreAllMocks();
  });

  test('do not go to a terminal, which would take them for commands', async () => {
    const said: string[] = [];
    const written = vi.spyOn(process.stdout, 'write');
    vi.spyOn(process.stderr, 'write').mockImplementation((text) => said.push(String(text)) > 0);
    process.stdout.isTTY = true;
    expect(await deliver(createMemoryHost(), new Uint8Array([27, 91, 50, 74]), {})).toBe(false);
    expect(written).not.toHaveBeenCalled();
    expect(said.join('')).toContain('-o FILE');
  });

  test('go to a pipe as they are', () => {
    inFolder({ 'p.md': PRODUCT }, (folder) => {
      expect(plimsoll(['matrix', folder, '--format', 'xlsx']).out).toMatch(/^PK/);
    });
  });
});

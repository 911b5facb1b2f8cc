/** The host on Node: files on the real disk, read and written. */
import { execFileSync } from 'node:child_process';
import { chmodSync, lstatSync, mkdirSync, readdirSync, readFileSync, statSync, symlinkSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { createNodeHost, hostPath } from '../../server/host-node';
import { temporaryFolder } from '../support/folder';

const host = createNodeHost({ git: false });
const isPosix = process.platform !== 'win32';
const bytes = (text: string) => new TextEncoder().encode(text);

describe('reading', () => {
  test('a file, nothing, a folder, and a file that is too large', async () => {
    const folder = temporaryFolder({ 'a.md': 'text', 'b.md': 'x'.repeat(2_000_001) });
    expect(await host.readFile(join(folder, 'a.md'))).toMatchObject({ type: 'bytes' });
    expect(await host.readFile(join(folder, 'none.md'))).toEqual({ type: 'missing' });
    expect(await host.readFile(folder)).toEqual({ type: 'unreadable', reason: 'it is a folder' });
    expect(await host.readFile(join(folder, 'b.md'))).toEqual({ type: 'too-large', size: 2_000_001 });
  });

  test('what stands at a path', async () => {
    const folder = temporaryFolder({ 'a.md': '' });
    expect(await host.stat(folder)).toBe('folder');
    expect(await host.stat(join(folder, 'a.md'))).toBe('file');
    expect(await host.stat(join(folder, 'a.md', 'b'))).toBeNull();
  });

  test.runIf(isPosix)('a pipe is no file and does not stop the reading', async () => {
    const folder = temporaryFolder();
    execFileSync('mkfifo', [join(folder, 'pipe.md')]);
    expect(await host.readFile(join(folder, 'pipe.md'))).toEqual({ type: 'unreadable', reason: 'it is no file' });
    expect((await host.listFiles(folder, () => true)).files).toEqual([]);
  });

  test('a path of a person becomes absolute', () => {
    expect(hostPath('.')).toBe(process.cwd().replaceAll('\\', '/'));
  });
});

describe('links', () => {
  test.runIf(isPosix)('to files are read once, to folders not followed, loops are reported', async () => {
    const folder = temporaryFolder({ 'in/a.md': '', 'out/b.md': '' });
    const root = join(folder, 'in');
    symlinkSync('a.md', join(root, '0.md'));
    symlinkSync('../out/b.md', join(root, 'c.md'));
    symlinkSync('c.md', join(root, 'd.md'));
    symlinkSync('../out', join(root, 'outside'));
    symlinkSync('.', join(root, 'self'));
    symlinkSync('ring.md', join(root, 'ring.md'));
    symlinkSync('none', join(root, 'gone.md'));
    expect(await host.listFiles(root, (path) => path.endsWith('.md'))).toEqual({
      files: ['a.md', 'c.md'],
      nested: [],
      unreadable: [
        { path: 'gone.md', reason: 'the link leads nowhere' },
        { path: 'ring.md', reason: 'its links go round in a circle' },
      ],
    });
  });

  test.runIf(isPosix)('a product reached through a link lists the same', async () => {
    const folder = temporaryFolder({ 'in/a.md': '' });
    symlinkSync('a.md', join(folder, 'in', 'b.md'));
    symlinkSync('in', join(folder, 'link'));
    expect((await host.listFiles(join(folder, 'link'), () => true)).files).toEqual(['a.md']);
  });
});

describe('writing', () => {
  test('a new file, and no file over another', async () => {
    const folder = temporaryFolder({ 'a.md': 'one' });
    const path = join(folder, 'b.md');
    expect(await host.writeFile(path, 'né', { type: 'absent' })).toEqual({ type: 'written' });
    expect(await host.writeFile(path, 'two', { type: 'absent' })).toEqual({
      type: 'refused',
      reason: 'the file exists already',
    });
    expect(readFileSync(path, 'utf8')).toBe('né');
    expect(await host.writeFile(path, 'two', { type: 'always' })).toEqual({ type: 'written' });
    expect(readFileSync(path, 'utf8')).toBe('two');
    expect(readdirSync(folder)).toEqual(['a.md', 'b.md']);
  });

  test('of several writers of one new file exactly one succeeds', async () => {
    const path = join(temporaryFolder(), 'a.md');
    const texts = ['a', 'b', 'c', 'd', 'e', 'f'];
    const results = await Promise.all(texts.map((text) => host.writeFile(path, text, { type: 'absent' })));
    const winners = texts.filter((_, index) => results[index]?.type === 'written');
    expect(winners).toEqual([readFileSync(path, 'utf8')]);
  });

  test('only over the bytes that were read; mode and byte order mark stay', async () => {
    const folder = temporaryFolder({ 'a.md': '\uFEFFone' });
    const path = join(folder, 'a.md');
    chmodSync(path, 0o640);
    const stale = { type: 'unchanged', bytes: bytes('one') } as const;
    expect(await host.writeFile(path, 'two', stale)).toEqual({
      type: 'refused',
      reason: 'the file has changed since it was read',
    });
    expect(await host.writeFile(path, 'two', { type: 'unchanged', bytes: bytes('\uFEFFone') })).toEqual({
      type: 'written',
    });
    expect(readFileSync(path, 'utf8')).toBe('\uFEFFtwo');
    if (isPosix) expect(statSync(path).mode & 0o777).toBe(0o640);
  });

  test.runIf(isPosix)('a link is written through, and counts as a file that is there', async () => {
    const folder = temporaryFolder({ 'a.md': 'one' });
    symlinkSync('a.md', join(folder, 'link.md'));
    symlinkSync('none.md', join(folder, 'broken.md'));
    expect(await host.writeFile(join(folder, 'link.md'), 'two', { type: 'always' })).toEqual({ type: 'written' });
    expect(lstatSync(join(folder, 'link.md')).isSymbolicLink()).toBe(true);
    expect(readFileSync(join(folder, 'a.md'), 'utf8')).toBe('two');
    expect(await host.writeFile(join(folder, 'broken.md'), 'x', { type: 'absent' })).toMatchObject({ type: 'refused' });
  });

  test('a failure is part of the answer and leaves nothing behind', async () => {
    const folder = temporaryFolder({ 'a.md': '' });
    mkdirSync(join(folder, 'sub'));
    const reason = 'there is no such file or folder';
    expect(await host.writeFile(join(folder, 'x', 'b.md'), '', { type: 'absent' })).toEqual({ type: 'failed', reason });
    expect(await host.writeFile(join(folder, 'sub'), '', { type: 'always' })).toMatchObject({ type: 'failed' });
    expect(readdirSync(folder)).toEqual(['a.md', 'sub']);
  });
});

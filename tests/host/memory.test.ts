/** Finding products and files, on the host in memory. */
import { describe, expect, test } from 'vitest';
import { today } from '../../server/host';
import { type FileSelection, findProduct, readProduct } from '../../server/host-files';
import { createMemoryHost, type MemoryEntry } from '../../server/host-memory';

const MARKDOWN: FileSelection = { include: ['**/*.md'], exclude: [] };

async function filesOf(
  entries: Record<string, MemoryEntry>,
  selection = MARKDOWN,
  root = '/w',
): Promise<readonly string[]> {
  const { documents } = await readProduct(createMemoryHost(entries), root, selection);
  return documents.map(({ path }) => path);
}

describe('the product of a folder', () => {
  const host = createMemoryHost({
    '/w/plimsoll.yaml': '',
    '/w/design/deep/a.md': '',
    '/w/inner/plimsoll.yaml': '',
    '/w/inner/b.md': '',
    '/x/c/d.md': '',
    '/x/plimsoll.yml': '',
  });

  test.each([
    ['/w', '/w', true],
    ['/w/design/deep', '/w', true],
    ['/w/inner', '/w/inner', true],
    ['/x/c', '/x/c', false],
  ])('%s belongs to %s', async (folder, root, hasConfiguration) => {
    expect(await findProduct(host, folder)).toMatchObject({ root, hasConfiguration });
  });

  test('there is none for a folder that is not there, or a file', async () => {
    expect(await findProduct(host, '/y')).toBeNull();
    expect(await findProduct(host, '/w/design/deep/a.md')).toBeNull();
  });

  test('a configuration with nearly the right name is named, not read', async () => {
    expect((await findProduct(host, '/x/c'))?.misnamed).toBe('/x/plimsoll.yml');
    expect((await findProduct(host, '/w'))?.misnamed).toBeNull();
  });
});

describe('the files of a product', () => {
  test('are in order of code units', async () => {
    const entries = { '/w/b.md': '', '/w/a/z.md': '', '/w/a.md': '', '/w/Z.md': '', '/w/ä.md': '' };
    expect(await filesOf(entries)).toEqual(['Z.md', 'a.md', 'a/z.md', 'b.md', 'ä.md']);
  });

  test('are those that are included and not excluded', async () => {
    const entries = { '/w/a.md': '', '/w/drafts/b.md': '', '/w/c.txt': '' };
    expect(await filesOf(entries, { include: ['**/*.md', 'c.txt'], exclude: ['drafts'] })).toEqual(['a.md', 'c.txt']);
  });

  test('leave out packages, hidden folders and products inside', async () => {
    const entries = {
      '/w/plimsoll.yaml': '',
      '/w/a.md': '',
      '/w/.note.md': '',
      '/w/node_modules/b.md': '',
      '/w/x/node_modules/y/b.md': '',
      '/w/.cache/c.md': '',
      '/w/inner/plimsoll.yaml': '',
      '/w/inner/d.md': '',
      '/w/inner/more/plimsoll.yaml': '',
      '/w/node_modules/p/plimsoll.yaml': '',
    };
    const read = await readProduct(createMemoryHost(entries), '/w', MARKDOWN);
    expect(read.documents.map(({ path }) => path)).toEqual(['.note.md', 'a.md']);
    expect(read.nested).toEqual(['inner']);
  });

  test('at the very top of the file system', async () => {
    expect(await filesOf({ '/a.md': '', '/b/c.md': '' }, MARKDOWN, '/')).toEqual(['a.md', 'b/c.md']);
  });

  test('a link to a file is read once, under the name of the file where that is listed', async () => {
    const entries = {
      '/w/z.md': 'text',
      '/w/a.md': { link: '/w/z.md' },
      '/w/b.md': { link: '/elsewhere/o.md' },
      '/w/c.md': { link: '/w/b.md' },
      '/elsewhere/o.md': '',
    };
    expect(await filesOf(entries)).toEqual(['b.md', 'z.md']);
  });

  test('a link to a folder is not followed, a broken or circular one is reported', async () => {
    const entries = {
      '/w/a.md': '',
      '/w/loop': { link: '/w' },
      '/w/loop.md': { link: '/w' },
      '/w/out': { link: '/elsewhere' },
      '/elsewhere/b.md': '',
      '/w/gone.md': { link: '/nowhere' },
      '/w/ring.md': { link: '/w/ring.md' },
    };
    const read = await readProduct(createMemoryHost(entries), '/w', MARKDOWN);
    expect(read.documents.map(({ path }) => path)).toEqual(['a.md']);
    expect(read.unreadable).toEqual([
      { path: 'gone.md', reason: 'the link leads nowhere' },
      { path: 'ring.md', reason: 'its links go round in a circle' },
    ]);
  });

  test('what cannot be read or decoded is reported, and the rest is read', async () => {
    const entries = {
      '/w/a.md': 'text',
      '/w/b.md': { unreadable: 'permission denied' },
      '/w/c.md': Uint8Array.of(0xff),
      '/w/d.md': 'x'.repeat(2_000_001),
      '/w/e.md': 'x'.repeat(2_000_000),
    };
    const read = await readProduct(createMemoryHost(entries), '/w', MARKDOWN);
    expect(read.unreadable).toEqual([{ path: 'b.md', reason: 'permission denied' }]);
    expect(read.documents.map(({ path, problem }) => [path, problem?.code ?? null])).toEqual([
      ['a.md', null],
      ['c.md', 'bad-encoding'],
      ['d.md', 'too-large'],
      ['e.md', null],
    ]);
  });

  test('a folder that is not there is reported', async () => {
    const read = await readProduct(createMemoryHost(), '/w', MARKDOWN);
    expect(read.unreadable).toEqual([{ path: '.', reason: 'there is no such file or folder' }]);
  });
});

describe('ignored files', () => {
  test('a file in a folder of its own wins over those above, the last rule over those before', async () => {
    const entries = {
      '/w/.gitignore': '*.md\n!keep.md\n/only-here.txt\n',
      '/w/a.md': '',
      '/w/keep.md': '',
      '/w/only-here.txt': '',
      '/w/x/only-here.txt': '',
      '/w/x/.gitignore': '!a.md\n',
      '/w/x/a.md': '',
      '/w/x/y/a.md': '',
    };
    expect(await filesOf(entries, { include: ['**'], exclude: ['**/.gitignore'] })).toEqual([
      'keep.md',
      'x/a.md',
      'x/only-here.txt',
      'x/y/a.md',
    ]);
  });

  test('rules above the product count up to the top of its repository', async () => {
    const entries = {
      '/.gitignore': '*.md',
      '/w/.git/HEAD': '',
      '/w/.git/info/exclude': 'private.md',
      '/w/.gitignore': 'product/b.md',
      '/w/product/a.md': '',
      '/w/product/b.md': '',
      '/w/product/private.md': '',
    };
    expect(await filesOf(entries, MARKDOWN, '/w/product')).toEqual(['a.md']);
  });

  test('a product that is itself ignored is read all the same', async () => {
    const entries = {
      '/w/.git/HEAD': '',
      '/w/.gitignore': 'build',
      '/w/build/p/a.md': '',
      '/w/build/p/.gitignore': 'b.md',
      '/w/build/p/b.md': '',
    };
    expect(await filesOf(entries, MARKDOWN, '/w/build/p')).toEqual(['a.md']);
    expect(await filesOf(entries, MARKDOWN, '/w')).toEqual([]);
  });

  test('rules do not reach into a repository inside', async () => {
    const entries = {
      '/w/.git/HEAD': '',
      '/w/.gitignore': 'a.md',
      '/w/sub/.git': '',
      '/w/sub/a.md': '',
      '/w/a.md': '',
    };
    expect(await filesOf(entries)).toEqual(['sub/a.md']);
  });

  test('an ignored configuration makes no product', async () => {
    const entries = { '/w/.gitignore': 'plimsoll.yaml', '/w/x/plimsoll.yaml': '', '/w/x/a.md': '' };
    expect(await filesOf(entries)).toEqual(['x/a.md']);
  });
});

describe('writing', () => {
  const bytes = (text: string) => new TextEncoder().encode(text);

  test('a new file, once', async () => {
    const host = createMemoryHost({ '/w/a.md': '' });
    expect(await host.writeFile('/w/b.md', 'one', { type: 'absent' })).toEqual({ type: 'written' });
    expect(await host.writeFile('/w/b.md', 'two', { type: 'absent' })).toMatchObject({ type: 'refused' });
    expect(await host.writeFile('/x/b.md', 'two', { type: 'absent' })).toMatchObject({ type: 'failed' });
    expect(await host.readFile('/w/b.md')).toEqual({ type: 'bytes', bytes: bytes('one') });
  });

  test('over what was read, and only that', async () => {
    const host = createMemoryHost({ '/w/a.md': 'one' });
    expect(await host.writeFile('/w/a.md', 'x', { type: 'unchanged', bytes: bytes('other') })).toMatchObject({
      type: 'refused',
    });
    expect(await host.writeFile('/w/a.md', 'two', { type: 'unchanged', bytes: bytes('one') })).toEqual({
      type: 'written',
    });
    expect(await host.writeFile('/w/a.md', 'three', { type: 'always' })).toEqual({ type: 'written' });
  });
});

test('the clock stands still, in UTC', () => {
  expect(today(createMemoryHost({}, '2027-03-31T23:59:59Z'))).toBe('2027-03-31');
  expect(today(createMemoryHost())).toBe('2026-01-01');
});

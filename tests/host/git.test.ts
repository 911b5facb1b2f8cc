/** Listing with git and listing by walking agree, whatever the repository looks like. */
import { rmSync, symlinkSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Listing } from '../../server/host';
import { createNodeHost } from '../../server/host-node';
import { unreadableFolders } from '../../server/host-node-git';
import { addFiles, git, temporaryFolder } from '../support/folder';

const isWanted = (path: string) => path.endsWith('.md');

/** Lists both ways, requires that they agree, and gives the one. */
async function list(folder: string): Promise<Listing> {
  const [asked, walked] = await Promise.all(
    [true, false].map((git) => createNodeHost({ git }).listFiles(folder, isWanted)),
  );
  expect(walked).toEqual(asked);
  return asked as Listing;
}

function repository(files: Readonly<Record<string, string>>): string {
  const folder = temporaryFolder(files);
  git(folder, 'init', '--quiet');
  return folder;
}

describe('a repository', () => {
  test('tracked, changed, new, deleted and ignored files', async () => {
    const folder = repository({ 'a.md': '', 'gone.md': '', '.gitignore': 'b*.md\n', 'x/.gitignore': '!b2.md\n' });
    git(folder, 'add', '.');
    git(folder, 'commit', '--quiet', '-m', 'first');
    rmSync(join(folder, 'gone.md'));
    addFiles(folder, { 'b1.md': '', 'x/b2.md': '', 'x/b3.md': '', 'new é.md': '', 'a\tb.md': '' });
    expect((await list(folder)).files).toEqual(['a\tb.md', 'a.md', 'new é.md', 'x/b2.md']);
  });

  test('a product in a folder of it', async () => {
    const folder = repository({
      '.gitignore': 'drafts/\n/p/b.md\n',
      'p/a.md': '',
      'p/b.md': '',
      'p/drafts/c.md': '',
      'q.md': '',
    });
    expect((await list(join(folder, 'p'))).files).toEqual(['a.md']);
  });

  test('a product in an ignored folder of it is read all the same', async () => {
    const folder = repository({
      '.gitignore': 'out\n*.md\n',
      'out/p/a.md': '',
      'out/p/.gitignore': 'b.md',
      'out/p/b.md': '',
    });
    expect((await list(join(folder, 'out', 'p'))).files).toEqual(['a.md']);
  });

  test('products inside, packages and hidden folders', async () => {
    const files = {
      'plimsoll.yaml': '',
      'in/plimsoll.yaml': '',
      'in/a.md': '',
      'in/deep/plimsoll.yaml': '',
      'node_modules/b.md': '',
    };
    const folder = repository({ ...files, '.x/plimsoll.yaml': '', '.x/c.md': '', 'd/.e.md': '' });
    expect(await list(folder)).toEqual({ files: ['d/.e.md'], nested: ['in'], unreadable: [] });
  });

  test('a configuration that was deleted makes no product', async () => {
    const folder = repository({ 'in/plimsoll.yaml': '', 'in/a.md': '' });
    git(folder, 'add', '.');
    rmSync(join(folder, 'in', 'plimsoll.yaml'));
    expect(await list(folder)).toMatchObject({ files: ['in/a.md'], nested: [] });
  });

  test('repositories inside, new or as submodules, are read by their own rules', async () => {
    const folder = repository({ '.gitignore': 'a.md\n' });
    for (const name of ['new', 'tracked', 'product', 'node_modules']) {
      addFiles(folder, { [`${name}/a.md`]: '', [`${name}/b.md`]: '', [`${name}/.gitignore`]: 'b.md\n' });
      git(join(folder, name), 'init', '--quiet');
      git(join(folder, name), 'add', '.');
      git(join(folder, name), 'commit', '--quiet', '-m', 'first');
    }
    addFiles(folder, { 'product/plimsoll.yaml': '' });
    git(folder, 'add', 'tracked');
    expect(await list(folder)).toEqual({ files: ['new/a.md', 'tracked/a.md'], nested: ['product'], unreadable: [] });
  });

  test('a file in conflict is listed once', async () => {
    const folder = repository({ 'a.md': 'one' });
    git(folder, 'add', '.');
    git(folder, 'commit', '--quiet', '-m', 'one');
    git(folder, 'branch', 'side');
    addFiles(folder, { 'a.md': 'two' });
    git(folder, 'commit', '--quiet', '-am', 'two');
    git(folder, 'checkout', '--quiet', 'side');
    addFiles(folder, { 'a.md': 'three' });
    git(folder, 'commit', '--quiet', '-am', 'three');
    expect(() => git(folder, 'merge', '--quiet', '-')).toThrow();
    expect((await list(folder)).files).toEqual(['a.md']);
  });

  test.runIf(process.platform !== 'win32')('links, tracked and new', async () => {
    const folder = repository({ 'a.md': '', 'f/b.md': '' });
    symlinkSync('a.md', join(folder, '0.md'));
    git(folder, 'add', '.');
    symlinkSync('a.md', join(folder, '1.md'));
    symlinkSync('f', join(folder, 'folder.md'));
    symlinkSync('none', join(folder, 'gone.md'));
    expect(await list(folder)).toEqual({
      files: ['a.md', 'f/b.md'],
      nested: [],
      unreadable: [{ path: 'gone.md', reason: 'the link leads nowhere' }],
    });
  });

  test('an empty one, and one whose git folder is broken', async () => {
    expect((await list(repository({}))).files).toEqual([]);
    expect((await list(temporaryFolder({ '.git/HEAD': 'nonsense', 'a.md': '' }))).files).toEqual(['a.md']);
  });
});

test('variables of a hook that belong to another repository are not heard', async () => {
  const folder = repository({ 'a.md': '' });
  const other = repository({ 'b.md': '' });
  process.env.GIT_DIR = join(other, '.git');
  try {
    expect((await list(folder)).files).toEqual(['a.md']);
  } finally {
    delete process.env.GIT_DIR;
  }
});

test.runIf(process.platform !== 'win32')('a repository starts no program of its own', async () => {
  const folder = repository({ 'a.md': '' });
  addFiles(folder, { 'run.sh': `#!/bin/sh\ntouch ${join(folder, 'ran.md')}\n` });
  git(folder, 'config', 'core.fsmonitor', `sh ${join(folder, 'run.sh')}`);
  expect((await list(folder)).files).toEqual(['a.md']);
});

test('agree on random .gitignore files', async () => {
  const segments = [
    'a',
    'b',
    'c.md',
    'a b',
    'A',
    '[a]',
    '#a',
    '!b',
    '*',
    '**',
    '?',
    'a*',
    '*.md',
    '[ab]',
    '\\!b',
    '\\#a',
    'b ',
  ];
  const pattern = fc
    .tuple(
      fc.constantFrom('', '', '!'),
      fc.constantFrom('', '', '/'),
      fc.array(fc.constantFrom(...segments), { minLength: 1, maxLength: 3 }),
      fc.constantFrom('', '', '/'),
    )
    .map(([not, start, names, end]) => not + start + names.join('/') + end);
  const rules = fc.array(pattern, { maxLength: 4 }).map((lines) => lines.join('\n'));
  const name = fc.constantFrom('a', 'b', 'a b', 'A', '[a]', '#a', '!b');
  const folder = fc.array(name, { maxLength: 3 }).map((names) => names.map((each) => `${each}/`).join(''));
  const files = fc.array(fc.tuple(folder, fc.constantFrom('a.md', 'b.md', 'c.md', 'A.md')), {
    minLength: 4,
    maxLength: 10,
  });
  const ignores = fc.array(fc.tuple(folder, rules), { minLength: 1, maxLength: 3 });
  // One repository with a folder for each case, since starting git is what takes the time.
  const cases = fc.sample(fc.tuple(files, ignores), { numRuns: 40 });
  const contents = cases.flatMap(([files, ignores], index) => [
    ...files.map(([path, file]) => [`${index}/${path}${file}`, ''] as const),
    ...ignores.map(([path, text]) => [`${index}/${path}.gitignore`, text] as const),
  ]);
  const { files: listed } = await list(repository(Object.fromEntries(contents)));
  expect(listed.length).toBeGreaterThan(30);
  expect(listed.length).toBeLessThan(contents.length - 30);
});

test('folders that git could not open are reported', () => {
  const errors = "warning: could not open directory 'locked/in/': Permission denied\nhint: other\n";
  expect(unreadableFolders(errors)).toEqual([{ path: 'locked/in', reason: 'permission denied' }]);
});

describe('what git knows of a folder', () => {
  const host = createNodeHost({ git: true });

  test('its place below the top, its commit, and whether a file of a product differs from it', async () => {
    const folder = repository({ 'p/a.md': 'a', 'p/b.txt': 'b', 'q/c.md': 'c' });
    expect(await host.repository(join(folder, 'p'))).toEqual({ prefix: 'p/', revision: null, isModified: true });
    git(folder, 'add', '.');
    git(folder, 'commit', '--quiet', '-m', 'first');
    const revision = git(folder, 'rev-parse', 'HEAD').trim();
    expect(await host.repository(join(folder, 'p'))).toEqual({ prefix: 'p/', revision, isModified: false });
    addFiles(folder, { 'p/b.txt': 'other', 'q/c.md': 'other' });
    expect(await host.repository(join(folder, 'p'))).toMatchObject({ isModified: false });
    expect(await host.repository(folder)).toEqual({ prefix: '', revision, isModified: true });
    addFiles(folder, { 'p/new.csv': '' });
    expect(await host.repository(join(folder, 'p'))).toMatchObject({ isModified: true });
  });

  test('nothing in no repository, and where it may not be asked', async () => {
    expect(await host.repository(temporaryFolder())).toBeNull();
    expect(await createNodeHost({ git: false }).repository(repository({ 'a.md': '' }))).toBeNull();
  });
});

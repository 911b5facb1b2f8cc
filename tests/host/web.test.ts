/** The host whose files somebody else hands over: the same listing rules, and links that nobody can follow. */
import { expect, test } from 'vitest';
import type { FileKind } from '../../server/host';
import type { FolderEntry } from '../../server/host-walk';
import { createWebHost, type RemoteFiles } from '../../server/host-web';
import { NO_FILES } from '../../server/lsp/remote-files';

const FOLDERS: Readonly<Record<string, readonly FolderEntry[]>> = {
  'shelf:/p': [
    { name: 'z.md', kind: 'file' },
    { name: 'a.md', kind: 'file' },
    { name: 'in', kind: 'folder' },
    { name: '.gitignore', kind: 'file' },
    { name: 'linked.md', kind: 'link' },
    { name: 'linked', kind: 'link' },
    { name: 'broken.md', kind: 'link' },
  ],
  'shelf:/p/in': [
    { name: 'b.md', kind: 'file' },
    { name: 'old.md', kind: 'file' },
  ],
};
const KINDS: Readonly<Record<string, FileKind>> = { 'shelf:/p/linked.md': 'file', 'shelf:/p/linked': 'folder' };

const files: RemoteFiles = {
  readFile: async (path) =>
    path.endsWith('.gitignore')
      ? { type: 'bytes', bytes: new TextEncoder().encode('old.md\n') }
      : { type: 'unreadable', reason: 'permission denied' },
  readFolder: async (path) => FOLDERS[path] ?? { reason: 'there is no such file or folder' },
  stat: async (path) => KINDS[path] ?? null,
};
const markdown = (path: string) => path.endsWith('.md');

test('files are listed in order, ignored ones left out; a link to a file is said to be left out', async () => {
  expect(await createWebHost(files).listFiles('shelf:/p', markdown)).toEqual({
    files: ['a.md', 'in/b.md', 'z.md'],
    nested: [],
    unreadable: [
      { path: 'broken.md', reason: 'the link leads nowhere' },
      { path: 'linked.md', reason: 'it is a link, and the editor does not tell where it leads' },
    ],
  });
});

test('what cannot be had is said; nothing is written and git is not asked', async () => {
  const host = createWebHost(files);
  expect(await host.readFile('shelf:/p/a.md')).toEqual({ type: 'unreadable', reason: 'permission denied' });
  expect((await host.listFiles('shelf:/q', markdown)).unreadable).toEqual([
    { path: '.', reason: 'there is no such file or folder' },
  ]);
  expect((await host.writeFile('shelf:/p/a.md', '', { type: 'always' })).type).toBe('failed');
  expect(await host.repository('shelf:/p')).toBeNull();
  expect(await createWebHost(NO_FILES).stat('shelf:/p')).toBeNull();
});

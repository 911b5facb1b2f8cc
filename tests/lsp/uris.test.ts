/** One file has one key, whatever spelling a client uses; the client gets its own spelling back. */
import { describe, expect, test } from 'vitest';
import { createUris } from '../../server/lsp/uris';

test.each([
  ['file:///w/a.md', '/w/a.md'],
  ['file:///w/a%20b.md', '/w/a b.md'],
  ['file:///w/%C3%A4.md', '/w/ä.md'],
  ['FILE:///w/a.md', '/w/a.md'],
  ['file://localhost/w/a.md', '/w/a.md'],
  ['file:/w/a.md', '/w/a.md'],
  ['file:///w/', '/w'],
  ['file:///', '/'],
  ['file:///c%3A/a.md', 'C:/a.md'],
  ['file:///C:/a.md', 'C:/a.md'],
  ['file:///c:', 'C:/'],
  ['file://server/share/a.md', '//server/share/a.md'],
  ['file:///w/100%.md', '/w/100%.md'],
  ['file:///w/a%FF.md', '/w/a%FF.md'],
  ['untitled:Untitled-1', 'untitled:Untitled-1'],
])('%s is %s', (uri, key) => {
  expect(createUris().keyOf(uri)).toBe(key);
});

test.each(['git:/w/a.md', 'output:x', 'vscode-vfs://host/a.md', 'no scheme'])('%s takes no part', (uri) => {
  expect(createUris().keyOf(uri)).toBeNull();
});

test('a folder of another scheme brings its documents in', () => {
  const uris = createUris();
  uris.allow('vscode-vfs');
  expect(uris.keyOf('vscode-vfs://host/w/a%20b.md')).toBe('vscode-vfs://host/w/a b.md');
  expect(uris.uriOf('vscode-vfs://host/w/a b.md')).toBe('vscode-vfs://host/w/a%20b.md');
});

describe('back on the wire', () => {
  test.each([
    ['/w/a b.md', 'file:///w/a%20b.md'],
    ['C:/w/a.md', 'file:///c%3A/w/a.md'],
    ['//server/share/a.md', 'file://server/share/a.md'],
  ])('%s is %s', (key, uri) => {
    expect(createUris().uriOf(key)).toBe(uri);
    expect(createUris().keyOf(uri)).toBe(key);
  });

  test.each(['file:///', 'memory:/', 'file:///c%3A/'])('%s, the top of a file system, stays what it is', (uri) => {
    const uris = createUris();
    uris.allow('memory');
    uris.learn(uri);
    const key = uris.keyOf(uri) ?? '';
    expect(uris.uriOf(key)).toBe(uri);
    expect(uris.uriOf(`${key}a b.md`)).toBe(`${uri}a%20b.md`);
  });

  test('the client’s own spelling of a folder holds for all that is in it', () => {
    const uris = createUris();
    uris.learn('file:///D:/Work%20Shop/');
    expect(uris.uriOf('D:/Work Shop/a b.md')).toBe('file:///D:/Work%20Shop/a%20b.md');
  });
});

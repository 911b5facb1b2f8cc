/** A client spells a folder otherwise than the server did before it was told: from then on its spelling alone is used. */
import { expect, test } from 'vitest';
import { Ledger } from '../../server/lsp/ledger';
import { createUris } from '../../server/lsp/uris';
import { type Diagnostic, finish, startClient } from '../support/language-client';

const FILES = {
  'plimsoll.yaml': '',
  'p.md': '---\nrequirements: Test\n---\n## P-1 Power\n\nIt shall draw no more than 60 W (`draw`).\n',
  'd.md': '---\nfacts:\n  draw: 65 W\n---\n',
};

interface Published {
  readonly uri: string;
  readonly diagnostics: readonly Diagnostic[];
}

/** The same folder: RFC 3986, 2.3 has a letter and its percent-encoding mean one thing. */
function spelledOtherwise(uri: string): string {
  const at = uri.lastIndexOf('/') + 1;
  return `${uri.slice(0, at)}%${uri.charCodeAt(at).toString(16)}${uri.slice(at + 1)}`;
}

test('a folder that is added later brings its spelling, and what was shown under the one of before is cleared', async () => {
  const client = await startClient(FILES, { folders: [], capabilities: { workspace: { workspaceFolders: true } } });
  client.open('p.md', FILES['p.md']);
  expect(await client.diagnostics('d.md')).not.toEqual([]);
  await client.diagnostics('p.md');
  const folder = spelledOtherwise(client.uri());
  const event = { added: [{ uri: folder, name: 'again' }], removed: [] };
  client.notify('workspace/didChangeWorkspaceFolders', { event });
  expect(await client.diagnostics('d.md')).toEqual([]);
  const publishedAs = ({ uri }: Published) => uri === `${folder}/d.md`;
  expect((await client.next<Published>('textDocument/publishDiagnostics', publishedAs)).diagnostics).not.toEqual([]);
  const pointsThere = ({ diagnostics }: Published) =>
    diagnostics.some(({ relatedInformation }) =>
      relatedInformation?.some(({ location }) => location.uri === `${folder}/d.md`),
    );
  await client.next<Published>('textDocument/publishDiagnostics', pointsThere);
  await finish(client);
});

test('every spelling that is learned is told apart from what was known before', () => {
  const uris = createUris();
  const before = uris.learned;
  uris.learn('file:///c%3A/w');
  expect(uris.learned).not.toBe(before);
});

test('the ledger clears one spelling before it shows the other, for clients to which both are one', () => {
  const ledger = new Ledger();
  const range = { start: { line: 0, character: 0 }, end: { line: 0, character: 1 } };
  const as = (uri: string) => new Map([['C:/w/p.md', { uri, version: 1, diagnostics: [{ range, message: 'wrong' }] }]]);
  ledger.replace('C:/w', as('file:///c%3A/w/p.md'));
  const sent = ledger.replace('C:/w', as('file:///C:/w/p.md'));
  expect(sent.map(({ uri, diagnostics }) => [uri, diagnostics.length])).toEqual([
    ['file:///c%3A/w/p.md', 0],
    ['file:///C:/w/p.md', 1],
  ]);
});

/** Requests wait until what they ask about was read; none for ever. */
import { expect, test } from 'vitest';
import { CancellationToken } from 'vscode-languageserver';
import { Reading } from '../../server/lsp/reading';
import { finish, type LanguageClient, startClient } from '../support/language-client';

const FILES = {
  'p.md': '---\nrequirements: Test\n---\n## P-1 Power\n\nIt shall draw no more than 60 W (`draw`).\n',
  'd.md': '---\nfacts:\n  draw: 65 W\n---\n',
};
const NAME = { line: 5, character: 34 };
const CANCELLED = -32800;

const requests = (client: LanguageClient, path: string) => {
  const textDocument = { uri: client.uri(path) };
  const all = { start: { line: 0, character: 0 }, end: { line: 6, character: 0 } };
  const at = { textDocument, position: NAME };
  return {
    hover: at,
    completion: at,
    definition: at,
    implementation: { textDocument, position: { line: 3, character: 4 } },
    references: { ...at, context: { includeDeclaration: true } },
    documentHighlight: at,
    prepareRename: at,
    rename: { ...at, newName: 'load' },
    documentSymbol: { textDocument },
    foldingRange: { textDocument },
    documentLink: { textDocument },
    inlayHint: { textDocument, range: all },
    codeLens: { textDocument },
    codeAction: { textDocument, range: all, context: { diagnostics: [] } },
    'semanticTokens/full': { textDocument },
    diagnostic: { textDocument },
  };
};

/** Result ids are others each time. */
const withoutNumbers = (answers: readonly unknown[]): unknown =>
  JSON.parse(JSON.stringify(answers, (key, value) => (key === 'resultId' ? undefined : value)));

test('whatever is asked before the first scan is complete gets the answer that comes after it', async () => {
  const askAll = (client: LanguageClient) =>
    Promise.all([
      ...Object.entries(requests(client, 'p.md')).map(([name, params]) => client.ask(`textDocument/${name}`, params)),
      client.ask('workspace/symbol', { query: 'draw' }),
    ]);
  const client = await startClient(FILES);
  const early = await askAll(client);
  await client.ask('plimsoll/requirements', { uri: client.uri() });
  await client.diagnostics('p.md');
  await client.diagnostics('d.md');
  expect(withoutNumbers(early)).toEqual(withoutNumbers(await askAll(client)));
  expect(early).not.toContain(null);
  await finish(client);
});

test('a document that no folder holds is answered for as soon as it was opened', async () => {
  const client = await startClient(FILES, { folders: [] });
  await client.ask('workspace/symbol', { query: '' });
  client.open('p.md', FILES['p.md']);
  const textDocument = { uri: client.uri('p.md') };
  expect(await client.ask('textDocument/documentSymbol', { textDocument })).toMatchObject([{ name: 'P-1 Power' }]);
  await client.diagnostics('p.md');
  await finish(client);
});

test('what belongs to no product is answered with nothing, at once', async () => {
  const client = await startClient(FILES);
  const { hover } = requests(client, '../elsewhere.md');
  expect(await client.ask('textDocument/hover', hover)).toBeNull();
  await client.diagnostics('p.md');
  await client.diagnostics('d.md');
  await finish(client);
});

test('a scan that waits for ever keeps nobody who cancels, nor one that shuts down', async () => {
  const answerRequest = () => new Promise(() => undefined);
  const client = await startClient(FILES, { options: { host: true }, answerRequest });
  const { hover, codeLens } = requests(client, 'p.md');
  const cancelled = client.askRaw('textDocument/hover', hover);
  client.cancelLast();
  expect((await cancelled).error?.code).toBe(CANCELLED);
  const pull = client.askRaw('textDocument/diagnostic', { textDocument: hover.textDocument });
  client.cancelLast();
  expect((await pull).error?.code).toBe(CANCELLED);
  const lenses = client.askRaw('textDocument/codeLens', codeLens);
  const tree = client.askRaw('plimsoll/requirements', { uri: client.uri() });
  const ended = finish(client);
  expect((await lenses).error?.code).toBe(CANCELLED);
  expect((await tree).error?.code).toBe(CANCELLED);
  await ended;
});

test('a scan that fails is logged, and whoever waited goes on', async () => {
  const logged: string[] = [];
  const reading = new Reading((mistake) => logged.push(mistake));
  void reading.enqueue(() => Promise.reject(new Error('no such disk')));
  await reading.settled(CancellationToken.None);
  expect(logged).toEqual([expect.stringContaining('no such disk')]);
});

test('a folder that nobody can read leaves whoever waited with nothing', async () => {
  const client = await startClient(FILES, { options: { host: true }, answerRequest: () => ({}) });
  const { hover } = requests(client, 'p.md');
  expect(await client.ask('textDocument/hover', hover)).toBeNull();
  await finish(client);
});

test.each([
  ['never agrees', () => new Promise(() => undefined)],
  ['refuses', () => Promise.reject(new Error('no'))],
])('progress that the client %s to keeps no file from being read', async (_how, answerRequest) => {
  const client = await startClient(FILES, { capabilities: { window: { workDoneProgress: true } }, answerRequest });
  const { hover } = requests(client, 'p.md');
  expect(await client.ask('textDocument/hover', hover)).not.toBeNull();
  await client.diagnostics('p.md');
  await client.diagnostics('d.md');
  await finish(client);
});

test('a pulled workspace report that waits for a change ends when the server shuts down', async () => {
  const client = await startClient(FILES, { capabilities: { textDocument: { diagnostic: {} } } });
  type Report = { readonly items: readonly { readonly uri: string; readonly resultId: string }[] };
  const first = await client.ask<Report>('workspace/diagnostic', { previousResultIds: [] });
  const previousResultIds = first.items.map(({ uri, resultId }) => ({ uri, value: resultId }));
  const waiting = client.ask<Report>('workspace/diagnostic', { previousResultIds });
  const ended = finish(client);
  expect((await waiting).items).toEqual([]);
  await ended;
});

/** An answer full of places is not given for a text that has become another meanwhile. */

import { expect, test } from 'vitest';
import { CancellationToken } from 'vscode-languageserver';
import { forSameText } from '../../server/lsp/same-text';
import { createUris } from '../../server/lsp/uris';

const uri = 'file:///w/a.md';
const stateAt = (version: number) => ({
  uris: createUris(),
  buffers: new Map([['/w/a.md', { uri, version, text: '' }]]),
});

test('the same text: the answer is given', async () => {
  const ask = forSameText(stateAt(1), async () => 'tokens');
  expect(await ask({ textDocument: { uri } }, CancellationToken.None)).toBe('tokens');
  expect(await ask({ textDocument: { uri: 'file:///w/closed.md' } }, CancellationToken.None)).toBe('tokens');
  expect(await ask({}, CancellationToken.None)).toBe('tokens');
});

test('another text: the client is told that it changed (Language Server Protocol 3.17, error −32801)', async () => {
  const state = stateAt(1);
  const ask = forSameText(state, async () => {
    state.buffers.set('/w/a.md', { uri, version: 2, text: 'longer' });
    return 'tokens';
  });
  await expect(ask({ textDocument: { uri } }, CancellationToken.None)).rejects.toMatchObject({ code: -32801 });
});

/** The protocol itself over real standard input and output: start, end, wrong messages, pull, files, folders. */
import { mkdirSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, onTestFinished, test } from 'vitest';
import packageJson from '../../package.json' with { type: 'json' };
import { VERSION } from '../../server/lsp/server';
import { temporaryFolder } from '../support/folder';
import { type Diagnostic, finish, initialize, LanguageClient, startClient } from '../support/language-client';

const requirement = (id: string, name: string, limit = '60 W') =>
  `---\nrequirements: Test\n---\n## ${id} Power\n\nThe product shall draw no more than ${limit} (\`${name}\`).\n`;
const design = (name: string, draw: string) => `---\nfacts:\n  ${name}: ${draw}\n---\n`;
const FILES = { 'p.md': requirement('P-1', 'draw'), 'd.md': design('draw', '65 W') };
const codesOf = (diagnostics: readonly Diagnostic[]) => diagnostics.map(({ code }) => code);

interface Report {
  readonly kind: string;
  readonly resultId?: string;
  readonly items: readonly Diagnostic[];
}

const PULLS = { textDocument: { diagnostic: {} }, workspace: { diagnostics: { refreshSupport: true } } };

test('the version is the package’s', () => {
  expect(VERSION).toBe(packageJson.version);
});

test('requests before initialize and unknown ones are answered, unknown notifications are passed over', async () => {
  const client = new LanguageClient(temporaryFolder(FILES));
  onTestFinished(() => client.stop());
  expect((await client.askRaw('textDocument/hover', {})).error?.code).toBe(-32002);
  await initialize(client, { folders: [] });
  expect((await client.askRaw('initialize', { capabilities: {} })).error?.code).toBe(-32600);
  expect((await client.askRaw('textDocument/noSuchThing', {})).error?.code).toBe(-32601);
  client.notify('$/setTrace', { value: 'off' });
  client.notify('noSuchNotification', { a: 1 });
  client.notify('textDocument/didChange', {
    textDocument: { uri: client.uri('x.md'), version: 3 },
    contentChanges: [],
  });
  client.notify('textDocument/didClose', { textDocument: { uri: client.uri('x.md') } });
  expect(
    await client.ask('textDocument/hover', { textDocument: { uri: 'git:/x.md' }, position: { line: 0, character: 0 } }),
  ).toBeNull();
  await finish(client);
});

test('malformed parameters are an error answer or a logged line, and the server lives', async () => {
  const client = await startClient(FILES);
  for (const method of ['hover', 'definition', 'completion', 'rename', 'codeAction', 'inlayHint', 'diagnostic'])
    expect((await client.askRaw(`textDocument/${method}`, {})).error).toBeDefined();
  client.notify('textDocument/didOpen', {});
  client.notify('workspace/didChangeWatchedFiles', { changes: 3 });
  const hover = { textDocument: { uri: client.uri('p.md') }, position: { line: -5, character: 1e9 } };
  expect((await client.askRaw('textDocument/hover', hover)).error).toBeUndefined();
  await client.diagnostics('p.md');
  await client.diagnostics('d.md');
  await finish(client);
});

test('when the client’s output ends the server ends', async () => {
  const client = await startClient(FILES);
  client.endInput();
  expect(await client.exited()).toBe(1);
});

test('pulled diagnostics have a result id and are unchanged until something changes', async () => {
  const client = await startClient(FILES, { capabilities: PULLS });
  const textDocument = { uri: client.uri('p.md') };
  const first = await client.ask<Report>('textDocument/diagnostic', { textDocument });
  expect(codesOf(first.items)).toContain('unmet');
  const again = { textDocument, previousResultId: first.resultId };
  expect((await client.ask<Report>('textDocument/diagnostic', again)).kind).toBe('unchanged');
  client.open('d.md', FILES['d.md']);
  client.change('d.md', design('draw', '45 W'));
  const changed = await client.ask<Report>('textDocument/diagnostic', again);
  expect(changed.kind).toBe('full');
  expect(codesOf(changed.items)).not.toContain('unmet');
  await finish(client);
});

test('pulled diagnostics of the workspace come for what is other, and wait while nothing is', async () => {
  const client = await startClient(FILES, { capabilities: PULLS });
  type Workspace = { readonly items: readonly (Report & { readonly uri: string })[] };
  const first = await client.ask<Workspace>('workspace/diagnostic', { previousResultIds: [] });
  expect(first.items.map(({ uri }) => uri).sort()).toEqual([client.uri('d.md'), client.uri('p.md')]);
  const previousResultIds = first.items.map(({ uri, resultId }) => ({ uri, value: resultId }));
  const next = client.ask<Workspace>('workspace/diagnostic', { previousResultIds });
  client.open('d.md', FILES['d.md']);
  client.change('d.md', design('draw', '45 W'));
  expect((await next).items.length).toBeGreaterThan(0);
  await finish(client);
});

test('UTF-8 positions are spoken where the client wants them', async () => {
  const text = requirement('P-1', 'draw').replace('The product', 'The 🐦é product');
  const client = await startClient(
    { 'p.md': text, 'd.md': design('draw', '65 W') },
    {
      capabilities: { general: { positionEncodings: ['utf-8', 'utf-16'] } },
    },
  );
  const unmet = (await client.diagnostics('p.md')).find(({ code }) => code === 'unmet');
  const line = text.split('\n')[5] ?? '';
  expect(unmet?.range.start.character).toBe(Buffer.byteLength(line.slice(0, line.indexOf('no more than'))));
  await client.diagnostics('d.md');
  await finish(client);
});

test('a deleted file takes its diagnostics with it, and dependants are judged anew', async () => {
  const client = await startClient(FILES);
  expect(codesOf(await client.diagnostics('p.md'))).toContain('unmet');
  await client.diagnostics('d.md');
  rmSync(join(client.folder, 'd.md'));
  client.notify('workspace/didChangeWatchedFiles', { changes: [{ uri: client.uri('d.md'), type: 3 }] });
  expect(await client.diagnostics('d.md')).toEqual([]);
  expect(codesOf(await client.diagnostics('p.md'))).not.toContain('unmet');
  await finish(client);
});

test('a renamed folder moves its findings', async () => {
  const client = await startClient({ 'a/p.md': FILES['p.md'], 'd.md': FILES['d.md'] });
  expect(codesOf(await client.diagnostics('a/p.md'))).toContain('unmet');
  await client.diagnostics('d.md');
  renameSync(join(client.folder, 'a'), join(client.folder, 'b'));
  client.notify('workspace/didRenameFiles', { files: [{ oldUri: client.uri('a'), newUri: client.uri('b') }] });
  expect(await client.diagnostics('a/p.md')).toEqual([]);
  expect(codesOf(await client.diagnostics('b/p.md'))).toContain('unmet');
  await client.diagnostics('d.md');
  await finish(client);
});

test('nested products share no names, and one more comes with its configuration', async () => {
  const files = { ...FILES, 'in/p.md': requirement('P-1', 'draw'), 'in/d.md': design('draw', '45 W') };
  const client = await startClient({ ...files, 'in/plimsoll.yaml': '' });
  expect(codesOf(await client.diagnostics('p.md'))).toContain('unmet');
  expect(codesOf(await client.diagnostics('in/p.md'))).not.toContain('duplicate-id');
  rmSync(join(client.folder, 'in/plimsoll.yaml'));
  client.notify('workspace/didChangeWatchedFiles', { changes: [{ uri: client.uri('in/plimsoll.yaml'), type: 3 }] });
  const isTwice = ({ diagnostics }: { readonly diagnostics: readonly Diagnostic[] }) =>
    codesOf(diagnostics).includes('duplicate-id');
  await client.next('textDocument/publishDiagnostics', isTwice);
  client.unread.length = 0;
  mkdirSync(join(client.folder, 'in'), { recursive: true });
  writeFileSync(join(client.folder, 'in/plimsoll.yaml'), '');
  client.notify('workspace/didChangeWatchedFiles', { changes: [{ uri: client.uri('in/plimsoll.yaml'), type: 1 }] });
  const isOnce = ({ diagnostics }: { readonly diagnostics: readonly Diagnostic[] }) =>
    codesOf(diagnostics).includes('unmet') && !codesOf(diagnostics).includes('duplicate-id');
  await client.next('textDocument/publishDiagnostics', isOnce);
});

test('folders come and go', async () => {
  const capabilities = { workspace: { workspaceFolders: true } };
  const client = await startClient(
    { 'a/p.md': FILES['p.md'], 'a/d.md': FILES['d.md'], 'b/p.md': FILES['p.md'], 'b/d.md': FILES['d.md'] },
    { folders: ['a'], capabilities },
  );
  await client.diagnostics('a/p.md');
  await client.diagnostics('a/d.md');
  const folder = (path: string) => ({ uri: client.uri(path), name: path });
  const event = { added: [folder('b')], removed: [folder('a')] };
  client.notify('workspace/didChangeWorkspaceFolders', { event });
  expect(codesOf(await client.diagnostics('b/p.md'))).toContain('unmet');
  expect(await client.diagnostics('a/p.md')).toEqual([]);
  await client.diagnostics('a/d.md');
  await client.diagnostics('b/d.md');
  await finish(client);
});

test('a document outside every folder, and one without a file, are products of their own', async () => {
  const client = await startClient(FILES, { folders: [] });
  const text = `---\nrequirements: Test\nfacts:\n  draw: 65 W\n---\n${requirement('P-1', 'draw').split('---\n')[2]}`;
  client.open('alone.md', text);
  expect(codesOf(await client.diagnostics('alone.md'))).toContain('unmet');
  const page = await client.ask<{ readonly folder: string }>('plimsoll/matrix', { uri: client.uri('alone.md') });
  expect(page.folder).toBe(client.uri());
  client.close('alone.md');
  expect(await client.diagnostics('alone.md')).toEqual([]);
  const textDocument = { uri: 'untitled:Untitled-1', languageId: 'markdown', version: 1, text };
  client.notify('textDocument/didOpen', { textDocument });
  await client.next('textDocument/publishDiagnostics');
  await finish(client);
});

test('a mistake in plimsoll.yaml is shown there, and the last good one stays in force', async () => {
  const client = await startClient({ ...FILES, 'plimsoll.yaml': 'severity: {unmet: hint}\n' });
  const unmet = (diagnostics: readonly Diagnostic[]) => diagnostics.find(({ code }) => code === 'unmet');
  expect(unmet(await client.diagnostics('p.md'))?.severity).toBe(4);
  await client.diagnostics('d.md');
  client.open('plimsoll.yaml', 'severity: {unmet: hint}\n');
  client.change('plimsoll.yaml', 'severity: {unmet: hint\n');
  const found = await client.diagnostics('plimsoll.yaml');
  expect(codesOf(found)).toContain('bad-configuration');
  client.change('plimsoll.yaml', 'severity: {unmet: warning}\n');
  expect(unmet(await client.diagnostics('p.md'))?.severity).toBe(2);
  expect(await client.diagnostics('plimsoll.yaml')).toEqual([]);
  await finish(client);
});

test('progress is shown for the first scan, and files are watched where the client can', async () => {
  const asked: string[] = [];
  const client = await startClient(FILES, {
    capabilities: {
      window: { workDoneProgress: true },
      workspace: { didChangeWatchedFiles: { dynamicRegistration: true } },
    },
    answerRequest: (method) => asked.push(method) && null,
  });
  await client.diagnostics('p.md');
  await client.diagnostics('d.md');
  await client.next<{ readonly value: { readonly kind: string } }>('$/progress', ({ value }) => value.kind === 'end');
  await client.quietFor(100);
  expect(asked).toEqual(expect.arrayContaining(['window/workDoneProgress/create', 'client/registerCapability']));
  await finish(client);
});

test('the matrix comes as a page, of unsaved text; a page that is not there yet is null', async () => {
  const client = await startClient(FILES, { capabilities: PULLS });
  client.open('d.md', FILES['d.md']);
  client.change('d.md', design('draw', '61 W'));
  const page = await client.ask<{ readonly html: string }>('plimsoll/matrix', { uri: client.uri('p.md') });
  expect(page.html).toContain('61 W');
  expect(await client.ask('plimsoll/options', { uri: client.uri('p.md') })).toBeNull();
  await finish(client);
});

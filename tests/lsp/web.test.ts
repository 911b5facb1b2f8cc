/** The server's build for browsers: it says what the one on Node says, of files that the client hands over. */
import { readdirSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { expect, onTestFinished, test } from 'vitest';
import { temporaryFolder } from '../support/folder';
import { initialize, LanguageClient } from '../support/language-client';
import { startWorkerClient, type WorkerClient } from '../support/worker-client';

const SAMPLE = join(import.meta.dirname, '..', '..', 'sample-workspace');
const PULLS = { textDocument: { diagnostic: {} } };

interface Item {
  readonly code: string;
}
interface Workspace {
  readonly items: readonly { readonly uri: string; readonly items: readonly Item[] }[];
}

function sampleFiles(): Readonly<Record<string, Uint8Array>> {
  const paths = readdirSync(SAMPLE, { recursive: true, encoding: 'utf8' });
  const files = paths.filter((path) => statSync(join(SAMPLE, path)).isFile());
  return Object.fromEntries(files.map((path) => [path, readFileSync(join(SAMPLE, path))]));
}

async function nodeClient(files: Readonly<Record<string, string | Uint8Array>>): Promise<LanguageClient> {
  const client = new LanguageClient(temporaryFolder(files));
  onTestFinished(() => client.stop());
  await initialize(client, { capabilities: PULLS });
  return client;
}

const codesIn = async (client: WorkerClient, path: string) => {
  const { items } = await client.ask<{ readonly items: readonly Item[] }>('textDocument/diagnostic', {
    textDocument: { uri: client.uri(path) },
  });
  return items.map(({ code }) => code);
};

type Client = Pick<WorkerClient, 'uri' | 'ask'>;

/** What is asked of both, by name. */
function questions(client: Client): readonly (readonly [method: string, params: object])[] {
  const uri = client.uri('requirements/power.md');
  const textDocument = { uri };
  return [
    ['workspace/diagnostic', { previousResultIds: [] }],
    ['plimsoll/requirements', { uri }],
    ['textDocument/codeLens', { textDocument }],
    ['textDocument/documentSymbol', { textDocument }],
    ['textDocument/hover', { textDocument, position: { line: 17, character: 60 } }],
  ];
}

/** One after the other, the same words whatever the folder is called. */
async function answersOf(client: Client): Promise<ReadonlyMap<string, unknown>> {
  const answers = new Map<string, unknown>();
  for (const [method, params] of questions(client)) {
    const text = JSON.stringify(await client.ask(method, params)).replaceAll(client.uri(), 'folder:');
    answers.set(method, JSON.parse(text.replaceAll(/"resultId":"[^"]*",?/g, '')));
  }
  return answers;
}

test('Tern has the same diagnostics, verdicts and hovers as on Node', async () => {
  const files = sampleFiles();
  const web = await startWorkerClient(files, { capabilities: PULLS });
  const found = await answersOf(web);
  web.stop();
  expect((found.get('workspace/diagnostic') as Workspace).items.flatMap(({ items }) => items).length).toBeGreaterThan(
    5,
  );
  expect([...found.values()]).not.toContain(null);
  expect(found).toEqual(await answersOf(await nodeClient(files)));
});

const requirement =
  '---\nrequirements: Test\n---\n## P-1 Power\n\nThe product shall draw no more than 60 W (`draw`).\n';
const design = (draw: string) => `---\nfacts:\n  draw: ${draw}\n---\n`;

test('an edit in one document marks another; a file that changes is read again; names are spelled as the client does', async () => {
  const client = await startWorkerClient({ 'r/p 1.md': requirement, 'd.md': design('45 W') }, { capabilities: PULLS });
  expect(await codesIn(client, 'r/p%201.md')).not.toContain('unmet');
  const textDocument = { uri: client.uri('d.md'), languageId: 'markdown', version: 1, text: design('65 W') };
  client.notify('textDocument/didOpen', { textDocument });
  expect(await codesIn(client, 'r/p%201.md')).toContain('unmet');
  client.notify('textDocument/didClose', { textDocument: { uri: client.uri('d.md') } });
  expect(await codesIn(client, 'r/p%201.md')).not.toContain('unmet');
  client.files.set('d.md', new TextEncoder().encode(design('75 W')));
  client.notify('workspace/didChangeWatchedFiles', { changes: [{ uri: client.uri('d.md'), type: 2 }] });
  expect(await codesIn(client, 'r/p%201.md')).toContain('unmet');
  const { requirements } = await client.ask<{ readonly requirements: readonly { readonly place: unknown }[] }>(
    'plimsoll/requirements',
    { uri: client.uri('d.md') },
  );
  expect(requirements[0]?.place).toMatchObject({ uri: client.uri('r/p%201.md') });
  const explained = { uri: client.uri('d.md'), name: 'P-1' };
  expect(await client.ask('plimsoll/explain', explained)).toMatchObject({ text: expect.stringContaining('unmet') });
});

test('tables in CSV, ignored files and configurations below are as on a disk', async () => {
  const table = '---\nparts: {from: load.csv, id: Name, fields: {power: Power}}\n---\n';
  const client = await startWorkerClient(
    {
      'p.md': requirement.replace('`draw`', '`sum(power over parts)`'),
      't.md': table,
      'load.csv': 'Name,Power\na,40 W\nb,30 W\n',
      '.gitignore': 'old/\n',
      'old/p.md': requirement,
      'in/plimsoll.yaml': '',
      'in/p.md': requirement,
    },
    { capabilities: PULLS },
  );
  const codes = await codesIn(client, 'p.md');
  expect(codes).toContain('unmet');
  expect(codes).not.toContain('duplicate-id');
  const { items } = await client.ask<Workspace>('workspace/diagnostic', { previousResultIds: [] });
  expect(items.map(({ uri }) => uri)).toContain(client.uri('in/p.md'));
  expect(items.map(({ uri }) => uri)).not.toContain(client.uri('old/p.md'));
});

test('a client that hands over no files is told so, and open documents are judged', async () => {
  const client = await startWorkerClient({}, { capabilities: PULLS, host: false });
  const text = requirement.replace('---\n##', 'facts:\n  draw: 65 W\n---\n##');
  client.notify('textDocument/didOpen', {
    textDocument: { uri: client.uri('p.md'), languageId: 'markdown', version: 1, text },
  });
  expect(await codesIn(client, 'p.md')).toContain('unmet');
  expect(JSON.stringify(client.messages)).toContain('only open documents are read');
});

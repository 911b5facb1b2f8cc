/** Over real standard input and output: code actions, lenses and renames as an editor with and without commands gets them. */
import { expect, test } from 'vitest';
import { finish, type LanguageClient, startClient } from '../support/language-client';

const REQUIREMENT = '---\nrequirements: Test\n---\n## P-1 Power\n\nIt shall draw no more than 60 W (`draw`).\n';
const design = (draw: string) => `---\nfacts:\n  draw: ${draw}\n---\nAfter P-1.\n`;
const FILES = { 'p.md': REQUIREMENT, 'd.md': design('65 W') };
const SENTENCE = { start: { line: 5, character: 14 }, end: { line: 5, character: 14 } };
const PULLS = {
  textDocument: { diagnostic: {} },
  workspace: {
    codeLens: { refreshSupport: true },
    inlayHint: { refreshSupport: true },
    workspaceEdit: { documentChanges: true, changeAnnotationSupport: {} },
  },
};

interface Action {
  readonly title: string;
  readonly kind: string;
  readonly command?: { readonly command: string; readonly arguments: readonly unknown[] };
  readonly edit?: { readonly changes: Readonly<Record<string, readonly { readonly newText: string }[]>> };
}

interface Lens {
  readonly command: { readonly title: string; readonly command: string; readonly arguments?: readonly unknown[] };
}

/** Once every file is read. */
async function opened(client: LanguageClient): Promise<LanguageClient> {
  client.open('p.md', REQUIREMENT);
  await client.ask('plimsoll/requirements', { uri: client.uri('p.md') });
  return client;
}

const actionsAt = (client: LanguageClient, only?: readonly string[]) =>
  client.ask<readonly Action[]>('textDocument/codeAction', {
    textDocument: { uri: client.uri('p.md') },
    range: SENTENCE,
    context: { diagnostics: [], ...(only !== undefined && { only }) },
  });
const lensesOf = (client: LanguageClient) =>
  client.ask<readonly Lens[]>('textDocument/codeLens', { textDocument: { uri: client.uri('p.md') } });

test('an editor without commands is offered edits alone', async () => {
  const client = await opened(await startClient(FILES, { capabilities: PULLS }));
  const actions = await actionsAt(client);
  expect(actions.filter(({ command }) => command !== undefined)).toEqual([]);
  const waiver = actions.find(({ title }) => title.startsWith('Waive'));
  expect(Object.keys(waiver?.edit?.changes ?? {})).toEqual([client.uri('p.md')]);
  expect((await lensesOf(client)).map(({ command }) => command.title)).toEqual(['unmet · margin -5 W · untested']);
  await finish(client);
});

test('an editor with trials is offered them, mends as quick fixes and the rest when it is looked for', async () => {
  const client = await opened(
    await startClient(FILES, { capabilities: PULLS, options: { commands: ['plimsoll.trial'] } }),
  );
  const uri = client.uri('p.md');
  await client.ask('plimsoll/explain', { uri, name: 'P-1' });
  const trials = (await actionsAt(client)).filter(({ command }) => command?.command === 'plimsoll.trial');
  expect(trials.map(({ title, kind }) => [title, kind])).toEqual([
    ['Try draw at 60 W, which P-1 needs', 'quickfix'],
    ['Try other figures for P-1', 'refactor'],
  ]);
  expect(trials[0]?.command?.arguments).toEqual([
    { uri, requirement: 'P-1', values: [{ name: 'draw', value: '60 W' }] },
  ]);
  expect((await actionsAt(client, ['refactor'])).map(({ title }) => title)).toEqual(['Try other figures for P-1']);
  expect((await actionsAt(client, ['source'])).map(({ title }) => title)).toEqual([]);
  expect((await lensesOf(client)).map(({ command }) => [command.title, command.arguments?.[0]])).toEqual([
    ['unmet · margin -5 W · untested', undefined],
    ['try other figures', { uri, requirement: 'P-1', values: [] }],
  ]);
  await finish(client);
});

test('lenses of another document follow an edit at once, and nothing is asked again where nothing is other', async () => {
  const asked: string[] = [];
  const client = await opened(
    await startClient(FILES, {
      capabilities: PULLS,
      answerRequest: (method) => asked.push(method) && null,
    }),
  );
  client.open('d.md', FILES['d.md']);
  await client.quietFor(1500);
  const refreshes = () => asked.filter((method) => method === 'workspace/codeLens/refresh').length;
  const before = refreshes();
  client.change('d.md', '45', { start: { line: 2, character: 8 }, end: { line: 2, character: 10 } });
  const start = Date.now();
  while (refreshes() === before && Date.now() - start < 900) await new Promise((resolve) => setTimeout(resolve, 20));
  expect(refreshes()).toBe(before + 1);
  expect((await lensesOf(client))[0]?.command.title).toBe('met · margin 15 W · untested');
  client.change('d.md', ' ', { start: { line: 4, character: 10 }, end: { line: 4, character: 10 } });
  await client.quietFor(600);
  expect(refreshes()).toBeLessThanOrEqual(before + 2);
  await finish(client);
});

interface Standing {
  readonly requirements: readonly { readonly verdict: string; readonly margin: string }[];
}

interface Summary {
  readonly products: readonly { readonly verdicts: Readonly<Record<string, number>> }[];
}

test('tree, lenses and summary hold a verdict for as long as diagnostics do, from the edit on', async () => {
  const client = await opened(await startClient({ ...FILES, 'd.md': design('45 W') }, { capabilities: PULLS }));
  const standing = async () => {
    const { requirements } = await client.ask<Standing>('plimsoll/requirements', { uri: client.uri() });
    return [requirements.map(({ verdict, margin }) => [verdict, margin]), (await lensesOf(client))[0]?.command.title];
  };
  const nextSummary = async (verdict: string) =>
    (await client.next<Summary>('plimsoll/summary', ({ products }) => verdict in (products[0]?.verdicts ?? {})))
      .products[0]?.verdicts;
  client.open('d.md', design('45 W'));
  await nextSummary('met');
  const held = [[['met', '…']], 'met · margin … · untested'];
  client.quiet.length = 0;
  client.change('d.md', design('4'));
  expect(await standing()).toEqual(held);
  expect(await nextSummary('met')).toEqual({ met: 1 });
  expect(await standing()).toEqual(held);
  expect(await nextSummary('undecided')).toEqual({ undecided: 1 });
  expect(await standing()).toEqual([[['undecided', '']], 'undecided · no margin · untested']);
  client.unread.length = 0;
  await finish(client);
});

interface RenameEdit {
  readonly changes?: Readonly<Record<string, readonly unknown[]>>;
  readonly documentChanges?: readonly {
    readonly textDocument: { readonly uri: string; readonly version: number | null };
    readonly edits: readonly { readonly newText: string; readonly annotationId?: string }[];
  }[];
  readonly changeAnnotations?: Readonly<Record<string, { readonly needsConfirmation: boolean }>>;
}

test.each([
  ['asks before prose is changed, where the client can', PULLS, true],
  ['leaves prose alone, where it cannot', {}, false],
])('a rename %s', async (_, capabilities, asks) => {
  const client = await opened(await startClient(FILES, { capabilities }));
  const edit = await client.ask<RenameEdit>('textDocument/rename', {
    textDocument: { uri: client.uri('p.md') },
    position: { line: 3, character: 4 },
    newName: 'P-9',
  });
  if (asks) {
    expect(edit.changeAnnotations?.mention?.needsConfirmation).toBe(true);
    expect(
      edit.documentChanges?.map(({ textDocument, edits }) => [
        textDocument.version,
        edits.map((one) => one.annotationId),
      ]),
    ).toEqual([
      [1, [undefined]],
      [null, ['mention']],
    ]);
  } else {
    expect(Object.keys(edit.changes ?? {})).toEqual([client.uri('p.md')]);
    client.unread.length = 0;
  }
  await finish(client);
});

/** Over real standard input and output: right after an edit that moves things, whatever is asked for is said of their new places. */
import { expect, test } from 'vitest';
import { type Diagnostic, finish, type LanguageClient, type Position, startClient } from '../support/language-client';

interface Range {
  readonly start: Position;
  readonly end: Position;
}

interface Location {
  readonly uri: string;
  readonly range: Range;
}

const NEED =
  '---\nrequirements: Test\n---\n## P-1 Power\n\nIt shall draw no more than 60 W (`draw`), and at most 9 W (`idle`).\n\n- Verify: analysis\n';
const DESIGN = '---\n# note\nfacts:\n  draw: 65 W\n  idle: 3 W\n---\n';

/** The texts as the editor has them. */
const texts = new Map<string, string>();

/** Types behind the first occurrence of some words. */
function type(client: LanguageClient, path: string, behind: string, typed: string): void {
  const text = texts.get(path) ?? '';
  const at = text.indexOf(behind) + behind.length;
  const place = positionAt(text, at);
  texts.set(path, text.slice(0, at) + typed + text.slice(at));
  client.change(path, typed, { start: place, end: place });
}

function positionAt(text: string, offset: number): Position {
  const before = text.slice(0, offset).split('\n');
  return { line: before.length - 1, character: before.at(-1)?.length ?? 0 };
}

function wordsAt(path: string, { start, end }: Range): string {
  const lines = (texts.get(path) ?? '').split('\n');
  return start.line === end.line ? (lines[start.line] ?? '').slice(start.character, end.character) : '';
}

function asked(client: LanguageClient, path: string, words: string) {
  const text = texts.get(path) ?? '';
  return { textDocument: { uri: client.uri(path) }, position: positionAt(text, text.indexOf(words) + 1) };
}

test('what is asked for right after an edit is said of where things stand now', async () => {
  const client = await startClient({ 'p.md': NEED, 'd.md': DESIGN });
  for (const [path, text] of [['p.md', NEED] as const, ['d.md', DESIGN] as const]) {
    texts.set(path, text);
    client.open(path, text);
  }
  await client.ask('plimsoll/requirements', { uri: client.uri('p.md') });
  for (const typed of ['x', '\n', 'yz']) {
    type(client, 'p.md', 'requirements: Test', typed === '\n' ? '\n# note\n' : typed);
    type(client, 'd.md', '# note', typed === '\n' ? '\n# more' : typed);
    await expectPlaces(client);
  }
  client.unread.length = 0;
  await finish(client);
});

async function expectPlaces(client: LanguageClient): Promise<void> {
  const lenses = await client.ask<readonly { readonly range: Range }[]>('textDocument/codeLens', {
    textDocument: { uri: client.uri('p.md') },
  });
  expect(lenses.map(({ range }) => range.start.line)).toContain(lineOf('p.md', '## P-1'));
  const hover = await client.ask<{ readonly range?: Range }>('textDocument/hover', asked(client, 'p.md', 'draw`'));
  expect(hover.range && wordsAt('p.md', hover.range)).toBe('draw');
  const found = await client.ask<Location | readonly Location[]>(
    'textDocument/definition',
    asked(client, 'p.md', 'draw`'),
  );
  const [definition] = [found].flat();
  expect(definition && wordsAt('d.md', definition.range)).toMatch(/^draw/);
  await expectEdits(client);
}

/** Renames and code actions change the right words. */
async function expectEdits(client: LanguageClient): Promise<void> {
  const { changes } = await client.ask<{
    readonly changes: Readonly<Record<string, readonly { readonly range: Range }[]>>;
  }>('textDocument/rename', { ...asked(client, 'd.md', 'idle'), newName: 'rest' });
  for (const path of ['p.md', 'd.md'])
    expect((changes[client.uri(path)] ?? []).map(({ range }) => wordsAt(path, range))).toEqual(['idle']);
  const { position } = asked(client, 'p.md', 'no more than');
  const actions = await client.ask<
    readonly {
      readonly title: string;
      readonly edit?: { readonly changes: Readonly<Record<string, readonly { readonly range: Range }[]>> };
    }[]
  >('textDocument/codeAction', {
    textDocument: { uri: client.uri('p.md') },
    range: { start: position, end: position },
    context: { diagnostics: [] },
  });
  const waiver = actions.find(({ title }) => title.startsWith('Waive'));
  const [edit] = waiver?.edit?.changes[client.uri('p.md')] ?? [];
  expect(edit?.range.start.line).toBe(lineOf('p.md', '- Verify'));
}

function lineOf(path: string, words: string): number {
  const text = texts.get(path) ?? '';
  return positionAt(text, text.indexOf(words)).line;
}

test('a diagnostic leads to the figure of another file, wherever that has moved', async () => {
  const client = await startClient({ 'p.md': NEED, 'd.md': DESIGN });
  texts.set('d.md', DESIGN);
  client.open('d.md', DESIGN);
  for (const typed of ['', '\n# a', '\n# b']) {
    if (typed !== '') type(client, 'd.md', '# note', typed);
    const [own, others] = [await client.diagnostics('d.md'), await client.diagnostics('p.md')];
    const figure = own.find(({ code }) => code === 'unmet');
    expect(figure && wordsAt('d.md', figure.range)).toBe('65 W');
    expect(relatedIn(others).map(({ range }) => wordsAt('d.md', range))).toEqual(['65 W']);
  }
  await finish(client);
});

function relatedIn(diagnostics: readonly Diagnostic[]): readonly Location[] {
  const related = diagnostics.find(({ code }) => code === 'unmet')?.relatedInformation ?? [];
  return related.map(({ location }) => location as Location);
}

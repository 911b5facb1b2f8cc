/** The repository is tidy: headers, lengths, nothing skipped, nothing left for later, every finding documented. */
import { describe, expect, test } from 'vitest';
import { FINDINGS } from '../grammar/findings';
import { blanked, type SourceFile, sourceFiles } from './support/source';
import {
  functionMistakes,
  functionsOf,
  headerMistakes,
  lengthMistakes,
  MAXIMUM_FILE_LINES,
  skippedTests,
  unknownCodes,
  wordMistakes,
} from './support/tidy';

const MODULE = /\.tsx?$/;
const modules = ['grammar', 'server', 'client'].flatMap((folder) => sourceFiles(folder, MODULE));
const tests = sourceFiles('tests', MODULE);
const everything = sourceFiles('.', /\.(?:[cm]?[jt]sx?|md|ya?ml|json|html|css)$|^\.ci\//);

const mistakes = (files: readonly SourceFile[], rule: (file: SourceFile) => readonly string[]) => files.flatMap(rule);

describe('the repository', () => {
  test('every module begins with a sentence that says what it is', () => {
    expect(mistakes(modules, headerMistakes)).toEqual([]);
  });

  test('files and functions are short', () => {
    expect(mistakes([...modules, ...tests], lengthMistakes)).toEqual([]);
    expect(mistakes(modules, functionMistakes)).toEqual([]);
  });

  test('no test is skipped', () => {
    expect(mistakes(tests, skippedTests)).toEqual([]);
  });

  test('nothing is left for later, nothing tells of one machine', () => {
    expect(mistakes(everything, wordMistakes)).toEqual([]);
  });

  test('every finding that is reported is one of the grammar', () => {
    expect(mistakes(modules, unknownCodes)).toEqual([]);
  });
});

test('every finding is documented by a sentence of its own', () => {
  const meanings = Object.values(FINDINGS).map(({ meaning }) => meaning);
  for (const meaning of meanings) expect(meaning).toMatch(/^[A-Z].{10,110}\.$/);
  expect(new Set(meanings).size).toBe(meanings.length);
});

describe('a rule that is broken is named with its place and reason', () => {
  const file = (text: string): SourceFile => ({ path: 'x.ts', text });

  test.each(['const a = 1;', '// A comment.\n', '/** */\n', '/** Word */\n', "import a from 'a';\n/** Late. */\n"])(
    'header %j',
    (text) => {
      expect(headerMistakes(file(text))).toEqual([expect.stringContaining('x.ts: begins with no sentence')]);
    },
  );

  test.each(['/** What it is. */\n', '/**\n * What it is, in a longer\n * sentence: so.\n */\n'])(
    'header %j is fine',
    (text) => {
      expect(headerMistakes(file(text))).toEqual([]);
    },
  );

  test('a long file', () => {
    expect(lengthMistakes(file('\n'.repeat(MAXIMUM_FILE_LINES)))).toEqual([]);
    expect(lengthMistakes(file('\n'.repeat(MAXIMUM_FILE_LINES + 1)))).toEqual([expect.stringContaining('501 lines')]);
  });

  const body = 'call();\n'.repeat(60);
  test.each([
    `function f(a: { b: string }) {\n${body}}`,
    `export async function f<T extends string>(a: T): Promise<{ b: T }[]> {\n${body}}`,
    `function f(): { a: string } {\n${body}}`,
    `function f(): { a: string } | { b: string } | null {\n${body}}`,
    `const f = (a) => {\n${body}};`,
    `class A {\n  async f(a: string): Promise<void> {\n${body}  }\n}`,
    `const a = {\n  f(a) {\n${body}  },\n};`,
    `function f() {\n  const a = '}';\n  const b = /[}]/;\n${body}}`,
  ])('a long function, form %#', (text) => {
    expect(functionMistakes(file(text))).toHaveLength(1);
  });

  test('a long object, type or list is no function', () => {
    expect(functionsOf(`const a = {\n${body}};\ninterface B {\n${body}}\nif (a) {\n${body}}`)).toEqual([]);
  });

  test.each([
    'test.skip("a")',
    'describe.only("a")',
    'it.todo("a")',
    'test.concurrent.only("a")',
    'xit("a")',
    'fdescribe("a")',
  ])('%s', (text) => {
    expect(skippedTests(file(text))).toHaveLength(1);
  });

  test('tests that run are fine', () => {
    expect(skippedTests(file('test.each([1])("a"); test.runIf(isPosix)("b"); exit(1); // test.skip('))).toEqual([]);
  });

  test.each([`// TO${''}DO: more`, `FIX${''}ME`, `'/ho${''}me/person/x'`, `see /wo${''}rk/main`])('%s', (text) => {
    expect(wordMistakes(file(text))).toHaveLength(1);
  });

  test.each(['/w/a.md', 'design/work/a', 'network', '/workspace/a', 'https://example.org/home/a'])(
    '%s is fine',
    (text) => {
      expect(wordMistakes(file(text))).toEqual([]);
    },
  );

  test('an unknown finding', () => {
    expect(unknownCodes(file("return { code: 'unmett', message };"))).toEqual([expect.stringContaining('“unmett”')]);
    expect(unknownCodes(file("return { code: 'unmet', message };"))).toEqual([]);
  });
});

test('comments and strings are blanked, offsets stay', () => {
  const code = ['$', '{i}'].join('');
  const text = `a /* b\n */ + 'c' / 2 / d; // e\nf(/g'/, \`h ${code} j\`);`;
  expect(blanked(text, 'strings')).toBe(`a     \n    + ' ' / 2 / d;     \nf(/  /, \`  ${code}  \`);`);
  expect(blanked(text, 'comments')).toBe(`a     \n    + 'c' / 2 / d;     \nf(/g'/, \`h ${code} j\`);`);
});

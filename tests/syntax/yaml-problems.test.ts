import { describe, expect, test } from 'vitest';
import { spanOf } from '../../server/syntax/span';
import { parseYaml } from '../../server/syntax/yaml';
import { processorTime } from '../support/processor-time';
import { readFrontMatter, short } from './yaml-support';

function problemsOf(yaml: string): readonly (readonly [code: string, message: string, source: string])[] {
  const { text, problems } = readFrontMatter(yaml);
  return problems.map(({ code, message, span }) => [code, message, text.slice(span.start, span.end)] as const);
}

describe('what is no part of the language', () => {
  test.each([
    ['a: &x 1', 'anchors', '&x'],
    ['a: *x', 'aliases', '*x'],
    ['a: !!int 1', 'tags', '!!int'],
    ['a: !t {b: 1}', 'tags', '!t'],
    ['a: &x |\n  text', 'anchors', '&x'],
    ['<<: {a: 1}', 'merge keys', '<<'],
    ['!t\na: 1', 'tags', '!t'],
  ])('%j', (yaml, what, source) => {
    expect(problemsOf(yaml)).toEqual([['bad-front-matter', expect.stringContaining(`${what} (`), source]]);
  });

  test('the rest still comes back; an alias is empty, a merge key is left out', () => {
    const { root, problems } = readFrontMatter('a: &x 45 W\nb: *x\n<<: *x\nc: !!str 3');
    expect(short(root)).toEqual({
      map: [
        ['a', '45 W'],
        ['b', ''],
        ['c', '3'],
      ],
    });
    expect(problems).toHaveLength(5);
  });

  test('"<<" in quotes, & and * inside a value are ordinary', () => {
    expect(problemsOf('"<<": 1\na: b & c * d ! e')).toEqual([]);
  });
});

describe('duplicate keys', () => {
  test('name the key and the first line; the first value counts', () => {
    const { root, text, problems } = readFrontMatter('facts:\n  draw: 45 W\n  other: 1\n  draw: 65 W');
    expect(short(root)).toEqual({
      map: [
        [
          'facts',
          {
            map: [
              ['draw', '45 W'],
              ['other', '1'],
            ],
          },
        ],
      ],
    });
    expect(problems).toEqual([
      {
        code: 'bad-front-matter',
        message: 'the key "draw" is given twice in this mapping, first on line 3; keep one',
        span: { start: text.lastIndexOf('draw'), end: text.lastIndexOf('draw') + 4 },
      },
    ]);
  });

  test('the same key in different mappings, and keys that differ in case, are none', () => {
    expect(problemsOf('a: {x: 1}\nb: {x: 1}\nA: 2')).toEqual([]);
  });

  test('a quoted and a plain key are the same key', () => {
    expect(problemsOf('{a: 1, "a": 2}')).toHaveLength(1);
  });
});

describe('syntax errors say what to do, once a line, and keep what can be read', () => {
  test.each([
    ['a: "x', /quotation mark .* never closed/],
    ["a: 'x", /quotation mark .* never closed/],
    ['a: "\\q"', /escape/],
    ['a: @x', /quote the value/],
    ['a: `x`', /quote the value/],
    ['title: one: two', /second ": "/],
    ['a: {b: 1', /not closed/],
    ['a: [1, 2', /not closed/],
    ['a: 1}\nb: {x: 1}}', /closing bracket that nothing opened/],
    ['\ta: b', /tabs/],
    ['a:\n    - b\n  c: d', /indented differently|a key without a value/],
    ['a: b\nc', /a key without a value/],
    ['a: {x: 1 y: 2}', /comma is missing/],
    ['a: [,]', /comma with no entry/],
    ['a: - b', /list begins on the line after/],
    ['a: {b: "x" y}', /does not continue|comma is missing/],
    ['? [a]\n: b', /a key is one text/],
    [': b', /a key is one text/],
  ])('%j', (yaml, message) => {
    const [first] = problemsOf(yaml);
    expect(first?.[0]).toBe('bad-front-matter');
    expect(first?.[1]).toMatch(message);
  });

  test('what stands before and after a broken line is read', () => {
    const { root, problems } = readFrontMatter('a: 1\nb: "\\q"\nc: 3');
    expect(short(root)).toMatchObject({
      map: [
        ['a', '1'],
        ['b', expect.anything()],
        ['c', '3'],
      ],
    });
    expect(problems).toHaveLength(1);
  });

  test('more than one document', () => {
    const { problems, root } = readFrontMatter('a: 1\n--- \nb: 2'.replace('--- ', '--- # x'));
    expect(short(root)).toEqual({ map: [['a', '1']] });
    expect(problems.map(({ message }) => message)).toEqual([expect.stringContaining('only the first YAML document')]);
  });

  test('a leading document marker is fine in a file of its own', () => {
    const text = '---\nproduct: Tern\n';
    expect(parseYaml(text, spanOf(0, text.length)).problems).toEqual([]);
  });
});

describe('limits', () => {
  const nested = (depth: number) => `a: ${'['.repeat(depth - 1)}${']'.repeat(depth - 1)}`;

  test('64 mappings and lists inside one another are read, 65 are not', () => {
    expect(readFrontMatter(nested(64))).toMatchObject({ problems: [], root: { type: 'map' } });
    const { root, problems } = readFrontMatter(nested(65));
    expect(root).toBeNull();
    expect(problems).toMatchObject([{ code: 'bad-front-matter', message: expect.stringContaining('64 deep') }]);
  });

  test('1 MB is read, more is not', () => {
    const read = (length: number) => parseYaml(`#${'a'.repeat(length - 1)}`, spanOf(0, length)).problems;
    expect(read(1_000_000)).toEqual([]);
    expect(read(1_000_001)).toMatchObject([{ code: 'too-large', message: expect.stringContaining('1 MB') }]);
  });

  test.each([
    ['100,000 open brackets', '['.repeat(100_000), 1],
    ['100,000 open braces', '{a: '.repeat(100_000), 1],
    ['100,000 list marks', '- '.repeat(100_000), 1],
    ['8,000 keys', Array.from({ length: 8_000 }, (_, index) => `k${index}: 1`).join('\n'), 0],
    ['8,000 equal keys', 'a: 1\n'.repeat(8_000), 7_999],
    ['8,000 open calls', `{${Array.from({ length: 8_000 }, (_, index) => `k${index}: (`).join(', ')}}`, 7_999],
    [
      'an alias bomb',
      `a: &a0 [x]\n${Array.from({ length: 30 }, (_, i) => `k${i}: &a${i + 1} [*a${i}, *a${i}]\n`).join('')}`,
      91,
    ],
    ['10,000 stray brackets', `a: ${']'.repeat(10_000)}`, 1],
  ])('%s in good time', (_name, yaml, count) => {
    const start = processorTime();
    const { problems } = readFrontMatter(yaml);
    expect(processorTime() - start).toBeLessThan(3_000);
    expect(problems).toHaveLength(count);
  });
});

import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { spanOf } from '../../server/syntax/span';
import { parseYaml } from '../../server/syntax/yaml';
import type { YamlNode } from '../../server/syntax/yaml-node';
import { allNodes, at, readFrontMatter, short } from './yaml-support';

describe('scalars keep their source text', () => {
  test.each([
    ['1.10', '1.10'],
    ['0777', '0777'],
    ['12345678901234567890', '12345678901234567890'],
    ['yes', 'yes'],
    ['~', '~'],
    ['2026-10-02', '2026-10-02'],
    ['12:30', '12:30'],
    ['= channels * 8 B/transfer', '= channels * 8 B/transfer'],
    ['45 W ± 10 %', '45 W ± 10 %'],
    ['45 W # as measured', '45 W'],
    ['"two\\tdevices \\u00b1"', 'two\tdevices ±'],
    ["'it''s'", "it's"],
    ['"folded\n    line"', 'folded line'],
    ['first\n    second\n\n    third', 'first second\nthird'],
    ['|\n    a\n     b\n    c', 'a\n b\nc\n'],
    ['>-\n    = x +\n    y', '= x + y'],
    ['\uD800 lone', '\uD800 lone'],
  ])('%j', (written, text) => {
    const { root, problems } = readFrontMatter(`k:\n  v: ${written}`);
    expect(problems).toEqual([]);
    expect(short(at(root, 'k', 'v'))).toBe(text);
  });
});

describe('styles and places', () => {
  const { text, root } = readFrontMatter(
    'plain: 45 W\nempty:\ntilde: ~\ndouble: "a b"\nescaped: "a\\tb"\nsingle: \'a b\'\nfolded: a\n  b\n' +
      'literal: |\n  = a + b\nlong: |\n  a\n  b\nflow: {x: 1 A, \'y\': , z}\nlist: [p, "q"]\nblock:\n  - r\n',
  );
  const slice = (node: YamlNode) => text.slice(node.span.start, node.span.end);

  test.each([
    ['plain', 'plain', '45 W'],
    ['empty', 'empty', ''],
    ['tilde', 'plain', '~'],
    ['double', 'quoted', '"a b"'],
    ['single', 'quoted', "'a b'"],
    ['folded', 'plain', 'a\n  b'],
    ['literal', 'block', '|\n  = a + b\n'],
  ])('%s', (key, style, source) => {
    const node = at(root, key);
    expect(node).toMatchObject({ type: 'scalar', style });
    expect(slice(node)).toBe(source);
  });

  test('textStart is where text and document agree character for character', () => {
    for (const node of allNodes(root)) {
      if (node.type !== 'scalar' || node.textStart === null) continue;
      expect(text.slice(node.textStart, node.textStart + node.text.length)).toBe(node.text);
    }
    const known = ['plain', 'double', 'single', 'literal'].map((key) => at(root, key));
    expect(known.map((node) => node.type === 'scalar' && node.textStart !== null)).toEqual([true, true, true, true]);
    const unknown = ['escaped', 'folded', 'long'].map((key) => at(root, key));
    expect(unknown.map((node) => node.type === 'scalar' && node.textStart)).toEqual([null, null, null]);
  });

  test('mappings and lists know whether they are written in brackets', () => {
    const flow = at(root, 'flow');
    expect(flow).toMatchObject({ type: 'map', flow: true });
    expect(slice(flow)).toBe("{x: 1 A, 'y': , z}");
    expect(flow.type === 'map' && flow.entries.map(({ key, hasColon }) => [key, hasColon])).toEqual([
      ['x', true],
      ['y', true],
      ['z', false],
    ]);
    expect(slice(at(root, 'list'))).toBe('[p, "q"]');
    expect(at(root, 'list')).toMatchObject({ type: 'list', flow: true });
    expect(at(root, 'block')).toMatchObject({ type: 'list', flow: false });
  });

  test('key spans are the keys as written, quotes included', () => {
    const flow = at(root, 'flow');
    const keys = flow.type === 'map' ? flow.entries.map(({ keySpan }) => text.slice(keySpan.start, keySpan.end)) : [];
    expect(keys).toEqual(['x', "'y'", 'z']);
  });

  test('CRLF and a span that begins at 0', () => {
    const whole = 'product: Tern\r\nmodes: [standby, record]\r\n';
    const parsed = parseYaml(whole, spanOf(0, whole.length));
    expect(parsed.problems).toEqual([]);
    expect(short(parsed.root)).toEqual({
      map: [
        ['product', 'Tern'],
        ['modes', ['standby', 'record']],
      ],
    });
    expect(at(parsed.root, 'modes').span).toEqual({ start: 22, end: 39 });
  });

  test('a byte order mark before the YAML is no part of the first key', () => {
    const whole = '\uFEFFproduct: Tern\n';
    const parsed = parseYaml(whole, spanOf(0, whole.length));
    expect(short(parsed.root)).toEqual({ map: [['product', 'Tern']] });
    expect(parsed.root?.type === 'map' && parsed.root.entries[0]?.keySpan).toEqual({ start: 1, end: 8 });
  });

  test('keys with a meaning in JavaScript are ordinary', () => {
    const { root: odd, problems } = readFrontMatter('__proto__: 1\nconstructor: {__proto__: 2}\ntoString: 3');
    expect(problems).toEqual([]);
    expect(short(odd)).toEqual({
      map: [
        ['__proto__', '1'],
        ['constructor', { map: [['__proto__', '2']] }],
        ['toString', '3'],
      ],
    });
  });

  test.each(['', '# only a comment', '\n\n'])('nothing there: %j', (yaml) => {
    expect(readFrontMatter(yaml)).toMatchObject({ root: null, problems: [] });
  });
});

describe('whatever the text', () => {
  const piece = fc.constantFrom(
    ...[
      'a: ',
      'b',
      '{',
      '}',
      '[',
      ']',
      ', ',
      '\n',
      '\n  ',
      '- ',
      '"',
      "'",
      '&x ',
      '*x',
      '!t ',
      '<<: ',
      '? ',
      '|\n',
      '>',
      '#',
    ],
    ...[
      '12,000',
      '= min(a, b)',
      '(',
      ')',
      '\t',
      '\r\n',
      '\uD800',
      '\0',
      '\uFEFF',
      '---\n',
      '...\n',
      '%YAML 1.2\n',
      '@',
      '`',
    ],
  );
  const yamlText = fc.oneof(
    fc.array(piece, { maxLength: 40, size: 'max' }).map((all) => all.join('')),
    fc.string({ unit: 'binary', maxLength: 60 }),
  );

  test('it never throws, and every place lies inside the span', () => {
    fc.assert(
      fc.property(yamlText, fc.constantFrom('', '---\n', 'x\r\n'), (yaml, before) => {
        const text = before + yaml;
        const span = spanOf(before.length, text.length);
        const { root, problems } = parseYaml(text, span);
        for (const { span: place } of [...allNodes(root), ...problems]) {
          expect(place.start).toBeGreaterThanOrEqual(span.start);
          expect(place.end).toBeGreaterThanOrEqual(place.start);
          expect(place.end).toBeLessThanOrEqual(span.end);
        }
      }),
      { numRuns: Number(process.env.FUZZ_RUNS ?? 1_000) },
    );
  });

  test('where it stands in the document changes nothing but the offsets', () => {
    fc.assert(
      fc.property(yamlText, (yaml) => {
        const alone = parseYaml(yaml, spanOf(0, yaml.length));
        const later = parseYaml(`ab\ncd\n${yaml}ef`, spanOf(6, 6 + yaml.length));
        expect(short(later.root)).toEqual(short(alone.root));
        expect(later.problems.map(({ span }) => span.start - 6)).toEqual(alone.problems.map(({ span }) => span.start));
      }),
      { numRuns: 300 },
    );
  });
});

import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { spanOf } from '../../server/syntax/span';
import { parseAnyYaml } from '../../server/syntax/yaml';
import { plainYaml } from '../../server/syntax/yaml/plain';

const RUNS = Number(process.env.FUZZ_RUNS ?? 1500);

const WORDS = [
  ...[
    '45 W ± 5 %',
    '1.5',
    '-5 V',
    '= a + b',
    '= min(a, b)',
    '= (a + b)',
    'TBD',
    '~',
    'yes',
    '12:30',
    'a:b',
    'x # c',
    '#',
  ],
  ...[
    'x#y',
    '"q"',
    "'q'",
    "'it''s'",
    '"a\\"b"',
    '"a" b',
    'a "b"',
    '- x',
    '-',
    '--',
    '---',
    '...',
    '?',
    '? x',
    '&a',
    '*a',
    '!t',
  ],
  ...[
    '|',
    '>',
    '%x',
    '@x',
    '`x',
    'a: b',
    'a:',
    ': b',
    '{',
    '}',
    '[',
    ']',
    '{}',
    '[]',
    '{a: 1}',
    '{a: 1, b: x y}',
    '[1, 2]',
  ],
  ...[
    '{a: {b: [c, d]}, e: "f"}',
    '{a: 1, a: 2}',
    '{a}',
    '{a: }',
    '{a:1}',
    '{ a: 1 , b: 2 }',
    '[ ]',
    '{a: 1,}',
    '[a,b]',
    '{a: (b}',
  ],
  ...[
    '{a: 5 W, 6}',
    '[1 W, (2, 3)]',
    '{a: 1} ',
    '{a: 1} x',
    '<<',
    'a\tb',
    '\tx',
    'é µ',
    '\u00a0',
    '\uFEFF',
    '\ud800',
    '2 \u00a0',
  ],
];
const word = fc.oneof(
  { weight: 9, arbitrary: fc.constantFrom('45 W', 'x y', '1', '{a: 1}') },
  { weight: 2, arbitrary: fc.constantFrom(...WORDS) },
);
const key = fc.constantFrom(
  'a',
  'b',
  'c',
  'd-e',
  'f.g',
  '12V',
  'é',
  '<<',
  '"k"',
  'k ',
  '',
  'constructor',
  '__proto__',
  '- a',
  '- b',
);
const indent = fc.constantFrom('', '', '  ', '  ', '    ', '      ', ' ', '\t');
const entry = fc
  .tuple(indent, key, fc.oneof(word, fc.constant(null)))
  .map(([space, name, value]) => (value === null ? `${space}${name}:` : `${space}${name}: ${value}`));
const line = fc.oneof(
  { weight: 8, arbitrary: entry },
  { weight: 2, arbitrary: fc.tuple(indent, word).map(([space, value]) => `${space}- ${value}`) },
  { weight: 1, arbitrary: fc.constantFrom('', '', '  ', '# c', '  # c', '-', '  x', '---') },
);

/** Nested as it should be, so that most of it is plain. */
const tidy = fc.letrec<{ block: string[]; map: string[]; list: string[]; value: string[] }>((tie) => ({
  block: fc.oneof({ depthSize: 'small' }, tie('map'), tie('list')),
  map: fc
    .array(fc.tuple(fc.constantFrom('a', 'b', 'c', 'd-e', '12V'), tie('value')), { minLength: 1, maxLength: 4 })
    .map((entries) => entries.flatMap(([name, [first = '', ...below]]) => [`${name}:${first}`, ...below])),
  list: fc
    .array(
      fc.oneof(
        word.map((text) => [text]),
        tie('map'),
      ),
      { minLength: 1, maxLength: 3 },
    )
    .map((items) => items.flatMap(([first = '', ...rest]) => [`- ${first}`, ...rest.map((text) => `  ${text}`)])),
  value: fc.oneof(
    { depthSize: 'small' },
    word.map((text) => [` ${text}`]),
    fc
      .tuple(tie('block'), fc.constantFrom('  ', '  ', '    ', ' ', ''))
      .map(([lines, space]) => ['', ...lines.map((text) => space + text)]),
  ),
}));

const document = fc
  .tuple(
    fc.oneof(fc.array(line, { maxLength: 8 }), tidy.map, tidy.block),
    fc.constantFrom('\n', '\n', '\n', '\r\n', '\n\n'),
    fc.boolean(),
  )
  .map(([lines, end, isEnded]) => lines.join(end) + (isEnded ? end : ''));

test('what is read without the library is what the library reads', () => {
  let plain = 0;
  fc.assert(
    fc.property(document, (yaml) => {
      const text = `---\n${yaml}---\n`;
      const span = spanOf(4, 4 + yaml.length);
      const root = plainYaml(text, span);
      if (root === null) return;
      plain += 1;
      expect({ root, problems: [] }).toEqual(parseAnyYaml(text, span));
    }),
    { numRuns: RUNS },
  );
  expect(plain).toBeGreaterThan(RUNS / 10);
});

test.each([
  'a: 45 W ± 5 %\nb:\n  c: = a + b\n  d: {e: 1 W, f: [x, "y"]}\n',
  'parts:\n  - {id: soc, power: 12 W}\n  - id: ram\n    power: 3 W\nrows:\n- a\n- b\n',
])('front matter as it is mostly written needs no library: %j', (yaml) => {
  const span = spanOf(0, yaml.length);
  expect(plainYaml(yaml, span)).toEqual(parseAnyYaml(yaml, span).root);
});

test.each(['a: 1 # c\n', 'a:\n', 'a: &x 1\n', 'a: 1\na: 2\n', '{a: = min(b, c)}\n', 'a: |\n  b\n', 'a: b\n  c\n', ''])(
  'left to the library: %j',
  (yaml) => {
    expect(plainYaml(yaml, spanOf(0, yaml.length))).toBeNull();
  },
);

import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { blocksOf } from '../../../server/syntax/markdown/blocks';
import { NO_LABELS } from '../../../server/syntax/markdown/label';
import { plainBlocks } from '../../../server/syntax/markdown/plain-blocks';
import { FIRST_OFFSET, type Following, parseSyntaxTree } from '../../../server/syntax/markdown/syntax-tree';
import { markdownText } from './fragments';

const RUNS = Number(process.env.FUZZ_RUNS ?? 1000);

const PIECES = [
  ...[
    'a',
    'shall draw',
    'é',
    '5 W',
    '60',
    '3.5',
    '1.',
    '1)',
    '-',
    '+',
    '=',
    '#',
    ':',
    '(',
    ')',
    '"',
    '“',
    '‘',
    '%',
    ',',
  ],
  ...[
    '`x`',
    '` y`',
    '``',
    '`a`b`',
    '`c|d`',
    '*em*',
    '**bold**',
    '**bold:**',
    '***both***',
    '*a b*',
    '*a *',
    '* *',
    '*a',
    'b*',
  ],
  ...[
    '*1*',
    '*(a)*',
    '(*a*)',
    'a*b*c',
    '**a** *b*',
    '*a*.',
    '*a.*b',
    '*a*b',
    '_u_',
    'a_b',
    'a_',
    '_',
    '~5 W',
    '~~',
    '~~s~~',
  ],
  ...[
    '<',
    '< 5',
    '<=',
    '<b>',
    '&',
    'R&D',
    '& ',
    '&amp;',
    '[',
    ']',
    '[a](b)',
    '[a b](c/d#e_f)',
    '[a](b "t")',
    '[a](<b>)',
    '[a]()',
    '[ a](b)',
    '[^a](b)',
    '[`a`](b)',
    '[a](b`c`)',
    '[a][b]',
    '![a](b)',
    '[x](y)(z)',
    '[*a*](b)',
    '[a',
    '!',
    '![',
    '|',
    '\\',
    '\\|',
    '\t',
    '\0',
    ' ',
  ],
  ...[
    '\u00a0',
    '\u2028',
    '\ud800',
    '𝄞',
    '\uFEFF',
    '\uFFFC',
    'www.x.test',
    'a@b.test',
    'http://x.test',
    '^',
    '[^n]',
    '€',
    '≤',
    '±',
  ],
];
const CORE = ['a', '`x`', '*em*', '**bold**', '[a](b)', '_', '!', '`'];
const piece = fc.oneof(fc.constantFrom(...CORE), fc.constantFrom(...PIECES));
/** Mostly one space between, for then most of the text is plain. */
const inline = fc
  .array(fc.tuple(piece, fc.constantFrom(' ', ' ', ' ', '')), { minLength: 1, maxLength: 6 })
  .map((parts) => parts.map(([text, gap]) => text + gap).join(''));
const words = fc.oneof(fc.constantFrom('a', 'The `x` shall', '**Note:** b', '5 W *is* it', 'over'), inline);
const start = fc.constantFrom('', '', '- ', '- ', '* ', '+ ', '## ', '### ', '1. ', '> ', ' ', '  ', '#', '-', '    ');
const prosaic = fc.tuple(start, words).map((parts) => parts.join(''));
const row = fc
  .array(fc.tuple(fc.constantFrom(' ', '', '  '), fc.oneof(words, fc.constant('')), fc.constantFrom(' ', '', '\t')), {
    minLength: 1,
    maxLength: 3,
  })
  .map((cells) => `|${cells.map((cell) => cell.join('')).join('|')}|`);
const delimiters = fc.constantFrom(
  '|-|',
  '| - |',
  '| --- | :-: |',
  '|-|-|',
  '|---|---|---|',
  '|:|',
  '||',
  '|-|-',
  '---',
  '===',
);
const blank = fc.constantFrom('', '', '', ' ');
const line = fc.oneof(
  { weight: 4, arbitrary: prosaic },
  { weight: 2, arbitrary: fc.tuple(row, delimiters, row).map((lines) => lines.join('\n')) },
  { weight: 2, arbitrary: row },
  { weight: 1, arbitrary: delimiters },
  { weight: 4, arbitrary: blank },
);
const section = fc
  .tuple(fc.array(line, { minLength: 1, maxLength: 8 }), fc.constantFrom('\n', '\n', '\n', '\r\n', '\r'))
  .map(([lines, end]) => lines.join('\n').replaceAll('\n', end));
const following = fc.constantFrom<Following[]>('heading', 'end of file');

function parsed(text: string, after: Following) {
  const tree = parseSyntaxTree(text, after, NO_LABELS);
  return tree.root && blocksOf(tree.root.children, tree.source);
}

test('what is read without the parser is what the parser reads', () => {
  let plain = 0;
  fc.assert(
    fc.property(section, following, (text, after) => {
      const whole = after === 'heading' ? `${text}\n` : text;
      const blocks = plainBlocks(whole, FIRST_OFFSET);
      if (blocks === null) return;
      plain += 1;
      expect(blocks).toEqual(parsed(whole, after));
    }),
    { numRuns: RUNS },
  );
  expect(plain).toBeGreaterThan(RUNS / 20);
});

const crowded = fc.array(fc.tuple(piece, fc.constantFrom(' ', '')), { minLength: 1, maxLength: 4 });

test('what stands close together in a line is what the parser reads', () => {
  fc.assert(
    fc.property(crowded, fc.constantFrom('a', 'a ', '## ', '- a '), (parts, before) => {
      const text = `${before}${parts.map(([one, gap]) => one + gap).join('')}b\n`;
      const blocks = plainBlocks(text, FIRST_OFFSET);
      if (blocks !== null) expect(blocks).toEqual(parsed(text, 'end of file'));
    }),
    { numRuns: RUNS * 3 },
  );
});

test('whatever stands together, the parser decides or agrees', () => {
  fc.assert(
    fc.property(markdownText, (text) => {
      const blocks = plainBlocks(text, FIRST_OFFSET);
      if (blocks !== null) expect(blocks).toEqual(parsed(text, 'end of file'));
    }),
    { numRuns: RUNS },
  );
});

test.each([
  [
    '## TRN-1 Draw\n\nThe module shall draw no more than 60 W (`supply.draw`).\n\n- Verify: analysis\n- Priority: must\n',
  ],
  [
    'Rationale: the rail is shared with **two** others,\nand *all* of them are on, see [the notes](notes/rail.md#on).\n',
  ],
  ['| ID | Requirement |\n| --- | --- |\n| TRN-1 | It shall weigh less than 2 kg. |\n| TRN-2 | |\n'],
])('a requirement as it is mostly written needs no parser: %j', (text) => {
  expect(plainBlocks(text, FIRST_OFFSET)).toEqual(parsed(text, 'end of file'));
});

test.each([
  '[a]: /u\n',
  'a  \nb\n',
  'a\n---\n',
  'a ![b](c)\n',
  'a [b]\n',
  '- a\n  b\n',
  '- a\nb\n',
  '1. a\n',
  '*a **b***\n',
  'a `b\n',
  '# a\n# b #\n',
  '| a |\n| - |\n| \\| |\n',
  `${'a '.repeat(501)}a\n`,
])('left to the parser: %j', (text) => {
  expect(plainBlocks(text, FIRST_OFFSET)).toBeNull();
});

/** What is read without the parser is what the parser gives (mdast-util-from-markdown with GFM, the reference here). */
import fc from 'fast-check';
import { fromMarkdown } from 'mdast-util-from-markdown';
import { gfmFromMarkdown } from 'mdast-util-gfm';
import { gfm } from 'micromark-extension-gfm';
import { expect, test } from 'vitest';
import { type PlainPart, plainParts } from '../../../server/reports/page/plain-markdown';

function parsed(markdown: string): readonly PlainPart[] | null {
  const { children } = fromMarkdown(markdown, { extensions: [gfm()], mdastExtensions: [gfmFromMarkdown()] });
  const [only, ...others] = children;
  if (only?.type !== 'paragraph' || others.length > 0) return null;
  const parts = only.children.map((node): PlainPart | null => {
    if (node.type === 'text') return { type: 'text', text: node.value };
    return node.type === 'inlineCode' ? { type: 'code', text: node.value } : null;
  });
  return parts.includes(null) ? null : (parts as PlainPart[]);
}

test('a sentence with code spans is read', () => {
  expect(plainParts('It shall draw at most 60 W (`supply.draw`).')).toEqual([
    { type: 'text', text: 'It shall draw at most 60 W (' },
    { type: 'code', text: 'supply.draw' },
    { type: 'text', text: ').' },
  ]);
});

test.each(['*x*', '1. one', '# x', 'a <b> c', 'see https://a.b', 'www.x.org', 'a@b.c', 'a `b', 'a `` b ``', 'x '])(
  '%j is left to the parser',
  (text) => expect(plainParts(text)).toBeNull(),
);

const piece = fc.constantFrom(
  ...[
    'The',
    ' shall',
    ' ',
    '`',
    'a.b',
    '`x`',
    '` y`',
    '<',
    '>',
    '&amp;',
    '~',
    '*',
    '_',
    '|',
    '#',
    '-',
    '+',
    '1.',
    '=',
    '\n',
  ],
  ...[
    'http://',
    'www.',
    '@',
    '.',
    ':',
    '!',
    '[',
    ']',
    '(',
    ')',
    '\\',
    '\t',
    'é',
    '\u00a0',
    '$',
    '^',
    '"',
    '---',
    '  ',
    ':::',
  ],
);

test('whatever is read without the parser, the parser reads alike', () => {
  fc.assert(
    fc.property(fc.array(piece, { maxLength: 12 }), (pieces) => {
      const text = pieces.join('');
      const plain = plainParts(text);
      if (plain !== null) expect(plain).toEqual(parsed(text));
    }),
    { numRuns: Number(process.env.FUZZ_RUNS ?? 2000) },
  );
});

import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Block, Prose } from '../../../server/syntax/markdown/block';
import { documentSpan } from '../../../server/syntax/markdown/document-span';
import { parseMarkdown } from '../../../server/syntax/markdown/parse';
import { markdownText } from './fragments';

function blocksOf(text: string): readonly Block[] {
  return parseMarkdown(text).sections.flatMap(({ blocks }) => blocks);
}

function allProse(block: Block): readonly Prose[] {
  if (block.type === 'heading' || block.type === 'paragraph') return [block.prose];
  if (block.type === 'list') return block.items.flatMap((item) => item.blocks.flatMap(allProse));
  return block.type === 'table' ? [...block.header, ...block.rows.flatMap(({ cells }) => cells)] : [];
}

/** The prose of the first block that has any. */
function proseOf(text: string): Prose {
  const [prose] = blocksOf(text).flatMap(allProse);
  if (!prose) throw new Error('no prose');
  return prose;
}

describe('prose is the text a reader sees', () => {
  test.each([
    ['no *more* than **60** W', 'no more than 60 W'],
    ['~~60 W~~ and ~5 W~', '60 W and ~5 W~'],
    ['see [the *title*](u "t") and <http://x.test>', 'see the title and http://x.test'],
    ['[a][b] [b][] [b] [c]\n\n[b]: /u', 'a b b [c]'],
    ['60&nbsp;W &plusmn; 5 &#37; &#x25; &unknown;', '60\u00a0W ± 5 % % &unknown;'],
    ['\\*not\\* a\\b \\`c\\`', '*not* a\\b `c`'],
    ['over\ntwo  \nthree\\\nlines', 'over two three lines'],
    ['- over\n  two', 'over two'],
    ['over\r\ntwo', 'over two'],
    ['an ![alt *text*](u) image', 'an alt text image'],
    ['a<!-- x -->b <b>c</b> d<br>e<br/>f', 'ab c d e f'],
    ['note[^n] here\n\n[^n]: x', 'note here'],
    ['# Title *x* ##', 'Title x'],
    ['two\nlines\n=====', 'two lines'],
    ['- [x] Verify: test', 'Verify: test'],
    ['- [ ] *a* b', 'a b'],
    ['-\n[ ] a', '[ ] a'],
    ['- [y] a', '[y] a'],
    ['[x] a', '[x] a'],
    ['a `b` c', 'a \uFFFC c'],
    ['\0 nul', '\uFFFD nul'],
  ])('%j', (text, shown) => {
    expect(proseOf(text).text).toBe(shown);
  });
});

describe('code spans', () => {
  test.each([
    ['The `x` is', 'x', 'x', '`x`'],
    ['`` a`b ``', 'a`b', 'a`b', '`` a`b ``'],
    ['` `` `', '``', '``', '` `` `'],
    ['`  x  `', ' x ', ' x ', '`  x  `'],
    ['`a\nb`', 'a b', 'a\nb', '`a\nb`'],
    ['`\na\n`', 'a', 'a', '`\na\n`'],
    ['- `a\n  b`', 'a b', 'a\n  b', '`a\n  b`'],
    ['`a\\`', 'a\\', 'a\\', '`a\\`'],
    ['`&amp;`', '&amp;', '&amp;', '`&amp;`'],
    ['*`x`*', 'x', 'x', '`x`'],
    ['| `a\\|b` |\n|-|', 'a|b', 'a\\|b', '`a\\|b`'],
    ['[`x`](u)', 'x', 'x', '`x`'],
  ])('%j', (text, code, inside, outside) => {
    const [found] = proseOf(text).codes;
    expect(found?.code).toBe(code);
    expect(text.slice(found?.span.start, found?.span.end)).toBe(inside);
    expect(text.slice(found?.outer.start, found?.outer.end)).toBe(outside);
  });

  test('each stands at its place in the text', () => {
    const { text, codes } = proseOf('(`a`, *`b`*) `c`');
    expect(text).toBe('(\uFFFC, \uFFFC) \uFFFC');
    expect(codes.map(({ at, code }) => [at, code])).toEqual([
      [1, 'a'],
      [4, 'b'],
      [7, 'c'],
    ]);
  });
});

describe('tables', () => {
  const text = '| ID | Requirement |\n|----|:--:|\n| TRN-1 | a \\| b `c` | lost |\n| TRN-2 |\n';
  const [table] = blocksOf(text);

  test('cells have places, a missing one is empty, one too many is not shown', () => {
    if (table?.type !== 'table') throw new Error('no table');
    expect(table.header.map((cell) => cell.text)).toEqual(['ID', 'Requirement']);
    expect(table.rows.map((row) => row.cells.map((cell) => cell.text))).toEqual([
      ['TRN-1', 'a | b \uFFFC'],
      ['TRN-2', ''],
    ]);
    const cell = table.rows[0]?.cells[1];
    const span = cell && documentSpan(cell, 0, cell.text.length);
    expect(text.slice(span?.start, span?.end)).toBe('a \\| b `c`');
    expect(text.slice(table.rows[1]?.span.start, table.rows[1]?.span.end)).toBe('| TRN-2 |');
  });
});

describe('from prose back to the document', () => {
  const text = 'no *more* than 60&nbsp;W\n(`supply.draw`) <b>now</b>';
  const prose = proseOf(text);
  const shown = (part: string) => {
    const start = prose.text.indexOf(part);
    const span = documentSpan(prose, start, start + part.length);
    return text.slice(span.start, span.end);
  };

  test.each([
    ['no more than', 'no *more* than'],
    ['more', 'more'],
    ['mor', 'mor'],
    ['60\u00a0W', '60&nbsp;W'],
    ['\u00a0', '&nbsp;'],
    ['W (', 'W\n('],
    ['\uFFFC', '`supply.draw`'],
    ['now', 'now'],
  ])('%j', (part, source) => {
    expect(shown(part)).toBe(source);
  });

  test('an empty range is the place where its character begins, at the end the end', () => {
    expect(documentSpan(prose, 0, 0)).toEqual({ start: 0, end: 0 });
    const end = prose.runs.at(-1)?.documentSpan.end;
    expect(documentSpan(prose, prose.text.length, prose.text.length)).toEqual({ start: end, end });
    expect(documentSpan({ text: '', codes: [], runs: [] }, 0, 0)).toEqual({ start: 0, end: 0 });
  });
});

describe('places of prose, whatever the document', () => {
  const everyProse = (text: string) => blocksOf(text).flatMap(allProse);

  test('runs cover the text without gaps; a verbatim run is the document character for character', () => {
    fc.assert(
      fc.property(markdownText, (text) => {
        for (const prose of everyProse(text)) {
          let at = 0;
          for (const run of prose.runs) {
            expect(run.start).toBe(at);
            at += run.length;
            const shown = prose.text.slice(run.start, at);
            const source = text.slice(run.documentSpan.start, run.documentSpan.end);
            if (run.verbatim) expect(source).toBe(shown);
            else expect(source.length).toBeGreaterThan(0);
          }
          expect(at).toBe(prose.text.length);
        }
      }),
      { numRuns: 200 },
    );
  });

  test('a code span is its content between backticks', () => {
    fc.assert(
      fc.property(markdownText, (text) => {
        for (const prose of everyProse(text)) {
          for (const { at, code, span, outer } of prose.codes) {
            expect(prose.text[at]).toBe('\uFFFC');
            expect(text.slice(outer.start, outer.end)).toMatch(/^(`+)[\s\S]*[^`]\1$/);
            const inside = text.slice(span.start, span.end);
            const isOnOneLine = !/[\r\n]/.test(text.slice(outer.start, outer.end));
            if (isOnOneLine && !inside.includes('\\|')) expect(inside.replaceAll('\0', '\uFFFD')).toBe(code);
          }
        }
      }),
      { numRuns: 200 },
    );
  });
});

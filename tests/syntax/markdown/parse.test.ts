import * as fc from 'fast-check';
import type { Root } from 'mdast';
import remarkGfm from 'remark-gfm';
import remarkParse from 'remark-parse';
import { unified } from 'unified';
import { describe, expect, test } from 'vitest';
import { findFrontMatter } from '../../../server/syntax/front-matter';
import type { Block } from '../../../server/syntax/markdown/block';
import { createSectionCache, type ParsedMarkdown, parseMarkdown } from '../../../server/syntax/markdown/parse';
import { markdownText } from './fragments';

function types(parsed: ParsedMarkdown): readonly (readonly string[])[] {
  return parsed.sections.map(({ blocks }) => blocks.map(({ type }) => type));
}

function firstText(block: Block | undefined): string | null {
  return block?.type === 'paragraph' || block?.type === 'heading' ? block.prose.text : null;
}

describe('blocks', () => {
  test('headings, paragraphs, lists in lists, tables, and all else', () => {
    const text =
      '# H\n\np\n\n- a\n  - b\n\n    c\n\n|t|\n|-|\n\n> q\n\n```\nx\n```\n\n***\n\n<div>\n\n[a]: /u\n\n[^n]: f\n';
    const parsed = parseMarkdown(text);
    const kinds = ['heading', 'paragraph', 'list', 'table', 'other', 'other', 'other', 'other', 'other', 'other'];
    expect(types(parsed)).toEqual([kinds]);
    const list = parsed.sections[0]?.blocks[2];
    if (list?.type !== 'list') throw new Error('no list');
    expect(list.items[0]?.blocks.map(({ type }) => type)).toEqual(['paragraph', 'list']);
    expect(text.slice(list.span.start, list.span.end)).toBe('- a\n  - b\n\n    c');
  });

  test('front matter is passed over by its place; an unclosed one is Markdown, lists and all', () => {
    const text = '\uFEFF---\na: b\n---\n# H\n\ntext\n';
    const [section] = parseMarkdown(text).sections;
    expect(section?.span).toEqual({ start: 14, end: text.length });
    expect(section?.blocks[0]?.span).toEqual({ start: 14, end: 17 });
    expect(types(parseMarkdown('---\na: b\n\n- x\n'))).toEqual([['other', 'paragraph', 'list']]);
  });

  test('an empty text has no sections', () => {
    expect(parseMarkdown('')).toEqual({ sections: [], problems: [] });
  });
});

describe('labels of the whole file', () => {
  const textOf = (text: string) => {
    const block = parseMarkdown(text).sections[0]?.blocks[0];
    return firstText(block?.type === 'list' ? block.items[0]?.blocks[0] : block);
  };

  test.each([
    ['defined in a later section', 'see [a][b]\n\n# H\n\n[b]: /u\n', 'see a'],
    ['with another case and spacing', 'see [a][ B  c ]\n\n# H\n\n[b\nC]: /u\n', 'see a'],
    ['over two lines of an item', '- see [b\n  c]\n\n# H\n\n[b c]: /u\n', 'see b c'],
    ['in a quote', 'see [b]\n\n# H\n\n> [b]: /u\n', 'see b'],
    ['in an item', 'see [b][]\n\n# H\n\n- [b]: /u\n', 'see b'],
    ['with an escaped bracket', 'see [b\\]c]\n\n# H\n\n[b\\]c]: /u\n', 'see b]c'],
    ['a footnote', 'see[^n] it\n\n# H\n\n[^n]: x\n', 'see it'],
    ['not defined', 'see [a][b]\n\n# H\n', 'see [a][b]'],
    ['only inside code', 'see [b]\n\n# H\n\n```\n[b]: /u\n```\n', 'see [b]'],
    ['only in the middle of a paragraph', 'see [b]\n\n# H\n\ntext\n[b]: /u\n', 'see [b]'],
    ['only inside a comment', 'see [b]\n\n# H\n\n<!--\n[b]: /u\n-->\n', 'see [b]'],
  ])('%s', (_name, text, shown) => {
    expect(textOf(text)).toBe(shown);
  });
});

describe('sections that are not relevant', () => {
  test('have no blocks, but their definitions count', () => {
    const seen: string[] = [];
    const parsed = parseMarkdown('[b]\n# one\n\nshall\n# two\n\n[b]: /u\n', {
      isRelevant: (section) => {
        seen.push(section);
        return section.includes('[b]\n') || section.includes('shall');
      },
    });
    expect(types(parsed)).toEqual([['paragraph'], ['heading', 'paragraph'], []]);
    expect(seen).toEqual(['[b]\n', '# one\n\nshall\n', '# two\n\n[b]: /u\n']);
    expect(firstText(parsed.sections[0]?.blocks[0])).toBe('b');
  });
});

describe('the cache', () => {
  const first = '# one\n\nsee [b]\n\n# two\n\ntext\n\n# three\n\n[b]: /u\n';

  test('an unchanged section that has not moved keeps its identity', () => {
    const cache = createSectionCache();
    const before = parseMarkdown(first, { cache });
    const after = parseMarkdown(first.replace('text', 'more'), { cache });
    expect(after.sections[0]).toBe(before.sections[0]);
    expect(after.sections[1]).not.toBe(before.sections[1]);
    expect(after.sections[2]).toBe(before.sections[2]);
    const [one, two] = parseMarkdown(`\n${first}`, { cache }).sections.slice(1);
    expect(one?.span.start).toBe((before.sections[0]?.span.start ?? 0) + 1);
    expect(two?.blocks).not.toEqual(before.sections[1]?.blocks);
  });

  test('only the section that was edited is parsed: the parser is not asked for the others', () => {
    const cache = createSectionCache();
    parseMarkdown(first, { cache });
    const known = new Set(cache.sections.values());
    parseMarkdown(`intro\n\n${first.replace('text', 'more')}`, { cache });
    const fresh = [...cache.sections.values()].filter((section) => !known.has(section));
    expect(fresh.flatMap(({ blocks }) => blocks.map(firstText))).toEqual(['intro', 'two', 'more']);
  });

  test('a definition that comes or goes changes the sections that use its label, and no other', () => {
    const cache = createSectionCache();
    const before = parseMarkdown(first, { cache });
    const after = parseMarkdown(first.replace('[b]: /u', 'nothing'), { cache });
    expect(firstText(before.sections[0]?.blocks[1])).toBe('see b');
    expect(firstText(after.sections[0]?.blocks[1])).toBe('see [b]');
    expect(after.sections[1]).toBe(before.sections[1]);
  });

  test('it holds no more than the last text', () => {
    const cache = createSectionCache();
    for (let edit = 0; edit < 50; edit++) parseMarkdown(first.replace('text', `text ${edit}`), { cache });
    expect(cache.sections.size).toBeLessThanOrEqual(4);
  });

  test('texts that look like keys of other texts are not confused', () => {
    const cache = createSectionCache();
    parseMarkdown('see [b]\n\n# H\n\n[b]: /u\n', { cache });
    const keys = [...cache.sections.keys()];
    for (const key of keys) expect(parseMarkdown(key, { cache })).toEqual(parseMarkdown(key));
  });
});

describe('whatever the text', () => {
  const anyText = fc.oneof(markdownText, fc.string({ unit: 'binary', maxLength: 200, size: 'max' }));

  test('it never throws, and every place lies inside its section', () => {
    fc.assert(
      fc.property(anyText, (text) => {
        const { sections } = parseMarkdown(text);
        for (const { span, blocks } of sections) {
          for (const block of blocks) {
            expect(block.span.start).toBeGreaterThanOrEqual(span.start);
            expect(block.span.end).toBeLessThanOrEqual(span.end);
          }
        }
      }),
      { numRuns: 300 },
    );
  });

  /** An independent reading by the stock parser: front matter blanked out, the whole file at once, no extension of ours. */
  test('top-level blocks are those of unified with remark-parse and remark-gfm', () => {
    const processor = unified().use(remarkParse).use(remarkGfm, { singleTilde: false });
    fc.assert(
      fc.property(markdownText, (document) => {
        const text = document.replace(/^\uFEFF/, ' ');
        const end = findFrontMatter(text)?.outer.end ?? 0;
        const root: Root = processor.parse(text.slice(0, end).replace(/[^\n\r]/g, ' ') + text.slice(end));
        const expected = root.children.map(({ position }) => [position?.start.offset, position?.end.offset]);
        const blocks = parseMarkdown(text).sections.flatMap((section) => section.blocks);
        expect(blocks.map(({ span }) => [span.start, span.end])).toEqual(expected);
      }),
      { numRuns: Number(process.env.FUZZ_RUNS ?? 150) },
    );
  });
});

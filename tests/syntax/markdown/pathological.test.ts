import { describe, expect, test } from 'vitest';
import type { Block } from '../../../server/syntax/markdown/block';
import { type ParsedMarkdown, parseMarkdown } from '../../../server/syntax/markdown/parse';
import { processorTime } from '../../support/processor-time';

/** Half a second here is a second on a slower machine; CI machines are shared, so the test allows for more. */
const SOON = 3_000;

function timed(text: string): { readonly parsed: ParsedMarkdown; readonly milliseconds: number } {
  const start = processorTime();
  return { parsed: parseMarkdown(text), milliseconds: processorTime() - start };
}

/** Backtick runs of 1, 2, 3 … so that none closes another. */
function unequalBackticks(length: number): string {
  let text = '';
  for (let run = 1; text.length < length; run++) text += `${'`'.repeat(run)} `;
  return text;
}

describe('text that the parser would take minutes for is not given to it', () => {
  const cases: readonly (readonly [name: string, text: string, limit: RegExp])[] = [
    ['a line of 2 MB', 'word '.repeat(400_000), /64 kB/],
    ['a million open brackets', '['.repeat(1_000_000), /64 kB/],
    ['a million open brackets on lines of their own', '[\n'.repeat(500_000), /64 kB|20,000 lines|too many/],
    ['1,500 open brackets', `x ${'['.repeat(1_500)}`, /1,000 delimiters/],
    ['40,000 quote marks', '>'.repeat(40_000), /nested more than 32/],
    ['33 quote marks with text', `${'> '.repeat(33)}x`, /nested more than 32/],
    ['list markers in a row', `${'+ '.repeat(40)}x`, /nested more than 32/],
    [
      'lists nested by indentation',
      Array.from({ length: 40 }, (_, depth) => `${'  '.repeat(depth)}- a\n`).join(''),
      /nested/,
    ],
    [
      'lists nested in a quote',
      Array.from({ length: 40 }, (_, depth) => `> ${'  '.repeat(depth)}- a\n`).join(''),
      /nested/,
    ],
    ['footnotes nested in a row', `${'[^a]:'.repeat(40)}x`, /nested/],
    ['100,000 backticks in runs of all lengths', unequalBackticks(100_000), /64 kB/],
    ['60,000 backticks in runs of all lengths', unequalBackticks(60_000), /too many/],
    ['link titles that never close', `x ${'[a](b ('.repeat(490)}${'c\n'.repeat(15_000)}`, /too many/],
    ['emphasis that never closes', '*a '.repeat(1_100), /1,000 delimiters/],
    ['20,001 lines in one section', 'a\n\n'.repeat(10_001), /20,000 lines/],
  ];

  test.each(cases)('%s', (_name, text, limit) => {
    const { parsed, milliseconds } = timed(`# Before\n\nfine\n\n# It\n\n${text}\n\n# After\n\nfine\n`);
    expect(parsed.problems.map(({ code, message }) => `${code}: ${message}`)).toEqual([expect.stringMatching(limit)]);
    expect(parsed.problems[0]?.span.start).toBeGreaterThan(18);
    expect(parsed.sections.map((section) => section.blocks.length)).toEqual([2, 0, 2]);
    expect(milliseconds).toBeLessThan(SOON);
  });
});

describe('large but ordinary text is read', () => {
  const blocks = (text: string): readonly Block[] => {
    const { parsed, milliseconds } = timed(text);
    expect(parsed.problems).toEqual([]);
    expect(milliseconds).toBeLessThan(2 * SOON);
    return parsed.sections.flatMap((section) => section.blocks);
  };

  test('990 delimiters in one paragraph', () => {
    expect(blocks(`${'`a` *b* '.repeat(247)}\n`)).toHaveLength(1);
  });

  test('a list of 300 items with code and links, without a blank line', () => {
    const [list] = blocks('- The `x` of [y](z), *about*\n  - Verify: `test`\n'.repeat(300));
    expect(list?.type === 'list' && list.items.length).toBe(300);
  });

  test('an ordered list of 600 items', () => {
    const [list] = blocks(Array.from({ length: 600 }, (_, index) => `${index + 1}. is \`a.b\`\n`).join(''));
    expect(list?.type === 'list' && list.items.length).toBe(600);
  });

  test('a table of 600 rows with code in each, more than 64 kB', () => {
    const rows = Array.from(
      { length: 600 },
      (_, index) => `| TRN-${index} | at least 3 W (\`a.b\`) | ${'test '.repeat(16)} |\n`,
    ).join('');
    const [table] = blocks(`| ID | Requirement | Verify |\n|----|:--:|---|\n${rows}`);
    expect(table?.type === 'table' && table.rows.length).toBe(600);
  });

  test('fenced code and HTML of more than 64 kB, full of brackets', () => {
    const code = '[ * ` < '.repeat(10_000);
    expect(blocks(`\`\`\`\n${code}\n\`\`\`\n\n<!--\n${code}\n-->\n\nafter\n`)).toHaveLength(3);
  });

  test('a thematic break of many stars is no nested list', () => {
    expect(blocks(`${'* '.repeat(200)}\n\n${'-  '.repeat(200)}\n`).map(({ type }) => type)).toEqual(['other', 'other']);
  });
});

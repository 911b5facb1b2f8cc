import * as fc from 'fast-check';
import type { Nodes } from 'mdast';
import { expect, test } from 'vitest';
import { NO_LABELS } from '../../../server/syntax/markdown/label';
import { BEFORE_FIRST_SECTION_LINE, limitsAfter } from '../../../server/syntax/markdown/limits';
import { linesOf } from '../../../server/syntax/markdown/line';
import { afterLine, BEFORE_FIRST_LINE, isOpaque } from '../../../server/syntax/markdown/open-block';
import { FIRST_OFFSET, parseSyntaxTree } from '../../../server/syntax/markdown/syntax-tree';
import { markdownText } from './fragments';

/** Offsets of the lines at which the count of a paragraph begins. */
function countStarts(text: string): Set<number> {
  const starts = new Set<number>();
  let state = BEFORE_FIRST_LINE;
  let limits = BEFORE_FIRST_SECTION_LINE;
  for (const line of linesOf(text, 0)) {
    const wasOpaque = isOpaque(state);
    state = afterLine(state, line);
    limits = limitsAfter(limits, line, wasOpaque && isOpaque(state));
    if (limits.paragraph.lines <= 1) starts.add(line.start);
  }
  return starts;
}

/** From the first to the last character of each paragraph's text. */
function paragraphs(node: Nodes): readonly (readonly [number, number])[] {
  if (node.type === 'paragraph') {
    return [[(node.position?.start.offset ?? 0) - FIRST_OFFSET, (node.position?.end.offset ?? 0) - FIRST_OFFSET]];
  }
  return 'children' in node ? node.children.flatMap(paragraphs) : [];
}

/** Lines inside a paragraph of the parser's at which the count begins anew. */
function startsInside(text: string): readonly number[] {
  const tree = parseSyntaxTree(text, 'end of file', NO_LABELS);
  const starts = [...countStarts(text)];
  return (tree.root ? paragraphs(tree.root) : []).flatMap(([start, end]) =>
    starts.filter((offset) => offset > start && offset < end),
  );
}

test('no paragraph escapes the count: none begins anew inside a paragraph that the parser sees', () => {
  fc.assert(
    fc.property(markdownText, (document) => {
      expect(startsInside(document.replace(/^\uFEFF/, ''))).toEqual([]);
    }),
    { numRuns: Number(process.env.FUZZ_RUNS ?? 300) },
  );
});

const TABLE = '| a | b |\n| - | - |\n| c | d |\n';

test.each([
  `${TABLE}\`\`\`\n\`\`\`\nafter the code\ngoes on\n`,
  `${TABLE}~~~ x\n~~~\nafter the code\ngoes on\n`,
  `- \`\`\`\n${TABLE}\`\`\`\nafter\ngoes on\n`,
  `2) a | b\n-|-\n| c |\n| d |\n`,
  `a\n\n2) a | b\n-|-\n| c |\n| d |\n`,
  `a\n    > # not a quote\n`,
  `a\n    > - b\n`,
])('what ends a table begins one count, not one a line: %j', (text) => {
  expect(startsInside(text)).toEqual([]);
});

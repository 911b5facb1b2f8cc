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

test('no paragraph escapes the count: none begins anew inside a paragraph that the parser sees', () => {
  fc.assert(
    fc.property(markdownText, (document) => {
      const text = document.replace(/^\uFEFF/, '');
      const tree = parseSyntaxTree(text, 'end of file', NO_LABELS);
      const starts = countStarts(text);
      for (const [start, end] of tree.root ? paragraphs(tree.root) : []) {
        const inside = [...starts].filter((offset) => offset > start && offset < end);
        expect(inside).toEqual([]);
      }
    }),
    { numRuns: Number(process.env.FUZZ_RUNS ?? 300) },
  );
});

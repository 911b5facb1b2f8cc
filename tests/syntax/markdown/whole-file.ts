/** The reading that sections are compared with: the whole file through the parser at once. */
import { contentStart, findFrontMatter } from '../../../server/syntax/front-matter';
import type { Block } from '../../../server/syntax/markdown/block';
import { blocksOf } from '../../../server/syntax/markdown/blocks';
import { NO_LABELS } from '../../../server/syntax/markdown/label';
import { moveBlocks } from '../../../server/syntax/markdown/move';
import { FIRST_OFFSET, parseSyntaxTree } from '../../../server/syntax/markdown/syntax-tree';

/** The blocks of a text that is not cut into sections. */
export function wholeFileBlocks(text: string): readonly Block[] {
  const start = findFrontMatter(text)?.outer.end ?? contentStart(text);
  const tree = parseSyntaxTree(text.slice(start), 'end of file', NO_LABELS);
  if (tree.root === null) throw new Error('the text is past a limit');
  return moveBlocks(blocksOf(tree.root.children, tree.source), start - FIRST_OFFSET);
}

/** All code spans of a document's prose, wherever they stand; none of quotes, fenced code or comments, which are opaque. */
import type { Block, CodeSpan } from './block';

/** In text order. */
export function codeSpansIn(blocks: readonly Block[]): readonly CodeSpan[] {
  return blocks.flatMap(codeSpansOf);
}

function codeSpansOf(block: Block): readonly CodeSpan[] {
  switch (block.type) {
    case 'heading':
    case 'paragraph':
      return block.prose.codes;
    case 'list':
      return block.items.flatMap((item) => codeSpansIn(item.blocks));
    case 'table':
      return [...block.header, ...block.rows.flatMap(({ cells }) => cells)].flatMap(({ codes }) => codes);
    case 'other':
      return [];
  }
}

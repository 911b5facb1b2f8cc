/** From the Markdown parser's tree to the few shapes of blocks that requirements are made of. */
import type { ListItem as ListItemNode, RootContent, Table as TableNode, TableRow as TableRowNode } from 'mdast';
import { type Span, spanOf } from '../span';
import type { Block, ListItem, Prose, Table, TableRow } from './block';
import { EMPTY_PROSE, proseOf } from './prose';

/** The blocks of a tree over `source`; spans are offsets as in the tree. Quotes and code are opaque. */
export function blocksOf(nodes: readonly RootContent[], source: string): Block[] {
  return nodes.map((node) => blockOf(node, source));
}

function blockOf(node: RootContent, source: string): Block {
  const span = placeOf(node);
  switch (node.type) {
    case 'heading':
      return { type: 'heading', depth: node.depth, prose: proseOf(node.children, source), span };
    case 'paragraph':
      return { type: 'paragraph', prose: proseOf(node.children, source), span };
    case 'list':
      return { type: 'list', items: node.children.map((item) => itemOf(item, source)), span };
    case 'table':
      return tableOf(node, source, span);
    default:
      return { type: 'other', span };
  }
}

function itemOf(item: ListItemNode, source: string): ListItem {
  const blocks = blocksOf(item.children, source);
  const [first] = blocks;
  if (first?.type === 'paragraph') blocks[0] = { ...first, prose: withoutCheckBox(first.prose) };
  return { blocks, span: placeOf(item) };
}

const CHECK_BOX = /^\[[ \txX]\][ \t]/;

/** The check box of a task (GFM 0.29, 5.3) is a mark of the item, not of its text. */
function withoutCheckBox(prose: Prose): Prose {
  const length = CHECK_BOX.exec(prose.text)?.[0].length ?? 0;
  const [first, ...others] = prose.runs;
  if (length === 0 || !first?.verbatim || first.length < length) return prose;
  const documentSpan = spanOf(first.documentSpan.start + length, first.documentSpan.end);
  return {
    text: prose.text.slice(length),
    codes: prose.codes.map((code) => ({ ...code, at: code.at - length })),
    runs: [
      { ...first, length: first.length - length, documentSpan },
      ...others.map((run) => ({ ...run, start: run.start - length })),
    ],
  };
}

function tableOf(table: TableNode, source: string, span: Span): Table {
  const [header, ...rows] = table.children;
  const headerCells = header ? cellsOf(header, source) : [];
  return { type: 'table', header: headerCells, rows: rows.map((row) => rowOf(row, headerCells.length, source)), span };
}

/** Cells past the header are not shown, missing ones are empty (GFM 0.29, 4.10). */
function rowOf(row: TableRowNode, width: number, source: string): TableRow {
  const cells = cellsOf(row, source).slice(0, width);
  while (cells.length < width) cells.push(EMPTY_PROSE);
  return { cells, span: placeOf(row) };
}

function cellsOf(row: TableRowNode, source: string): Prose[] {
  return row.children.map((cell) => proseOf(cell.children, source));
}

function placeOf(node: RootContent | ListItemNode | TableRowNode): Span {
  return spanOf(node.position?.start.offset ?? 0, node.position?.end.offset ?? 0);
}

/** Blocks at another place: a section that was parsed once stands elsewhere when text before it has changed. */
import { type Span, spanOf } from '../span';
import type { Block, CodeSpan, ListItem, Prose, ProseRun, Table, TableRow } from './block';

/** The same blocks with every document offset `by` characters further on. */
export function moveBlocks(blocks: readonly Block[], by: number): readonly Block[] {
  return by === 0 ? blocks : blocks.map((block) => moveBlock(block, by));
}

function moveBlock(block: Block, by: number): Block {
  const span = moveSpan(block.span, by);
  switch (block.type) {
    case 'heading':
    case 'paragraph':
      return { ...block, prose: moveProse(block.prose, by), span };
    case 'list':
      return { ...block, items: block.items.map((item) => moveItem(item, by)), span };
    case 'table':
      return moveTable(block, by);
    case 'other':
      return { ...block, span };
  }
}

function moveItem(item: ListItem, by: number): ListItem {
  return { blocks: moveBlocks(item.blocks, by), span: moveSpan(item.span, by) };
}

function moveTable(table: Table, by: number): Table {
  const header = table.header.map((cell) => moveProse(cell, by));
  return { type: 'table', header, rows: table.rows.map((row) => moveRow(row, by)), span: moveSpan(table.span, by) };
}

function moveRow(row: TableRow, by: number): TableRow {
  return { cells: row.cells.map((cell) => moveProse(cell, by)), span: moveSpan(row.span, by) };
}

function moveProse(prose: Prose, by: number): Prose {
  const codes = prose.codes.map((code) => moveCode(code, by));
  return { text: prose.text, codes, runs: prose.runs.map((run) => moveRun(run, by)) };
}

function moveCode(code: CodeSpan, by: number): CodeSpan {
  return { ...code, span: moveSpan(code.span, by), outer: moveSpan(code.outer, by) };
}

function moveRun(run: ProseRun, by: number): ProseRun {
  return { ...run, documentSpan: moveSpan(run.documentSpan, by) };
}

/** A span `by` characters further on. */
export function moveSpan(span: Span, by: number): Span {
  return spanOf(span.start + by, span.end + by);
}

/** Tables of plain cells with a bar at either end of each row, read without the parser. */
import { spanOf } from '../span';
import type { Prose, Table, TableRow } from './block';
import { type PlainLine, plainProse } from './plain-prose';
import { EMPTY_PROSE } from './prose';

const DELIMITER_ROW = /^\|(?: *:?-+:? *\|)+$/;
const ROW = /^\|[^\\]*\|$/s;

/** The table that begins with the line at `index`, and the index of the line after it; null where the parser must decide. */
export function readPlainTable(
  lines: readonly PlainLine[],
  index: number,
): { readonly block: Table; readonly next: number } | null {
  const [first, delimiters] = [lines[index], lines[index + 1]];
  if (first === undefined || delimiters === undefined || !DELIMITER_ROW.test(delimiters.text)) return null;
  const header = cellsOf(first);
  if (header === null || header.length !== delimiters.text.split('|').length - 2) return null;
  const rows: TableRow[] = [];
  let next = index + 2;
  for (; next < lines.length && lines[next]?.text !== ''; next += 1) {
    const row = rowOf(lines[next] as PlainLine, header.length);
    if (row === null) return null;
    rows.push(row);
  }
  const last = lines[next - 1] as PlainLine;
  return { block: { type: 'table', header, rows, span: spanOf(first.start, last.start + last.text.length) }, next };
}

/** Cells past the header are not shown, missing ones are empty (GFM 0.29, 4.10). */
function rowOf(line: PlainLine, width: number): TableRow | null {
  const read = cellsOf(line);
  if (read === null) return null;
  const cells = read.slice(0, width);
  while (cells.length < width) cells.push(EMPTY_PROSE);
  return { cells, span: spanOf(line.start, line.start + line.text.length) };
}

function cellsOf({ start, text }: PlainLine): Prose[] | null {
  if (text.length < 2 || !ROW.test(text)) return null;
  const cells: Prose[] = [];
  let at = 1;
  for (const written of text.slice(1, -1).split('|')) {
    const content = written.replace(/^ +| +$/g, '');
    const indent = written.length - written.replace(/^ +/, '').length;
    const prose = proseOfCell({ start: start + at + indent, text: content });
    if (prose === null) return null;
    cells.push(prose);
    at += written.length + 1;
  }
  return cells;
}

function proseOfCell(content: PlainLine): Prose | null {
  return content.text === '' ? EMPTY_PROSE : plainProse([content]);
}

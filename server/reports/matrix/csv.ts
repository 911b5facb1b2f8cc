/** `matrix --format csv`: a row a requirement (RFC 4180), in which no cell can become a formula. */
import { stringify } from 'csv-stringify/sync';
import { wellFormed } from '../well-formed';
import type { Matrix } from './record';
import { requirementSheet } from './sheets';

export function matrixCsv(matrix: Matrix): string {
  const { columns, rows } = requirementSheet(matrix);
  const cells = rows.map((row) => row.map((cell) => (typeof cell === 'string' ? textCell(cell) : cell)));
  return stringify([columns.map(([name]) => name), ...cells], { record_delimiter: 'windows' });
}

/** What spreadsheets take for the beginning of a formula (common practice, no source). */
const FORMULA = /^\s*[=+\-@\uFF1D\uFF0B\uFF0D\uFF20]|^[\t\r\n]/u;

/** An apostrophe makes a cell text in every spreadsheet. Numbers are numbers and never come here. */
function textCell(text: string): string {
  const clean = wellFormed(text).replaceAll('\0', '\uFFFD');
  return FORMULA.test(clean) ? `'${clean}` : clean;
}

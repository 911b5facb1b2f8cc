/** `matrix --format xlsx`: typed cells, a header that stays, filters; text cells are text whatever they begin with. */
import writeWorkbook, { type Feature, type Sheet as WorkbookSheet } from 'write-excel-file/universal';
import { xmlText } from '../well-formed';
import { withoutTimes } from '../zip-times';
import type { Matrix } from './record';
import { type Cell, type Sheet, sheetsOf } from './sheets';

/** The bytes of a workbook (ISO/IEC 29500-1): the same for the same matrix. */
export async function matrixXlsx(matrix: Matrix): Promise<Uint8Array> {
  const sheets = sheetsOf(matrix);
  const blob = await writeWorkbook(sheets.map(workbookSheet), { features: [filters(sheets)] }).toBlob();
  return withoutTimes(new Uint8Array(await blob.arrayBuffer()));
}

/** Filters in the header of every sheet (ISO/IEC 29500-1, 18.3.1.2), which stand behind its data. */
function filters(sheets: readonly Sheet[]): Feature<Blob> {
  const transform = (xml: string, _: unknown, { sheetIndex }: { readonly sheetIndex: number }) => {
    const { columns = [], rows = [] } = sheets[sheetIndex] ?? {};
    const filter = `<autoFilter ref="A1:${columnName(columns.length)}${rows.length + 1}"/>`;
    return xml.replace('</sheetData>', `</sheetData>${filter}`);
  };
  return { files: { transform: { 'xl/worksheets/sheet{id}.xml': { transform } } } };
}

/** `A` for 1, `Z` for 26, `AA` for 27. */
function columnName(number: number): string {
  const letter = String.fromCharCode(65 + ((number - 1) % 26));
  return number > 26 ? columnName(Math.floor((number - 1) / 26)) + letter : letter;
}

/** Most characters of a cell (ISO/IEC 29500-1, 18.3.1.4, and the limits of spreadsheets: common practice, no source). */
const MOST_CHARACTERS = 32_767;

function workbookSheet({ name, columns, rows }: Sheet): WorkbookSheet<Blob> {
  const head = columns.map(([column]) => ({ value: column, type: String, fontWeight: 'bold' as const }));
  return {
    sheet: name,
    columns: columns.map(([, width]) => ({ width })),
    stickyRowsCount: 1,
    stickyColumnsCount: 1,
    data: [head, ...rows.map((row) => row.map(workbookCell))],
  };
}

function workbookCell(cell: Cell) {
  if (cell === null || cell === '') return null;
  if (typeof cell === 'number') return { value: cell, type: Number };
  return { value: cut(xmlText(cell)), type: String, wrap: true, alignVertical: 'top' as const };
}

function cut(text: string): string {
  return text.length <= MOST_CHARACTERS ? text : `${text.slice(0, MOST_CHARACTERS - 1)}…`;
}

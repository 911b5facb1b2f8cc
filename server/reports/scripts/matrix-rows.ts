/** The rows of the matrix in the page, and the order in which a column puts them. */
import type { RowFacts } from './filter-state';

export interface MatrixElement extends RowFacts {
  readonly element: HTMLTableSectionElement;
  /** Its place in the page, in whatever order the rows are shown. */
  readonly index: number;
  readonly id: string;
  /** Of a limit, what is left; null where nothing can be told. */
  readonly share: number | null;
}

export function matrixElements(table: HTMLTableElement): readonly MatrixElement[] {
  return [...table.tBodies].map((element, shownAs) => {
    let text: string | null = null;
    const { verdict = '', evidence = '', document = '', share = '', place = shownAs } = element.dataset;
    return {
      element,
      index: Number(place),
      id: element.id,
      verdict,
      evidence,
      document,
      share: share === '' ? null : Number(share),
      text: () => {
        text ??= (element.textContent ?? '').toLowerCase();
        return text;
      },
    };
  });
}

/** The words of a column in the order in which they are told. */
export type WordOrder = (column: string) => readonly string[];

/** What cannot be told comes last, whichever way; ties stay as they are in the documents. */
export function inOrderOf(
  rows: readonly MatrixElement[],
  column: string,
  down: boolean,
  wordOrder: WordOrder,
): readonly MatrixElement[] {
  const compare = comparisonOf(column, wordOrder(column));
  if (compare === null) return [...rows].sort((a, b) => a.index - b.index);
  return [...rows].sort((a, b) => {
    if (column === 'margin' && (a.share === null || b.share === null)) {
      return Number(a.share === null) - Number(b.share === null) || a.index - b.index;
    }
    return (down ? -compare(a, b) : compare(a, b)) || a.index - b.index;
  });
}

function comparisonOf(column: string, words: readonly string[]) {
  const place = (word: string) => (words.includes(word) ? words.indexOf(word) : words.length);
  switch (column) {
    case 'id':
      return (a: MatrixElement, b: MatrixElement) => a.id.localeCompare(b.id, 'en', { numeric: true });
    case 'verdict':
      return (a: MatrixElement, b: MatrixElement) => place(a.verdict) - place(b.verdict);
    case 'evidence':
      return (a: MatrixElement, b: MatrixElement) => place(a.evidence) - place(b.evidence);
    case 'margin':
      return (a: MatrixElement, b: MatrixElement) => (a.share ?? 0) - (b.share ?? 0);
    default:
      return null;
  }
}

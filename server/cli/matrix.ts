/** `plimsoll matrix`: the review matrix as a page, as text, or for a spreadsheet. */
import { dirname, relative, resolve } from 'node:path';
import { type Host, today } from '../host';
import { jsonText } from '../reports/json-text';
import { matrixCsv } from '../reports/matrix/csv';
import { matrixHtml } from '../reports/matrix/html/page';
import { matrixJson } from '../reports/matrix/json';
import { matrixMarkdown } from '../reports/matrix/markdown';
import { matrixOf } from '../reports/matrix/matrix';
import type { Matrix } from '../reports/matrix/record';
import { matrixXlsx } from '../reports/matrix/xlsx';
import type { Links } from '../reports/page/links';
import { pathReference } from '../reports/well-formed';
import { type Content, type Delivery, deliver } from './deliver';
import type { ExitStatus } from './exit-status';
import { type CheckedProduct, checkProduct } from './product';

export const MATRIX_FORMATS = ['html', 'markdown', 'csv', 'xlsx', 'json'] as const;

type MatrixFormat = (typeof MATRIX_FORMATS)[number];

export interface MatrixOptions extends Delivery {
  readonly format: MatrixFormat;
  /** The day to take for today, ISO 8601. */
  readonly date?: string;
}

export async function runMatrix(host: Host, dir: string, options: MatrixOptions): Promise<ExitStatus> {
  const checked = await checkProduct(host, dir, options.date ?? today(host));
  if (checked === null) return 2;
  const matrix = await matrixOfProduct(host, checked);
  const content = await written(options.format, matrix, linksFrom(options, checked.root));
  const isWritten = await deliver(host, content, options);
  return isWritten && !checked.incomplete && !checked.result.badConfiguration ? 0 : 2;
}

async function written(format: MatrixFormat, matrix: Matrix, links: Links): Promise<Content> {
  switch (format) {
    case 'html':
      return matrixHtml(matrix, links);
    case 'markdown':
      return matrixMarkdown(matrix, links);
    case 'csv':
      return matrixCsv(matrix);
    case 'xlsx':
      return matrixXlsx(matrix);
    case 'json':
      return { pieces: jsonText({ ...matrixJson(matrix) }) };
  }
}

async function matrixOfProduct(host: Host, { result, name, root }: CheckedProduct): Promise<Matrix> {
  const repository = await host.repository(root);
  const revision = repository && { commit: repository.revision, isModified: repository.isModified };
  return matrixOf(result, { product: name, revision });
}

/** Where the documents are from the file that is written; standard output is taken for a file in the product's folder. */
function linksFrom({ output }: Delivery, root: string): Links {
  if (output === undefined) return { base: '' };
  const path = relative(dirname(resolve(output)), root).replaceAll('\\', '/');
  // On Windows another drive is out of reach.
  if (/^[a-z]:/i.test(path)) return { base: null };
  return { base: path === '' ? '' : `${pathReference(path)}/` };
}

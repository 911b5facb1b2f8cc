/** Links of a document: the files that its front matter reads and its evidence. */
import type { Analysis } from '../engine/analysis';
import type { Span } from '../syntax/span';

export interface DocumentLink {
  readonly span: Span;
  /** Below the product's folder. */
  readonly path: string;
}

export function linksIn({ product }: Analysis, file: string): readonly DocumentLink[] {
  const document = product.documents.find((one) => one.file === file);
  if (document === undefined) return [];
  return [
    ...document.dataFiles.map(({ path, span }) => ({ path, span })),
    ...document.evidenceFiles.flatMap(({ path, span }) => (path === null ? [] : [{ path, span }])),
  ];
}

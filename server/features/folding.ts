/** What can be folded: the front matter, and each requirement. */
import type { Analysis } from '../engine/analysis';
import { findFrontMatter } from '../syntax/front-matter';
import type { Span } from '../syntax/span';

export function foldsIn({ product }: Analysis, file: string, text: string): readonly Span[] {
  const document = product.documents.find((one) => one.file === file);
  if (document === undefined) return [];
  const frontMatter = findFrontMatter(text);
  const inTables = new Set(
    document.requirements.filter(({ span }) => !text.slice(span.start, span.end).includes('\n')),
  );
  return [
    ...(frontMatter === null ? [] : [frontMatter.outer]),
    ...document.requirements.filter((requirement) => !inTables.has(requirement)).map(({ span }) => span),
  ];
}

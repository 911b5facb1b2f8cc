/** What can be written at a place of a document. */
import type { ProductAnalysis } from '../findings/product-analysis';
import { CONFIGURATION_FILE } from '../model/configuration';
import { contentStart, findFrontMatter } from '../syntax/front-matter';
import { configurationItems } from './completion/configuration';
import { frontMatterItems } from './completion/front-matter';
import { type CompletionItem, cursorAt } from './completion/item';
import { proseItems } from './completion/prose';

export type { CompletionItem, CompletionKind } from './completion/item';

export function completionsAt(
  { analysis }: ProductAnalysis,
  file: string,
  text: string,
  offset: number,
): readonly CompletionItem[] {
  const cursor = cursorAt(text, offset);
  if (file === CONFIGURATION_FILE) return configurationItems(analysis, cursor);
  const isRead = analysis.product.documents.some((one) => one.file === file);
  if (isInFrontMatter(text, offset)) return frontMatterItems(analysis, cursor);
  return isRead ? proseItems(analysis, file, cursor) : [];
}

/** While it is typed front matter has no end yet: then all that follows is taken for it up to the first heading. */
function isInFrontMatter(text: string, offset: number): boolean {
  const found = findFrontMatter(text);
  if (found !== null) return found.content.start <= offset && offset <= found.content.end;
  const start = contentStart(text);
  if (!/^---[ \t]*\r?\n/.test(text.slice(start))) return false;
  const heading = text.search(/^#/mu);
  return offset > start + 3 && (heading < 0 || offset < heading);
}

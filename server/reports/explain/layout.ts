/** How an explanation is laid out in lines. */
import type { ProductAnalysis } from '../../findings/product-analysis';
import type { Place } from '../../model/place';
import { createLineIndex } from '../../syntax/line-index';
import type { TextStyle } from '../text-style';

/** A heading with indented lines after a blank one; nothing where there are no lines. */
export function section(title: string, lines: readonly string[], style: TextStyle): readonly string[] {
  return lines.length === 0 ? [] : ['', `  ${style.paint('heading', title)}`, ...lines.map((line) => `    ${line}`)];
}

/** `design/power.md:12`. */
export function placeText({ texts }: ProductAnalysis, { file, span }: Place): string {
  return `${file}:${createLineIndex(texts.get(file) ?? '').positionAt(span.start).line + 1}`;
}

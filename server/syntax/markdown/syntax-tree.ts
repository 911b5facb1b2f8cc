/** One section through the Markdown parser: CommonMark with GFM, labels of the whole file known, work bounded. */
import type { Root } from 'mdast';
import { fromMarkdown, type Options } from 'mdast-util-from-markdown';
import { gfmFromMarkdown } from 'mdast-util-gfm';
import { gfm } from 'micromark-extension-gfm';
import { createDelimiterCounter } from './delimiter-counter';
import type { Labels } from './label';
import { createLabelCarrier } from './label-carrier';
import { textPieces } from './text-pieces';

/** A section's tree; offsets of its nodes are those in `source`, where the section begins at {@link FIRST_OFFSET}. */
export type SyntaxTree =
  | { readonly root: Root; readonly source: string; readonly defined: Labels }
  /** One paragraph holds more delimiters than the parser takes in reasonable time; `at` is an offset as in a tree. */
  | { readonly root: null; readonly tooManyAt: number };

/** A line end goes before the text, or the parser would drop a byte order mark there and lose count by one. */
const GUARD = '\n';
/** The offset that a tree gives to the section's first character. */
export const FIRST_OFFSET = GUARD.length;

/** What comes after a section in its file. */
export type Following = 'heading' | 'end of file';
/** An empty heading: where code in a list item ends is told by the line that ends it. */
const NEXT_HEADING = '#';

type MicromarkExtensions = NonNullable<NonNullable<Options['extensions']>>;

/**
 * A tilde alone is "about" here (`~5 W`), so only two strike out. Bare addresses read the same with and without being
 * links, and looking for them at every letter is slow. The parser's check boxes are wrong after an empty item (`-` and
 * `[ ]` on two lines), so they are recognised with the blocks.
 */
const SYNTAX: MicromarkExtensions = [
  gfm({ singleTilde: false }),
  { disable: { null: ['wwwAutolink', 'protocolAutolink', 'emailAutolink', 'tasklistCheck'] } },
];
/** Without the transforms that make links of addresses: those have no places. */
const TREE = [...gfmFromMarkdown().map(({ transforms: _, ...extension }) => extension), textPieces];

/** Parses a section to which `labels` of other sections are known. */
export function parseSyntaxTree(sectionText: string, following: Following, labels: Labels): SyntaxTree {
  const source = GUARD + sectionText + (following === 'heading' ? NEXT_HEADING : '');
  const counter = createDelimiterCounter();
  const carrier = createLabelCarrier(labels);
  try {
    const extensions = [...SYNTAX, carrier.extension, counter.extension];
    const root = fromMarkdown(source, { extensions, mdastExtensions: TREE });
    if (following === 'heading') root.children.pop();
    return { root, source, defined: carrier.defined() };
  } catch (error) {
    const tooManyAt = counter.exceededAt();
    if (tooManyAt === null) throw error;
    return { root: null, tooManyAt };
  }
}

/** The few Markdown shapes that requirements are made of; everything else is one opaque block. */
import type { Span } from '../span';

/**
 * Inline content as the text a reader sees: emphasis, links and character references are read as what they show,
 * a soft line break is a space, and each code span is one U+FFFC standing at its place.
 */
export interface Prose {
  readonly text: string;
  readonly codes: readonly CodeSpan[];
  /** Runs of `text` and where they stand in the document; in order, without gaps in `text`. */
  readonly runs: readonly ProseRun[];
}

/** A code span inside prose. */
export interface CodeSpan {
  /** Offset of its U+FFFC in the prose's text. */
  readonly at: number;
  /** The content as CommonMark reads it (one space stripped, line ends as spaces). */
  readonly code: string;
  /** The content in the document, without the backticks and the stripped spaces. */
  readonly span: Span;
  /** The whole span with its backticks. */
  readonly outer: Span;
}

/** `text[start … start + length)` shows `document[documentStart …)`; when not verbatim, all of it shows the whole `documentSpan`. */
export interface ProseRun {
  readonly start: number;
  readonly length: number;
  readonly documentSpan: Span;
  /** Character for character the document's text. */
  readonly verbatim: boolean;
}

export type Block = Heading | Paragraph | List | Table | OtherBlock;

export interface Heading {
  readonly type: 'heading';
  readonly depth: number;
  readonly prose: Prose;
  readonly span: Span;
}

export interface Paragraph {
  readonly type: 'paragraph';
  readonly prose: Prose;
  readonly span: Span;
}

export interface List {
  readonly type: 'list';
  readonly items: readonly ListItem[];
  readonly span: Span;
}

export interface ListItem {
  readonly blocks: readonly Block[];
  readonly span: Span;
}

/** A GFM table; rows are as long as the header. */
export interface Table {
  readonly type: 'table';
  readonly header: readonly Prose[];
  readonly rows: readonly TableRow[];
  readonly span: Span;
}

export interface TableRow {
  readonly cells: readonly Prose[];
  readonly span: Span;
}

/** Code, HTML, quotes, rules, definitions: nothing in them is a requirement. */
export interface OtherBlock {
  readonly type: 'other';
  readonly span: Span;
}

/**
 * Keeps every piece of text as a node of its own: plain characters, an escape, a character reference, a line end. The
 * parser would join them into one text, and where its characters stand in the document could no longer be told.
 */
import type { InlineCode, Nodes, Text } from 'mdast';
import type { CompileContext, Extension, Handle } from 'mdast-util-from-markdown';

type Token = Parameters<Handle>[0];

/** Where the content of a code span stands, without backticks and padding; offsets as in the tree. */
export interface CodePlace {
  readonly start: number;
  readonly end: number;
}

declare module 'mdast' {
  interface InlineCodeData {
    place?: CodePlace;
  }
}

/** For `fromMarkdown`; after the GFM extensions, whose handler of code spans in tables it includes. */
export const textPieces: Extension = {
  enter: { data: openText, characterEscape: openText, characterReference: openText },
  exit: { lineEnding: closeLineEnding, codeText: closeCodeText },
};

function openText(this: CompileContext, token: Token): undefined {
  const parent = this.stack.at(-1);
  const text: Text = { type: 'text', value: '', position: { start: token.start, end: token.end } };
  if (parent && 'children' in parent) (parent.children as Nodes[]).push(text);
  this.stack.push(text);
}

/** A line end belongs to the hard break before it; in a setext heading it may be the underline's. */
function closeLineEnding(this: CompileContext, token: Token): undefined {
  const parent = this.stack.at(-1);
  if (!parent || !('children' in parent)) return;
  const last = parent.children.at(-1);
  if (this.data.atHardBreak) {
    if (last?.position) last.position.end = token.end;
    this.data.atHardBreak = undefined;
  } else if (!this.data.setextHeadingSlurpLineEnding && this.config.canContainEols.includes(parent.type)) {
    const position = { start: token.start, end: token.end };
    (parent.children as Nodes[]).push({ type: 'text', value: this.sliceSerialize(token), position });
  }
}

/** In a table `\|` is a bar even inside code (GFM 0.29, 4.10). */
function closeCodeText(this: CompileContext, token: Token): undefined {
  const content = this.stack.at(-1);
  const pieces = content && 'children' in content ? content.children : [];
  const value = this.resume();
  const node = this.stack.at(-1) as InlineCode;
  node.value = this.data.inTable ? value.replaceAll('\\|', '|') : value;
  const start = pieces[0]?.position?.start.offset ?? token.start.offset;
  node.data = { place: { start, end: pieces.at(-1)?.position?.end.offset ?? token.end.offset } };
  this.exit(token);
}

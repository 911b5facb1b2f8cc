/** The documents that are open in the editor: their text counts, saved or not. */

import type { TextDocumentContentChangeEvent } from 'vscode-languageserver';
import { type Span, spanOf } from '../syntax/span';
import { difference } from '../syntax/text-difference';
import { createPositions, type Encoding } from './positions';

export interface Buffer {
  /** As the client spells it. */
  readonly uri: string;
  readonly version: number;
  readonly text: string;
}

/** A text after its changes, and the part of it that they touched. */
export interface ChangedText {
  readonly text: string;
  /** From the first to the last change, in the new text. */
  readonly touched: Span;
}

/** Applies the changes of one notification in their order; each is relative to the text that the one before left. */
export function applyChanges(
  text: string,
  changes: readonly TextDocumentContentChangeEvent[],
  encoding: Encoding,
): ChangedText {
  let changed: ChangedText | null = null;
  for (const change of changes) changed = joined(changed, applyChange(changed?.text ?? text, change, encoding));
  return changed ?? { text, touched: spanOf(0, 0) };
}

interface AppliedChange extends ChangedText {
  /** How much longer the text became. */
  readonly growth: number;
}

function applyChange(text: string, change: TextDocumentContentChangeEvent, encoding: Encoding): AppliedChange {
  const inserted = change.text;
  if (!('range' in change)) {
    const { start, end } = difference(text, inserted);
    return { text: inserted, touched: spanOf(start, end), growth: inserted.length - text.length };
  }
  const { start, end } = createPositions(text, encoding).spanOf(change.range);
  return {
    text: text.slice(0, start) + inserted + text.slice(end),
    touched: spanOf(start, start + inserted.length),
    growth: inserted.length - (end - start),
  };
}

function joined(before: ChangedText | null, { text, touched, growth }: AppliedChange): ChangedText {
  if (before === null) return { text, touched };
  const moved = before.touched.end > touched.start ? before.touched.end + growth : before.touched.end;
  return {
    text,
    touched: spanOf(Math.min(before.touched.start, touched.start), Math.max(Math.min(moved, text.length), touched.end)),
  };
}

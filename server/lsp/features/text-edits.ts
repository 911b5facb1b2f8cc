/** Edits in offsets of a document → edits of the protocol. */
import type { TextEdit } from 'vscode-languageserver';
import type { Edit } from '../../syntax/span';
import type { ProductPlacing } from '../state';

export function textEdits(placing: ProductPlacing, file: string, edits: readonly Edit[]): TextEdit[] {
  const positions = placing.positionsOf(file);
  return edits.map(({ span, text }) => ({ range: positions.rangeOf(span), newText: text }));
}

/** By URI. */
export function changesOf(
  placing: ProductPlacing,
  edits: ReadonlyMap<string, readonly Edit[]>,
): Record<string, TextEdit[]> {
  return Object.fromEntries([...edits].map(([file, list]) => [placing.uriOf(file), textEdits(placing, file, list)]));
}

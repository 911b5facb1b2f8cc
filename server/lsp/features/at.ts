/** A place of a document that a request asks about. */
import type { TextDocumentPositionParams } from 'vscode-languageserver';
import type { Positions } from '../positions';
import type { ServerState } from '../state';
import { type Subject, subjectOf } from '../subject';

export interface Asked extends Subject {
  readonly positions: Positions;
  readonly offset: number;
}

/** Null: the document belongs to no product that was read. */
export function askedAt(state: ServerState, { textDocument, position }: TextDocumentPositionParams): Asked | null {
  const subject = subjectOf(state, textDocument.uri);
  if (subject === null) return null;
  const positions = subject.placing.positionsOf(subject.file);
  return { ...subject, positions, offset: positions.offsetAt(position) };
}

/** Outlines of documents and symbols of the workspace. */
import { type DocumentSymbol, SymbolKind } from 'vscode-languageserver';
import {
  documentSymbols,
  type SymbolKind as OurKind,
  type DocumentSymbol as OurSymbol,
  workspaceSymbols,
} from '../../features/symbols';
import type { Positions } from '../positions';
import { readyRequest } from '../reading';
import { placingOf, type ServerState } from '../state';
import { subjectOf } from '../subject';

const KINDS: Readonly<Record<OurKind, SymbolKind>> = {
  requirement: SymbolKind.Class,
  fact: SymbolKind.Variable,
  table: SymbolKind.Namespace,
  row: SymbolKind.Object,
  record: SymbolKind.Event,
};

export function registerSymbols(state: ServerState): void {
  const { connection, products } = state;
  connection.onDocumentSymbol(
    readyRequest(state, 'documentSymbol', ({ textDocument }) => {
      const subject = subjectOf(state, textDocument.uri);
      if (subject === null) return null;
      const positions = subject.placing.positionsOf(subject.file);
      return documentSymbols(subject.whole.analysis, subject.file).map((symbol) => symbolOf(symbol, positions));
    }),
  );
  connection.onWorkspaceSymbol(
    readyRequest(state, 'workspaceSymbol', ({ query }) => {
      if (!state.isScanned) return null;
      return [...products.all()].flatMap((live) => {
        const whole = products.analysis(live);
        const placing = placingOf(state, live, whole.texts);
        return workspaceSymbols(whole.analysis, query).map(({ name, kind, place, container }) => ({
          name,
          kind: KINDS[kind],
          containerName: container,
          location: { uri: placing.uriOf(place.file), range: placing.positionsOf(place.file).rangeOf(place.span) },
        }));
      });
    }),
  );
}

function symbolOf({ name, detail, kind, span, nameSpan, children }: OurSymbol, positions: Positions): DocumentSymbol {
  return {
    name: name === '' ? '?' : name,
    detail,
    kind: KINDS[kind],
    range: positions.rangeOf(span),
    selectionRange: positions.rangeOf(nameSpan),
    children: children.map((child) => symbolOf(child, positions)),
  };
}

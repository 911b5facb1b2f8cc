/** Definition, implementation, references and highlights. */
import { DocumentHighlightKind, type Location, type TextDocumentPositionParams } from 'vscode-languageserver';
import { definitionsAt, highlightsAt, implementationsAt, referencesAt } from '../../features/navigation';
import type { Place } from '../../model/place';
import { readyRequest } from '../reading';
import type { ServerState } from '../state';
import { placeOf } from '../subject';
import { type Asked, askedAt } from './at';

export function registerNavigation(state: ServerState): void {
  const { connection } = state;
  const places = (params: TextDocumentPositionParams, find: (asked: Asked) => readonly Place[]): Location[] | null => {
    const asked = askedAt(state, params);
    if (asked === null) return null;
    const found = find(asked);
    return found.length === 0 ? null : found.map((place) => placeOf(asked, place));
  };
  connection.onDefinition(
    readyRequest(state, 'definition', (params) =>
      places(params, ({ whole, file, offset }) => definitionsAt(whole, file, offset)),
    ),
  );
  connection.onImplementation(
    readyRequest(state, 'implementation', (params) =>
      places(params, ({ whole, file, offset }) => implementationsAt(whole, file, offset)),
    ),
  );
  connection.onReferences(
    readyRequest(state, 'references', (params) =>
      places(params, ({ whole, file, offset }) =>
        referencesAt(whole, file, offset).filter((one) => params.context.includeDeclaration || !one.isDefinition),
      ),
    ),
  );
  connection.onDocumentHighlight(
    readyRequest(state, 'documentHighlight', (params) => {
      const asked = askedAt(state, params);
      if (asked === null) return null;
      const found = highlightsAt(asked.whole, asked.file, asked.offset);
      if (found.length === 0) return null;
      return found.map(({ span, isDefinition }) => ({
        range: asked.positions.rangeOf(span),
        kind: isDefinition ? DocumentHighlightKind.Write : DocumentHighlightKind.Read,
      }));
    }),
  );
}

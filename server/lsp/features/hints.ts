/** Inlay hints and code lenses. */
import type { CodeLens } from 'vscode-languageserver';
import { hintsIn } from '../../features/hints';
import { lensesIn, type CodeLens as OurLens } from '../../features/lenses';
import { guardedRequest } from '../guard';
import type { ServerState } from '../state';
import { placeOf, type Subject, subjectOf } from '../subject';

/** Commands of the editor that a lens may lead to, where it has them. */
const SHOW_PLACES = 'plimsoll.showPlaces';

export function registerHints(state: ServerState): void {
  const { connection } = state;
  connection.languages.inlayHint.on(
    guardedRequest(connection, 'inlayHint', ({ textDocument, range }) => {
      const subject = subjectOf(state, textDocument.uri);
      if (subject === null) return null;
      const positions = subject.placing.positionsOf(subject.file);
      return hintsIn(subject.whole, subject.file, positions.spanOf(range)).map(({ offset, text, tooltip }) => ({
        position: positions.positionAt(offset),
        label: text,
        tooltip,
        paddingLeft: true,
      }));
    }),
  );
}

export function registerLenses(state: ServerState): void {
  const { connection } = state;
  connection.onCodeLens(
    guardedRequest(connection, 'codeLens', ({ textDocument }) => {
      const subject = subjectOf(state, textDocument.uri);
      if (subject === null) return null;
      return lensesIn(subject.whole.analysis, subject.file).map((lens) => lensOf(state, subject, lens));
    }),
  );
}

/** An editor without the command shows the text and leads nowhere. */
function lensOf({ options }: ServerState, subject: Subject, { span, title, places }: OurLens): CodeLens {
  const range = subject.placing.positionsOf(subject.file).rangeOf(span);
  if (!options.commands?.includes(SHOW_PLACES)) return { range, command: { title, command: '' } };
  const found = places.map((place) => placeOf(subject, place));
  const here = subject.placing.uriOf(subject.file);
  return { range, command: { title, command: SHOW_PLACES, arguments: [here, range.start, found] } };
}

/** Inlay hints and code lenses. */
import type { CodeLens } from 'vscode-languageserver';
import { hintsIn } from '../../features/hints';
import { lensesIn, type CodeLens as OurLens } from '../../features/lenses';
import { commandOf } from '../commands';
import { readyRequest } from '../reading';
import type { ServerState } from '../state';
import { heldOf, placeOf, type Subject, subjectOf } from '../subject';

export function registerHints(state: ServerState): void {
  const { connection } = state;
  connection.languages.inlayHint.on(
    readyRequest(state, 'inlayHint', ({ textDocument, range }) => {
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
    readyRequest(state, 'codeLens', ({ textDocument }) => {
      const subject = subjectOf(state, textDocument.uri);
      if (subject === null) return null;
      const lenses = lensesIn(subject.whole.analysis, subject.file, heldOf(state, subject));
      return lenses.flatMap((lens) => lensesOf(state, subject, lens));
    }),
  );
}

/** An editor without the command shows the text and leads nowhere. */
function lensesOf(state: ServerState, subject: Subject, lens: OurLens): readonly CodeLens[] {
  const { span, title, places, trial } = lens;
  const range = subject.placing.positionsOf(subject.file).rangeOf(span);
  const uri = subject.placing.uriOf(subject.file);
  const found = places.map((place) => placeOf(subject, place));
  const show = commandOf(state, title, 'plimsoll.showPlaces', uri, range.start, found) ?? { title, command: '' };
  const attempt = trial && commandOf(state, 'try other figures', 'plimsoll.trial', { uri, ...trial });
  return [show, ...(attempt === null ? [] : [attempt])].map((command) => ({ range, command }));
}

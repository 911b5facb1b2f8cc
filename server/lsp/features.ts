/** Requests of the editor → features, and what they say → the protocol. */
import { CodeActionKind, type Connection, MarkupKind } from 'vscode-languageserver';
import { codeActionsIn } from '../features/code-actions';
import { hoverAt } from '../features/hover';
import { diagnosticOf } from './diagnostics';
import { guardedRequest } from './guard';
import type { ServerState } from './state';
import { subjectOf } from './subject';

export function registerFeatures(state: ServerState): void {
  const { connection } = state;
  connection.onHover(
    guardedRequest(connection, 'hover', ({ textDocument, position }) => {
      const subject = subjectOf(state, textDocument.uri);
      if (subject === null) return null;
      const { whole, file, placing } = subject;
      const positions = placing.positionsOf(file);
      const hover = hoverAt(whole, file, positions.offsetAt(position));
      if (hover === null) return null;
      return { contents: { kind: MarkupKind.Markdown, value: hover.text }, range: positions.rangeOf(hover.span) };
    }),
  );
  registerCodeActions(connection, state);
}

function registerCodeActions(connection: Connection, state: ServerState): void {
  connection.onCodeAction(
    guardedRequest(connection, 'codeAction', ({ textDocument, range }) => {
      const subject = subjectOf(state, textDocument.uri);
      if (subject === null) return [];
      const { whole, file, placing } = subject;
      const positions = placing.positionsOf(file);
      return codeActionsIn(whole, file, positions.spanOf(range)).map(({ title, finding, edits, isPreferred }) => ({
        title,
        kind: CodeActionKind.QuickFix,
        isPreferred,
        diagnostics: [diagnosticOf(finding, placing)],
        edit: {
          changes: {
            [textDocument.uri]: edits.map(({ span, text }) => ({ range: positions.rangeOf(span), newText: text })),
          },
        },
      }));
    }),
  );
}

/** Hovers, and the fixes of findings. */
import { CodeActionKind, MarkupKind } from 'vscode-languageserver';
import { codeActionsIn } from '../../features/code-actions';
import { hoverAt } from '../../features/hover';
import { diagnosticOf } from '../diagnostics';
import { guardedRequest } from '../guard';
import type { ServerState } from '../state';
import { subjectOf } from '../subject';
import { askedAt } from './at';

export function registerHover(state: ServerState): void {
  const { connection } = state;
  connection.onHover(
    guardedRequest(connection, 'hover', (params) => {
      const asked = askedAt(state, params);
      const hover = asked === null ? null : hoverAt(asked.whole, asked.file, asked.offset);
      if (asked === null || hover === null) return null;
      const value = hover.text;
      return { contents: { kind: MarkupKind.Markdown, value }, range: asked.positions.rangeOf(hover.span) };
    }),
  );
}

export function registerCodeActions(state: ServerState): void {
  const { connection } = state;
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

/** What is said where the mouse rests, over the wire. */
import { MarkupKind } from 'vscode-languageserver';
import { hoverAt } from '../../features/hover';
import { readyRequest } from '../reading';
import type { ServerState } from '../state';
import { askedAt } from './at';

export function registerHover(state: ServerState): void {
  const { connection } = state;
  connection.onHover(
    readyRequest(state, 'hover', (params) => {
      const asked = askedAt(state, params);
      const hover = asked === null ? null : hoverAt(asked.whole, asked.file, asked.offset);
      if (asked === null || hover === null) return null;
      const value = hover.text;
      return { contents: { kind: MarkupKind.Markdown, value }, range: asked.positions.rangeOf(hover.span) };
    }),
  );
}

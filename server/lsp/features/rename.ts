/** Renaming, refused where a name would mean something else afterwards. */
import { LSPErrorCodes, ResponseError, type TextEdit } from 'vscode-languageserver';
import { type Rename, renamableAt, renameAt } from '../../features/rename';
import { guardedRequest } from '../guard';
import type { ServerState } from '../state';
import { placeOf } from '../subject';
import { type Asked, askedAt } from './at';

export function registerRename(state: ServerState): void {
  const { connection, products } = state;
  connection.onPrepareRename(
    guardedRequest(connection, 'prepareRename', (params) => {
      const asked = askedAt(state, params);
      const found = asked === null ? null : renamableAt(asked.whole, asked.file, asked.offset);
      if (asked === null || found === null) return null;
      return { range: asked.positions.rangeOf(found.span), placeholder: found.name };
    }),
  );
  connection.onRenameRequest(
    guardedRequest(connection, 'rename', (params) => {
      const asked = askedAt(state, params);
      if (asked === null) return null;
      const { whole, file, offset, live } = asked;
      const judgeWith = (texts: ReadonlyMap<string, string>) => products.analysisWith(live, texts);
      return answer(asked, renameAt(whole, file, offset, params.newName, judgeWith));
    }),
  );
}

function answer(asked: Asked, rename: Rename): { readonly changes: Record<string, TextEdit[]> } {
  if (rename.type === 'refused') throw new ResponseError(LSPErrorCodes.RequestFailed, reasonOf(asked, rename));
  const changes: Record<string, TextEdit[]> = {};
  for (const [file, edits] of rename.edits) {
    const positions = asked.placing.positionsOf(file);
    changes[asked.placing.uriOf(file)] = edits.map(({ span, text }) => ({
      range: positions.rangeOf(span),
      newText: text,
    }));
  }
  return { changes };
}

function reasonOf(asked: Asked, { reason, place }: Rename & { type: 'refused' }): string {
  if (place === null) return reason;
  const { range } = placeOf(asked, place);
  return `${reason} (${place.file}:${range.start.line + 1}:${range.start.character + 1})`;
}

/** Renaming, refused where a name would mean something else afterwards. */
import { LSPErrorCodes, ResponseError, type WorkspaceEdit } from 'vscode-languageserver';
import { type Rename, renamableAt, renameAt } from '../../features/rename';
import { readyRequest } from '../reading';
import type { ServerState } from '../state';
import { placeOf } from '../subject';
import { type Asked, askedAt } from './at';
import { changesOf, textEdits } from './text-edits';

export function registerRename(state: ServerState): void {
  const { connection, products } = state;
  connection.onPrepareRename(
    readyRequest(state, 'prepareRename', (params) => {
      const asked = askedAt(state, params);
      const found = asked === null ? null : renamableAt(asked.whole, asked.file, asked.offset);
      if (asked === null || found === null) return null;
      return { range: asked.positions.rangeOf(found.span), placeholder: found.name };
    }),
  );
  connection.onRenameRequest(
    readyRequest(state, 'rename', (params) => {
      const asked = askedAt(state, params);
      if (asked === null) return null;
      const { whole, file, offset, live } = asked;
      const judgeWith = (texts: ReadonlyMap<string, string>) => products.analysisWith(live, texts);
      return answer(state, asked, renameAt(whole, file, offset, params.newName, judgeWith));
    }),
  );
}

/** Of all places that mention an id in prose, each to be confirmed. */
const MENTION = 'mention';

/** A client that cannot ask for a confirmation gets what is certain alone. */
function answer({ client }: ServerState, asked: Asked, rename: Rename): WorkspaceEdit {
  if (rename.type === 'refused') throw new ResponseError(LSPErrorCodes.RequestFailed, reasonOf(asked, rename));
  const { edits, mentions } = rename;
  const { documentChanges, changeAnnotationSupport } = client.workspace?.workspaceEdit ?? {};
  if (mentions.size === 0 || !documentChanges || changeAnnotationSupport === undefined)
    return { changes: changesOf(asked.placing, edits) };
  return {
    documentChanges: [...new Set([...edits.keys(), ...mentions.keys()])].map((file) => ({
      textDocument: { uri: asked.placing.uriOf(file), version: asked.placing.versionOf(file) },
      edits: [
        ...textEdits(asked.placing, file, edits.get(file) ?? []),
        ...textEdits(asked.placing, file, mentions.get(file) ?? []).map((edit) => ({ ...edit, annotationId: MENTION })),
      ],
    })),
    changeAnnotations: {
      [MENTION]: {
        label: 'Mentioned in prose',
        needsConfirmation: true,
        description: 'Nothing reads these words, so only a reader knows whether they mean it.',
      },
    },
  };
}

function reasonOf(asked: Asked, { reason, place }: Rename & { type: 'refused' }): string {
  if (place === null) return reason;
  const { range } = placeOf(asked, place);
  return `${reason} (${place.file}:${range.start.line + 1}:${range.start.character + 1})`;
}

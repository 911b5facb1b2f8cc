/** Answers full of places hold for the text that was asked about, and for no later one. */
import { type CancellationToken, LSPErrorCodes, ResponseError } from 'vscode-languageserver';
import type { ServerState } from './state';

interface OfDocument {
  readonly textDocument?: { readonly uri: string };
}

/** Where the document changed between question and answer the client is told so, and asks again. */
export function forSameText<Params extends OfDocument, Result>(
  { uris, buffers }: Pick<ServerState, 'uris' | 'buffers'>,
  answer: (params: Params, token: CancellationToken) => Promise<Result>,
): (params: Params, token: CancellationToken) => Promise<Result> {
  const versionOf = ({ textDocument }: Params) => {
    const key = textDocument === undefined ? null : uris.keyOf(textDocument.uri);
    return key === null ? undefined : buffers.get(key)?.version;
  };
  return async (params, token) => {
    const asked = versionOf(params);
    const result = await answer(params, token);
    if (versionOf(params) === asked) return result;
    throw new ResponseError(LSPErrorCodes.ContentModified, 'the document has changed meanwhile');
  };
}

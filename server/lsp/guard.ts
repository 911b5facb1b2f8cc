/** A guard around every message: a mistake of ours is answered and logged, and the server lives on. */
import { type CancellationToken, type Connection, LSPErrorCodes, ResponseError } from 'vscode-languageserver';
import { breathe } from './later';

export function messageOf(error: unknown): string {
  return error instanceof Error ? (error.stack ?? error.message) : String(error);
}

/** A handler of a request whose mistakes become an error answer, and which does no work once it is cancelled. */
export function guardedRequest<Params, Result>(
  connection: Connection,
  name: string,
  handle: (params: Params, token: CancellationToken) => Result | Promise<Result>,
): (params: Params, token: CancellationToken) => Promise<Result> {
  return async (params, token) => {
    // Lets a cancellation that was sent right behind the request arrive first.
    await breathe();
    if (token.isCancellationRequested) throw new ResponseError(LSPErrorCodes.RequestCancelled, `${name} was cancelled`);
    try {
      return await handle(params, token);
    } catch (error) {
      // What is refused on purpose is an answer.
      if (error instanceof ResponseError) throw error;
      connection.console.error(`plimsoll: ${name}: ${messageOf(error)}`);
      throw new ResponseError(LSPErrorCodes.RequestFailed, `a mistake in the program: ${String(error)}`);
    }
  };
}

/** A handler of a notification whose mistakes are logged. */
export function guardedNotification<Params>(
  connection: Connection,
  name: string,
  handle: (params: Params) => void | Promise<void>,
): (params: Params) => Promise<void> {
  return async (params) => {
    try {
      await handle(params);
    } catch (error) {
      connection.console.error(`plimsoll: ${name}: ${messageOf(error)}`);
    }
  };
}

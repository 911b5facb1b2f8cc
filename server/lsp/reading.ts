/** Work on files, one after the other, and requests that wait until what they ask about was read. */
import { type CancellationToken, type Disposable, LSPErrorCodes, ResponseError } from 'vscode-languageserver';
import { guardedRequest, messageOf } from './guard';
import type { ServerState } from './state';

export class Reading {
  private queue: Promise<void> = Promise.resolve();
  private readonly waiting = new Set<() => void>();
  private stopped = false;

  /** @param log told of every mistake; the work after it goes on */
  constructor(private readonly log: (mistake: string) => void) {}

  /** The server is shutting down: nobody waits for files any more. */
  get isStopped(): boolean {
    return this.stopped;
  }

  /** Resolves once this work and all before it is done, well or not. */
  enqueue(work: () => Promise<void>): Promise<void> {
    this.queue = this.queue.then(work).catch((error) => this.log(`plimsoll: files: ${messageOf(error)}`));
    return this.queue;
  }

  /** Resolves once all that is under way is done; refused at once for a request that is cancelled or a server that stops. */
  async settled(token: CancellationToken): Promise<void> {
    if (!this.stopped && !token.isCancellationRequested) await this.untilDoneOr(token);
    if (token.isCancellationRequested) throw new ResponseError(LSPErrorCodes.RequestCancelled, 'cancelled');
    if (this.stopped) throw new ResponseError(LSPErrorCodes.RequestCancelled, 'the server is shutting down');
  }

  stop(): void {
    this.stopped = true;
    for (const end of [...this.waiting]) end();
  }

  private untilDoneOr(token: CancellationToken): Promise<void> {
    return new Promise((resolve) => {
      let listening: Disposable | null = null;
      const end = () => {
        this.waiting.delete(end);
        listening?.dispose();
        resolve();
      };
      listening = token.onCancellationRequested(end);
      this.waiting.add(end);
      void this.queue.then(end);
    });
  }
}

/** A guarded request about documents or products that is answered once these were read. */
export function readyRequest<Params, Result>(
  state: ServerState,
  name: string,
  handle: (params: Params, token: CancellationToken) => Result | Promise<Result>,
): (params: Params, token: CancellationToken) => Promise<Result> {
  return guardedRequest(state.connection, name, async (params: Params, token) => {
    if (isToBeRead(state, params)) await state.reading.settled(token);
    return handle(params, token);
  });
}

/** Before the first scan everything is; later what was opened or added a moment ago. */
function isToBeRead({ isScanned, uris, products }: ServerState, params: unknown): boolean {
  const uri = documentOf(params);
  const key = uri === null ? null : uris.keyOf(uri);
  if (!isScanned || key === null) return !isScanned;
  return !products.at(key)?.live.isRead;
}

/** Null: the request is about no document, or says so in no form that anybody knows. */
function documentOf(params: unknown): string | null {
  const { textDocument } = (params ?? {}) as { readonly textDocument?: { readonly uri?: unknown } };
  return typeof textDocument?.uri === 'string' ? textDocument.uri : null;
}

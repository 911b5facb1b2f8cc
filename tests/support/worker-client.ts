/** A client of the server's build for browsers, which runs with a worker's globals alone; files come from memory. */
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { createContext, Script } from 'node:vm';
import { onTestFinished } from 'vitest';
import type { HostEntry, HostRequests } from '../../server/lsp/messages';

const SERVER = join(import.meta.dirname, '..', '..', 'dist', 'server-web.js');
/** No answer comes later than this, in milliseconds, on a slow machine. */
const PATIENCE = 20_000;
/** The workspace's folder, spelled as an editor spells it. */
const FOLDER = 'memory://shelf%3A1/a%20b';

export interface WorkerMessage {
  readonly id?: number | string;
  readonly method?: string;
  readonly params?: unknown;
  readonly result?: unknown;
  readonly error?: { readonly message: string };
}

export interface WorkerStart {
  readonly capabilities?: object;
  /** False: the client hands over no files. */
  readonly host?: boolean;
}

export class WorkerClient {
  /** All that was sent and is no answer. */
  readonly messages: WorkerMessage[] = [];
  private readonly answers = new Map<number, (message: WorkerMessage) => void>();
  private readonly timers = new Set<NodeJS.Timeout>();
  private readonly scope: { onmessage?: (event: { readonly data: unknown }) => void };
  private nextId = 1;

  /** @param files by path; may be changed between requests */
  constructor(readonly files: Map<string, Uint8Array>) {
    if (!existsSync(SERVER)) throw new Error('dist/server-web.js is missing: npm run build');
    const postMessage = (message: WorkerMessage) => this.take(JSON.parse(JSON.stringify(message)) as WorkerMessage);
    const scope = createContext({ ...this.workerGlobals(), postMessage });
    scope.self = scope;
    new Script(readFileSync(SERVER, 'utf8'), { filename: SERVER }).runInContext(scope);
    this.scope = scope;
  }

  uri(path = ''): string {
    return path === '' ? FOLDER : `${FOLDER}/${path}`;
  }

  notify(method: string, params: unknown): void {
    this.post({ method, params });
  }

  async ask<Result>(method: string, params: unknown): Promise<Result> {
    const id = this.nextId++;
    const answer = new Promise<WorkerMessage>((resolve, reject) => {
      const timer = setTimeout(() => reject(new Error(`${method} was not answered`)), PATIENCE);
      this.answers.set(id, (message) => {
        clearTimeout(timer);
        resolve(message);
      });
    });
    this.post({ id, method, params });
    const { result, error } = await answer;
    if (error !== undefined) throw new Error(`${method}: ${error.message}`);
    return result as Result;
  }

  stop(): void {
    this.post({ id: this.nextId++, method: 'shutdown' });
    for (const timer of this.timers) clearTimeout(timer);
  }

  /** What a dedicated worker has and the server may use; nothing of Node's. */
  private workerGlobals(): object {
    return {
      console,
      addEventListener: () => undefined,
      MessageChannel: ChannelToItself,
      TextDecoder,
      TextEncoder,
      URL,
      atob,
      btoa,
      queueMicrotask,
      setTimeout: (work: () => void, milliseconds: number) => {
        const timer = setTimeout(() => {
          this.timers.delete(timer);
          work();
        }, milliseconds);
        this.timers.add(timer);
        return timer;
      },
      clearTimeout,
    };
  }

  private post(message: object): void {
    const data = JSON.parse(JSON.stringify({ jsonrpc: '2.0', ...message }));
    queueMicrotask(() => this.scope.onmessage?.({ data }));
  }

  private take(message: WorkerMessage): void {
    if (message.method === undefined) {
      this.answers.get(message.id as number)?.(message);
      this.answers.delete(message.id as number);
      return;
    }
    this.messages.push(message);
    if (message.id !== undefined) this.post({ id: message.id, result: this.answered(message) });
  }

  private answered({ method, params }: WorkerMessage): unknown {
    const { uri } = (params ?? {}) as { readonly uri?: string };
    if (!method?.startsWith('plimsoll/host/') || uri === undefined) return null;
    if (uri !== FOLDER && !uri.startsWith(`${FOLDER}/`)) return method === 'plimsoll/host/list' ? MISSING : null;
    const path = decodeURIComponent(uri.slice(FOLDER.length + 1));
    if (method === 'plimsoll/host/read') return this.read(path, (params as { readonly most: number }).most);
    const entries = this.list(path);
    if (method === 'plimsoll/host/list') return entries.length === 0 ? MISSING : { entries };
    return this.files.has(path) ? 'file' : entries.length > 0 ? 'folder' : null;
  }

  private read(path: string, most: number): HostRequests['plimsoll/host/read']['result'] {
    const bytes = this.files.get(path);
    if (bytes === undefined) return null;
    return bytes.length > most ? { size: bytes.length } : { base64: Buffer.from(bytes).toString('base64') };
  }

  private list(folder: string): readonly HostEntry[] {
    const start = folder === '' ? '' : `${folder}/`;
    const kinds = new Map<string, HostEntry['kind']>();
    for (const path of this.files.keys()) {
      if (!path.startsWith(start)) continue;
      const [name = '', ...deeper] = path.slice(start.length).split('/');
      kinds.set(name, deeper.length > 0 ? 'folder' : 'file');
    }
    return [...kinds].map(([name, kind]) => ({ name, kind }));
  }
}

/** Node's own would be read dry before anything else gets a turn, which a browser does not do. */
class ChannelToItself {
  readonly port1: { onmessage?: () => void } = {};
  readonly port2 = { postMessage: () => void setImmediate(() => this.port1.onmessage?.()) };
}

const MISSING = { reason: 'there is no such file or folder' };

/** A server on a folder with these files; gone after the test. */
export async function startWorkerClient(
  files: Readonly<Record<string, string | Uint8Array>>,
  { capabilities = {}, host = true }: WorkerStart = {},
): Promise<WorkerClient> {
  const entries = Object.entries(files).map(([path, content]) => [path, new Uint8Array(Buffer.from(content))] as const);
  const client = new WorkerClient(new Map(entries));
  onTestFinished(() => client.stop());
  await client.ask('initialize', {
    processId: null,
    rootUri: null,
    capabilities,
    initializationOptions: { host },
    workspaceFolders: [{ uri: client.uri(), name: 'shelf' }],
  });
  client.notify('initialized', {});
  return client;
}

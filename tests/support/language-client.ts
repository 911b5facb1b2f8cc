/** A language client of our own over real standard input and output; it fails on messages that nobody asked for. */
import { type ChildProcessWithoutNullStreams, spawn } from 'node:child_process';
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { expect, onTestFinished } from 'vitest';
import { temporaryFolder } from './folder';

const SERVER = join(import.meta.dirname, '..', '..', 'dist', 'server.js');
/** No answer comes later than this, in milliseconds, on a slow machine. */
const PATIENCE = 10_000;

export interface Message {
  readonly id?: number | string;
  readonly method?: string;
  readonly params?: unknown;
  readonly result?: unknown;
  readonly error?: { readonly code: number; readonly message: string };
}

export interface Diagnostic {
  readonly range: { readonly start: Position; readonly end: Position };
  readonly severity: number;
  readonly code: string;
  readonly message: string;
  readonly relatedInformation?: readonly { readonly location: { readonly uri: string }; readonly message: string }[];
}

export interface Position {
  readonly line: number;
  readonly character: number;
}

/** Notifications that say nothing of what is tested; reading them is up to the test. */
const QUIET = ['window/logMessage', 'plimsoll/summary', '$/progress'];

export class LanguageClient {
  readonly unread: Message[] = [];
  readonly quiet: Message[] = [];
  exitCode: number | null | undefined;
  errors = '';
  private readonly process: ChildProcessWithoutNullStreams;
  private readonly answers = new Map<number, (message: Message) => void>();
  private readonly versions = new Map<string, number>();
  private received = Buffer.alloc(0);
  private wake: (() => void) | null = null;
  private nextId = 1;

  constructor(
    readonly folder: string,
    private readonly answerRequest: (method: string, params: unknown) => unknown = () => null,
  ) {
    if (!existsSync(SERVER)) throw new Error('dist/server.js is missing: npm run build');
    this.process = spawn(process.execPath, [SERVER, '--stdio']);
    this.process.stdout.on('data', (data: Buffer) => this.take(data));
    this.process.stderr.on('data', (data: Buffer) => {
      this.errors += data.toString();
    });
    this.process.on('exit', (code) => {
      this.exitCode = code;
      this.wake?.();
    });
  }

  uri(path = ''): string {
    return pathToFileURL(path === '' ? this.folder : join(this.folder, path)).href;
  }

  send(message: object): void {
    this.sendText(JSON.stringify({ jsonrpc: '2.0', ...message }));
  }

  /** Any body, valid or not. */
  sendText(body: string): void {
    this.process.stdin.write(`Content-Length: ${Buffer.byteLength(body)}\r\n\r\n${body}`);
  }

  endInput(): void {
    this.process.stdin.end();
  }

  notify(method: string, params: unknown): void {
    this.send({ method, params });
  }

  async ask<Result>(method: string, params: unknown): Promise<Result> {
    const { result, error } = await this.askRaw(method, params);
    if (error !== undefined) throw new Error(`${method}: ${error.message}`);
    return result as Result;
  }

  askRaw(method: string, params: unknown): Promise<Message> {
    const id = this.nextId++;
    const answer = new Promise<Message>((resolve, reject) => {
      const timer = setTimeout(() => reject(new Error(`${method} was not answered. ${this.errors}`)), PATIENCE);
      this.answers.set(id, (message) => {
        clearTimeout(timer);
        resolve(message);
      });
    });
    this.send({ id, method, params });
    return answer;
  }

  open(path: string, text: string): void {
    this.versions.set(path, 1);
    const textDocument = { uri: this.uri(path), languageId: 'markdown', version: 1, text };
    this.notify('textDocument/didOpen', { textDocument });
  }

  /** Gives up the request that was sent last. */
  cancelLast(): void {
    this.notify('$/cancelRequest', { id: this.nextId - 1 });
  }

  /** Replaces a part of a document, or all of it. */
  change(path: string, text: string, range?: { readonly start: Position; readonly end: Position }): number {
    const version = (this.versions.get(path) ?? 1) + 1;
    this.versions.set(path, version);
    const contentChanges = [{ text, ...(range !== undefined && { range }) }];
    this.notify('textDocument/didChange', { textDocument: { uri: this.uri(path), version }, contentChanges });
    return version;
  }

  close(path: string): void {
    this.notify('textDocument/didClose', { textDocument: { uri: this.uri(path) } });
  }

  /** The next notification of a kind; others stay unread. */
  async next<Params>(method: string, fits: (params: Params) => boolean = () => true): Promise<Params> {
    const deadline = Date.now() + PATIENCE;
    for (;;) {
      for (const list of [this.unread, this.quiet]) {
        const index = list.findIndex((one) => one.method === method && fits(one.params as Params));
        if (index >= 0) return list.splice(index, 1)[0]?.params as Params;
      }
      if (Date.now() > deadline)
        throw new Error(`no ${method} came; unread: ${JSON.stringify(this.unread).slice(0, 2000)} ${this.errors}`);
      await new Promise<void>((resolve) => {
        const timer = setTimeout(resolve, 100);
        this.wake = () => {
          clearTimeout(timer);
          resolve();
        };
      });
    }
  }

  /** The next diagnostics of a document. */
  async diagnostics(path: string): Promise<readonly Diagnostic[]> {
    const uri = this.uri(path);
    const found = await this.next<{ readonly uri: string; readonly diagnostics: readonly Diagnostic[] }>(
      'textDocument/publishDiagnostics',
      (params) => params.uri === uri,
    );
    return found.diagnostics;
  }

  /** Waits until nothing comes any more for so many milliseconds. */
  async quietFor(milliseconds: number): Promise<void> {
    let count = -1;
    while (count !== this.unread.length) {
      count = this.unread.length;
      await new Promise((resolve) => setTimeout(resolve, milliseconds));
    }
  }

  async exited(): Promise<number | null> {
    const deadline = Date.now() + PATIENCE;
    while (this.exitCode === undefined && Date.now() < deadline)
      await new Promise((resolve) => setTimeout(resolve, 20));
    if (this.exitCode === undefined) throw new Error('the server did not end');
    return this.exitCode;
  }

  stop(): void {
    if (this.exitCode === undefined) this.process.kill();
  }

  private take(data: Buffer): void {
    this.received = Buffer.concat([this.received, data]);
    for (;;) {
      const end = this.received.indexOf('\r\n\r\n');
      if (end < 0) return;
      const length = Number(/Content-Length: (\d+)/i.exec(this.received.subarray(0, end).toString())?.[1]);
      if (this.received.length < end + 4 + length) return;
      const body = this.received.subarray(end + 4, end + 4 + length).toString();
      this.received = this.received.subarray(end + 4 + length);
      this.dispatch(JSON.parse(body) as Message);
    }
  }

  /** What is refused is answered with an error; what is never settled is never answered. */
  private async answer(id: number | string, method: string, params: unknown): Promise<void> {
    try {
      this.send({ id, result: (await this.answerRequest(method, params)) ?? null });
    } catch (error) {
      this.send({ id, error: { code: -32603, message: String(error) } });
    }
  }

  private dispatch(message: Message): void {
    if (message.method === undefined) {
      this.answers.get(message.id as number)?.(message);
      this.answers.delete(message.id as number);
    } else if (message.id !== undefined) {
      void this.answer(message.id, message.method, message.params);
    } else (QUIET.includes(message.method) ? this.quiet : this.unread).push(message);
    this.wake?.();
  }
}

export interface Start {
  readonly capabilities?: object;
  readonly options?: object;
  /** Folders of the workspace, below the temporary one; by default that one. */
  readonly folders?: readonly string[];
  readonly answerRequest?: (method: string, params: unknown) => unknown;
}

/** A server on a folder with these files. When the test is over, it is shut down, and nothing may be left unread. */
export async function startClient(files: Readonly<Record<string, string>>, start: Start = {}): Promise<LanguageClient> {
  const client = new LanguageClient(temporaryFolder(files), start.answerRequest);
  onTestFinished(() => client.stop());
  await initialize(client, start);
  return client;
}

export async function initialize(client: LanguageClient, start: Start = {}): Promise<unknown> {
  const folders = start.folders ?? [''];
  const result = await client.ask('initialize', {
    processId: process.pid,
    rootUri: null,
    capabilities: start.capabilities ?? {},
    initializationOptions: start.options,
    workspaceFolders: folders.map((path) => ({ uri: client.uri(path), name: path })),
  });
  client.notify('initialized', {});
  return result;
}

/** Shuts the server down; fails on what was not read. */
export async function finish(client: LanguageClient): Promise<void> {
  await client.ask('shutdown', null);
  expect(client.unread).toEqual([]);
  client.notify('exit', null);
  expect(await client.exited()).toBe(0);
}

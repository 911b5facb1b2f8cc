/** The link to the language server: started once, restarted a bounded number of times, asked by name. */
import { type Disposable, EventEmitter, window, workspace } from 'vscode';
import {
  type BaseLanguageClient,
  CloseAction,
  ErrorAction,
  type ErrorHandler,
  type LanguageClientOptions,
  RevealOutputChannelOn,
} from 'vscode-languageclient';
import type {
  CommandArguments,
  InitializationOptions,
  ProductSummary,
  Requests,
  SummaryParams,
} from '../server/lsp/messages';
import { middleware } from './middleware';
import { createRestarts } from './restarts';

export type CreateClient = (options: LanguageClientOptions) => BaseLanguageClient;

export type LinkState = 'off' | 'starting' | 'on' | 'failed';

/** Commands of this extension that the server's lenses and code actions may name. */
const SERVER_COMMANDS: readonly (keyof CommandArguments)[] = ['plimsoll.showPlaces', 'plimsoll.trial'];

const RESTARTS = 4;
const WITHIN = 3 * 60_000;

export class ServerLink implements Disposable {
  /** Of the last summary. */
  products: readonly ProductSummary[] = [];
  state: LinkState = 'off';
  private client: BaseLanguageClient | null = null;
  private starting: Promise<void> | null = null;
  /** One for all clients, so that why the last one stopped can still be read. */
  private readonly log = window.createOutputChannel('Plimsoll', { log: true });
  private readonly restarts = createRestarts(RESTARTS, WITHIN);
  private readonly summaries = new EventEmitter<SummaryParams>();
  private readonly states = new EventEmitter<LinkState>();
  /** After every change that may have altered a verdict or a margin. */
  readonly onSummary = this.summaries.event;
  readonly onState = this.states.event;

  constructor(private readonly createClient: CreateClient) {}

  get isStarted(): boolean {
    return this.starting !== null;
  }

  start(): Promise<void> {
    this.starting ??= this.startClient();
    return this.starting;
  }

  /** As somebody asks for it: what was counted against the server is forgotten. */
  async restart(): Promise<void> {
    await this.starting;
    const { client } = this;
    this.client = null;
    this.restarts.forget();
    await client?.dispose().catch(() => undefined);
    this.starting = this.startClient();
    await this.starting;
  }

  /** Null where the server is off or knows no answer. */
  async ask<Name extends keyof Requests>(
    name: Name,
    params: Requests[Name]['params'],
  ): Promise<Requests[Name]['result'] | null> {
    await this.start();
    const { client } = this;
    if (client?.isRunning() !== true) return null;
    try {
      return await client.sendRequest<Requests[Name]['result']>(name, params);
    } catch (error) {
      // It stopped before it answered, which is told by itself.
      if (client !== this.client) return null;
      throw error;
    }
  }

  showLog(): void {
    this.log.show(true);
  }

  /** The product's folder that a document belongs to, else the first product. */
  productOf(uri: string | null): ProductSummary | null {
    const isIn = (folder: string) => uri === folder || uri?.startsWith(folder.endsWith('/') ? folder : `${folder}/`);
    const holding = this.products.filter((one) => isIn(one.uri));
    return holding.sort((a, b) => b.uri.length - a.uri.length)[0] ?? this.products[0] ?? null;
  }

  dispose(): void {
    void this.client?.dispose().catch(() => undefined);
    this.log.dispose();
    this.summaries.dispose();
    this.states.dispose();
  }

  /** A client lives once: one that starts itself again loses its way when its server stops while it starts. */
  private async startClient(): Promise<void> {
    this.moveTo('starting');
    const client: BaseLanguageClient = this.createClient(this.options(() => this.stopped(client)));
    toldByUs(client);
    this.client = client;
    client.onNotification('plimsoll/summary', (summary: SummaryParams) => {
      this.products = summary.products;
      this.moveTo('on');
      this.summaries.fire(summary);
    });
    await client.start().catch(() => this.stopped(client));
  }

  /** Not told twice of one client, nor of one that was let go. */
  private stopped(client: BaseLanguageClient): void {
    if (client !== this.client) return;
    this.client = null;
    void client.dispose().catch(() => undefined);
    if (this.restarts.mayRestart(Date.now())) this.starting = this.startClient();
    else this.fail(`Plimsoll’s language server stopped ${RESTARTS + 1} times within three minutes and stays off.`);
  }

  private options(stopped: () => void): LanguageClientOptions {
    const initializationOptions: InitializationOptions = { commands: SERVER_COMMANDS, git: workspace.isTrusted };
    return {
      documentSelector: [{ language: 'markdown' }, { pattern: '**/plimsoll.yaml' }, { pattern: '**/*.csv' }],
      diagnosticCollectionName: 'plimsoll',
      diagnosticPullOptions: { onChange: true, onTabs: true },
      initializationOptions,
      initializationFailedHandler: () => false,
      middleware,
      errorHandler: errorHandler(stopped),
      outputChannel: this.log,
      revealOutputChannelOn: RevealOutputChannelOn.Never,
    };
  }

  private fail(message: string): void {
    this.products = [];
    this.moveTo('failed');
    this.summaries.fire({ products: [] });
    void window.showErrorMessage(message, 'Start Again', 'Show Log').then((choice) => {
      if (choice === 'Start Again') void this.restart();
      if (choice === 'Show Log') this.showLog();
    });
  }

  private moveTo(state: LinkState): void {
    if (state === this.state) return;
    this.state = state;
    this.states.fire(state);
  }
}

function errorHandler(stopped: () => void): ErrorHandler {
  return {
    error: () => ({ action: ErrorAction.Continue, handled: true }),
    closed: () => {
      stopped();
      return { action: CloseAction.DoNotRestart, handled: true };
    },
  };
}

/** One message with a way on is enough: what the client says beside it goes to the log. */
function toldByUs(client: BaseLanguageClient): void {
  const error = client.error.bind(client);
  client.error = (message, data) => error(message, data, false);
}

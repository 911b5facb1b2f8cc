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
import type { InitializationOptions, ProductSummary, Requests, SummaryParams } from '../server/lsp/messages';
import { middleware } from './middleware';
import { createRestarts } from './restarts';

export type CreateClient = (options: LanguageClientOptions) => BaseLanguageClient;

export type LinkState = 'off' | 'starting' | 'on' | 'failed';

/** Commands of this extension that the server's lenses may name. */
const SERVER_COMMANDS = ['plimsoll.showPlaces'];

const RESTARTS = 4;
const WITHIN = 3 * 60_000;

export class ServerLink implements Disposable {
  /** Of the last summary. */
  products: readonly ProductSummary[] = [];
  state: LinkState = 'off';
  private client: BaseLanguageClient | null = null;
  private starting: Promise<void> | null = null;
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
    await this.starting?.catch(() => undefined);
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
    if (this.client?.isRunning() !== true) return null;
    return this.client.sendRequest<Requests[Name]['result']>(name, params);
  }

  showLog(): void {
    this.client?.outputChannel.show(true);
  }

  /** The product's folder that a document belongs to, else the first product. */
  productOf(uri: string | null): ProductSummary | null {
    const isIn = (folder: string) => uri === folder || uri?.startsWith(folder.endsWith('/') ? folder : `${folder}/`);
    const holding = this.products.filter((one) => isIn(one.uri));
    return holding.sort((a, b) => b.uri.length - a.uri.length)[0] ?? this.products[0] ?? null;
  }

  dispose(): void {
    void this.client?.dispose().catch(() => undefined);
    this.summaries.dispose();
    this.states.dispose();
  }

  private async startClient(): Promise<void> {
    this.moveTo('starting');
    const client = this.createClient(this.options());
    this.client = client;
    client.onNotification('plimsoll/summary', (summary: SummaryParams) => {
      this.products = summary.products;
      this.moveTo('on');
      this.summaries.fire(summary);
    });
    try {
      await client.start();
    } catch {
      this.fail('Plimsoll’s language server did not start.');
    }
  }

  private options(): LanguageClientOptions {
    const initializationOptions: InitializationOptions = { commands: SERVER_COMMANDS, git: workspace.isTrusted };
    return {
      documentSelector: [{ language: 'markdown' }, { pattern: '**/plimsoll.yaml' }, { pattern: '**/*.csv' }],
      diagnosticCollectionName: 'plimsoll',
      diagnosticPullOptions: { onChange: true, onTabs: true },
      initializationOptions,
      middleware,
      errorHandler: this.errorHandler(),
      revealOutputChannelOn: RevealOutputChannelOn.Never,
    };
  }

  private errorHandler(): ErrorHandler {
    return {
      error: () => ({ action: ErrorAction.Continue }),
      closed: () => {
        if (this.restarts.mayRestart(Date.now())) {
          this.moveTo('starting');
          return { action: CloseAction.Restart, handled: true };
        }
        this.fail(`Plimsoll’s language server stopped ${RESTARTS + 1} times within three minutes and stays off.`);
        return { action: CloseAction.DoNotRestart, handled: true };
      },
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

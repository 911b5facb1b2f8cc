/** Pages of the server in panels: each follows the text, and its places open in the editor. */
import { commands, Disposable, Range, Uri, ViewColumn, type WebviewPanel, window } from 'vscode';
import type { FromPage, PageRequest, ToPage } from '../server/lsp/messages';
import type { ServerLink } from './server-link';

/** By command: what the server is asked for. A page that is not there yet has no command. */
const PAGES: Readonly<Record<string, PageRequest>> = { 'plimsoll.showMatrix': 'plimsoll/matrix' };

/** After so long without a change, in milliseconds, a page is asked for anew. */
const RESTS = 250;

export function registerPages(link: ServerLink): Disposable {
  const open = new Map<string, PagePanel>();
  return Disposable.from(
    ...Object.entries(PAGES).map(([command, request]) =>
      commands.registerCommand(command, () => showPage(link, request, open)),
    ),
  );
}

/** One panel for each page of a product. */
async function showPage(link: ServerLink, request: PageRequest, open: Map<string, PagePanel>): Promise<void> {
  await link.start();
  const product = link.productOf(window.activeTextEditor?.document.uri.toString() ?? null);
  if (product === null) {
    void window.showInformationMessage('No product takes part in this folder yet.');
    return;
  }
  const key = `${request} ${product.uri}`;
  const known = open.get(key);
  if (known !== undefined) return known.reveal();
  const panel = new PagePanel(link, request, product.uri, () => open.delete(key));
  open.set(key, panel);
  await panel.load();
}

class PagePanel {
  private readonly panel: WebviewPanel;
  private html = '';
  private folder = '';
  private timer: ReturnType<typeof setTimeout> | undefined;
  private asked = 0;
  private isOfBefore = false;

  constructor(
    private readonly link: ServerLink,
    private readonly request: PageRequest,
    private readonly product: string,
    closed: () => void,
  ) {
    const options = {
      enableScripts: true,
      localResourceRoots: [],
      retainContextWhenHidden: true,
      enableFindWidget: true,
    };
    this.panel = window.createWebviewPanel('plimsoll.page', 'Plimsoll', ViewColumn.Beside, options);
    const parts = Disposable.from(
      this.panel.webview.onDidReceiveMessage((message: FromPage) => void this.open(message)),
      link.onSummary(() => this.follow()),
    );
    this.panel.onDidDispose(() => {
      clearTimeout(this.timer);
      parts.dispose();
      closed();
    });
  }

  reveal(): void {
    this.panel.reveal();
  }

  /** The answer to an older question never replaces that to a newer one. */
  async load(): Promise<void> {
    this.asked += 1;
    const { asked } = this;
    const page = await this.link.ask(this.request, { uri: this.product }).catch(() => null);
    if (asked !== this.asked) return;
    if (page === null) return this.sayOfBefore();
    this.folder = page.folder;
    this.panel.title = page.title;
    if (page.html === this.html && !this.isOfBefore) return;
    this.isOfBefore = false;
    // The first is the whole page; what follows is put in where it is other, so that nothing flickers or loses its place.
    if (this.html === '') this.panel.webview.html = page.html;
    else await this.say({ html: page.html });
    this.html = page.html;
  }

  /** What is shown is never taken for what is. */
  private async sayOfBefore(): Promise<void> {
    this.isOfBefore = true;
    if (this.html !== '') await this.say({ html: null });
  }

  private async say(message: ToPage): Promise<void> {
    await this.panel.webview.postMessage(message);
  }

  private follow(): void {
    clearTimeout(this.timer);
    this.timer = setTimeout(() => void this.load(), RESTS);
  }

  /** Nothing outside the product's folder is opened. */
  private async open({ file, line }: FromPage): Promise<void> {
    // Backslashes lead up as well, on systems that have them in paths.
    if (file.split(/[\\/]/).includes('..')) return;
    const uri = Uri.joinPath(Uri.parse(this.folder), file);
    if (line === null) return void (await commands.executeCommand('vscode.open', uri, ViewColumn.One));
    const selection = new Range(line - 1, 0, line - 1, 0);
    await window.showTextDocument(uri, { selection, viewColumn: ViewColumn.One });
  }
}

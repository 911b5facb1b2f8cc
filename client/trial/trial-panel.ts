/** The trial panel: other figures for what a requirement rests on, and what follows, without a word in any document. */
import { commands, Disposable, Uri, ViewColumn, type WebviewPanel, WorkspaceEdit, window, workspace } from 'vscode';
import type { FiguresResult, RequirementItem, TrialStart } from '../../server/lsp/messages';
import { rangeOf } from '../places';
import type { ServerLink } from '../server-link';
import { signOf, VERDICTS } from '../verdict-words';
import { trialPageHtml } from './page-html';
import type { FromPage, ToPage, TriedValue } from './trial-messages';

/** From the palette, from a row of the tree, or from a lens or code action that says what to begin with. */
export function registerTrial(link: ServerLink): Disposable {
  return commands.registerCommand('plimsoll.trial', async (from?: RowOfTree | TrialStart) => {
    const start =
      from === undefined ? await chooseRequirement(link) : 'requirement' in from ? from : startOf(from.item);
    if (start !== undefined) new TrialPanel(link, start).open();
  });
}

interface RowOfTree {
  readonly item: RequirementItem;
}

function startOf({ id, place }: RequirementItem): TrialStart {
  return { uri: place.uri, requirement: id, values: [] };
}

/** The worst come first: they are what somebody wants to mend. */
async function chooseRequirement(link: ServerLink): Promise<TrialStart | undefined> {
  const product = link.productOf(window.activeTextEditor?.document.uri.toString() ?? null);
  const result = product === null ? null : await link.ask('plimsoll/requirements', { uri: product.uri });
  const rank = ({ verdict }: RequirementItem) => VERDICTS.indexOf(verdict as (typeof VERDICTS)[number]);
  const choices = [...(result?.requirements ?? [])]
    .sort((a, b) => rank(a) - rank(b))
    .map((item) => ({
      label: `$(${signOf(item.verdict).icon}) ${item.id} ${item.title}`,
      description: [item.verdict, item.margin].filter(Boolean).join(' · '),
      item,
    }));
  const chosen = await window.showQuickPick(choices, { title: 'Requirement to Try', matchOnDescription: true });
  return chosen && startOf(chosen.item);
}

class TrialPanel {
  private readonly panel: WebviewPanel;
  private readonly parts: Disposable;
  private figures: FiguresResult | null = null;
  private asked = 0;

  constructor(
    private readonly link: ServerLink,
    private readonly start: TrialStart,
  ) {
    const options = { enableScripts: true, localResourceRoots: [], retainContextWhenHidden: true };
    this.panel = window.createWebviewPanel('plimsoll.trial', `Trial: ${start.requirement}`, ViewColumn.Beside, options);
    this.parts = Disposable.from(
      this.panel.webview.onDidReceiveMessage((message: FromPage) => void this.take(message)),
      link.onSummary(() => void this.load()),
    );
    this.panel.onDidDispose(() => this.parts.dispose());
  }

  open(): void {
    this.panel.webview.html = trialPageHtml(newNonce());
  }

  private async take(message: FromPage): Promise<void> {
    if (message.type === 'ready') await this.begin();
    else if (message.type === 'try') await this.try(message.values);
    else if (message.type === 'apply') await this.apply(message.values);
    else await this.show(message.id);
  }

  private async begin(): Promise<void> {
    await this.load();
    if (this.start.values.length > 0) this.say({ type: 'begin', values: this.start.values });
  }

  private async load(): Promise<void> {
    this.figures = await this.ask();
    this.say(this.figures === null ? { type: 'gone' } : { type: 'figures', figures: this.figures });
  }

  private ask(): Promise<FiguresResult | null> {
    return this.link.ask('plimsoll/figures', { uri: this.start.uri, requirement: this.start.requirement });
  }

  /** The answer to an older question never replaces that to a newer one. */
  private async try(values: readonly TriedValue[]): Promise<void> {
    this.asked += 1;
    const { asked } = this;
    const nothing = { changes: [], problems: [] };
    const result =
      values.length === 0 ? nothing : await this.link.ask('plimsoll/trial', { uri: this.start.uri, values });
    if (asked === this.asked && result !== null) this.say({ type: 'result', result });
  }

  /** Only over figures that are still written as the page showed them. */
  private async apply(values: readonly TriedValue[]): Promise<void> {
    const current = await this.ask();
    const edit = new WorkspaceEdit();
    for (const { name, value } of values) {
      const now = current?.figures.find((figure) => figure.name === name);
      const before = this.figures?.figures.find((figure) => figure.name === name);
      if (now === undefined || now.written !== before?.written) {
        await this.load();
        void window.showWarningMessage(`${name} has become another meanwhile; nothing was written.`);
        return;
      }
      edit.replace(Uri.parse(now.place.uri), rangeOf(now.place.range), value);
    }
    if (!(await workspace.applyEdit(edit))) void window.showWarningMessage('The documents could not be changed.');
  }

  private async show(id: string): Promise<void> {
    const result = await this.link.ask('plimsoll/explain', { uri: this.start.uri, name: id });
    if (result === null) return;
    const selection = rangeOf(result.place.range);
    await window.showTextDocument(Uri.parse(result.place.uri), { selection, viewColumn: ViewColumn.One });
  }

  private say(message: ToPage): void {
    void this.panel.webview.postMessage(message);
  }
}

function newNonce(): string {
  return [...crypto.getRandomValues(new Uint8Array(16))].map((byte) => byte.toString(16).padStart(2, '0')).join('');
}

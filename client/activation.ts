/** What the extension does once it is activated, wherever it runs: little, until something takes part. */
import { commands, type ExtensionContext, Uri, workspace } from 'vscode';
import { registerCommands } from './commands';
import { registerPages } from './page-panel';
import { takesPart } from './participation';
import { createRequirementsView } from './requirements-view';
import { type CreateClient, ServerLink } from './server-link';
import { createStatusBar } from './status-bar';
import { registerTrial } from './trial/trial-panel';

const CONFIGURATION = 'plimsoll.yaml';

export function activateWith(context: ExtensionContext, createClient: CreateClient): void {
  const link = new ServerLink(createClient);
  const view = createRequirementsView(link);
  context.subscriptions.push(link, view, createStatusBar(link), registerTrial(link), registerPages(link));
  registerCommands(context, link, view);
  void setContexts(link);
  startWhenNeeded(context, link);
}

/** The server costs a process: it starts with the first document that takes part, a configuration or a command. */
function startWhenNeeded(context: ExtensionContext, link: ServerLink): void {
  const look = (document: { readonly languageId: string; getText(): string }) => {
    if (document.languageId === 'markdown' && takesPart(document.getText())) void link.start();
  };
  context.subscriptions.push(
    workspace.onDidOpenTextDocument(look),
    workspace.onDidChangeTextDocument(({ document }) => {
      if (!link.isStarted) look(document);
    }),
    workspace.onDidGrantWorkspaceTrust(() => {
      if (link.isStarted) void link.restart();
    }),
  );
  for (const document of workspace.textDocuments) look(document);
  void hasConfiguration().then((has) => {
    if (has) void link.start();
  });
}

/** Virtual folders may have nobody who searches them: at their top one looks. */
async function hasConfiguration(): Promise<boolean> {
  const tops = (workspace.workspaceFolders ?? []).map(({ uri }) => Uri.joinPath(uri, CONFIGURATION));
  const seen = tops.map((uri) =>
    workspace.fs.stat(uri).then(
      () => true,
      () => false,
    ),
  );
  if ((await Promise.all(seen)).includes(true)) return true;
  return (await workspace.findFiles(`**/${CONFIGURATION}`, '**/node_modules/**', 1)).length > 0;
}

/** What menus and the walkthrough depend on. */
function setContexts(link: ServerLink): void {
  const set = (name: string, value: boolean) => void commands.executeCommand('setContext', `plimsoll.${name}`, value);
  // Commands are there as soon as something takes part, not only once it was read.
  link.onState((state) => {
    if (state === 'starting') set('isActive', true);
  });
  link.onSummary(({ products }) => {
    set('isActive', products.length > 0);
    const has = (verdict: string) => products.some(({ verdicts }) => (verdicts[verdict] ?? 0) > 0);
    set('hasUnmet', has('unmet'));
    set('hasAtRisk', has('at risk'));
  });
}

/** Starts a product: the five-minute file in the folder at hand, opened and ready to be changed. */
import { FileType, Selection, type TextDocument, Uri, ViewColumn, window, workspace } from 'vscode';
import type { ServerLink } from './server-link';

/** What is there already is opened as it is. */
export async function startProduct(link: ServerLink): Promise<void> {
  const starter = await link.ask('plimsoll/starter', null);
  if (starter === null) return;
  const folder = workspace.workspaceFolders?.[0];
  if (folder === undefined) {
    await showAt(await workspace.openTextDocument({ language: 'markdown', content: starter.text }), starter.select);
    return;
  }
  const file = Uri.joinPath(folder.uri, starter.file);
  if (!(await exists(file))) await workspace.fs.writeFile(file, new TextEncoder().encode(starter.text));
  await showAt(await workspace.openTextDocument(file), starter.select);
}

async function exists(file: Uri): Promise<boolean> {
  try {
    return (await workspace.fs.stat(file)).type === FileType.File;
  } catch {
    return false;
  }
}

/** Selects the figure that is there to be changed. */
async function showAt(document: TextDocument, select: string): Promise<void> {
  const editor = await window.showTextDocument(document, { viewColumn: columnFor(), preview: false });
  const start = document.getText().indexOf(select);
  if (start >= 0)
    editor.selection = new Selection(document.positionAt(start), document.positionAt(start + select.length));
}

/** A walkthrough stays where it is and can be read on. */
function columnFor(): ViewColumn {
  const showsSomethingElse = window.activeTextEditor === undefined && window.tabGroups.activeTabGroup.activeTab;
  return showsSomethingElse ? ViewColumn.Beside : ViewColumn.Active;
}

/** Starts a product: the five-minute file in the folder at hand, opened and ready to be changed. */
import { FileType, Range, type TextDocument, Uri, ViewColumn, window, workspace } from 'vscode';
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

/** With the figure selected that is there to be changed, from the start: whoever types at once types over it. */
async function showAt(document: TextDocument, select: string): Promise<void> {
  const start = document.getText().indexOf(select);
  const selection =
    start < 0 ? undefined : new Range(document.positionAt(start), document.positionAt(start + select.length));
  await window.showTextDocument(document, { viewColumn: columnFor(), preview: false, ...(selection && { selection }) });
}

/** A walkthrough stays where it is and can be read on. */
function columnFor(): ViewColumn {
  const showsSomethingElse = window.activeTextEditor === undefined && window.tabGroups.activeTabGroup.activeTab;
  return showsSomethingElse ? ViewColumn.Beside : ViewColumn.Active;
}

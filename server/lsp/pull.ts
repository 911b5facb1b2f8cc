/** Diagnostics for clients that ask for them: of one document, and of the whole workspace. */
import {
  type CancellationToken,
  type DocumentDiagnosticParams,
  type DocumentDiagnosticReport,
  DocumentDiagnosticReportKind,
  type WorkspaceDiagnosticParams,
  type WorkspaceDiagnosticReport,
  type WorkspaceDocumentDiagnosticReport,
} from 'vscode-languageserver';
import type { Entry } from './ledger';
import type { ServerState } from './state';
import type { Turns } from './turn';

export async function documentDiagnostics(
  state: ServerState,
  turns: Turns,
  { textDocument, previousResultId }: DocumentDiagnosticParams,
): Promise<DocumentDiagnosticReport> {
  turns.flush();
  const key = state.uris.keyOf(textDocument.uri);
  const entry = key === null ? null : state.ledger.get(key);
  if (entry === null) return { kind: DocumentDiagnosticReportKind.Full, items: [] };
  const resultId = String(entry.generation);
  if (resultId === previousResultId) return { kind: DocumentDiagnosticReportKind.Unchanged, resultId };
  return { kind: DocumentDiagnosticReportKind.Full, resultId, items: [...entry.diagnostics] };
}

/** Only what is other than the client knows; while nothing is, the request stays open. */
export async function workspaceDiagnostics(
  state: ServerState,
  turns: Turns,
  { previousResultIds }: WorkspaceDiagnosticParams,
  token: CancellationToken,
): Promise<WorkspaceDiagnosticReport> {
  turns.flush();
  const known = new Map(previousResultIds.map(({ uri, value }) => [state.uris.keyOf(uri) ?? uri, { uri, value }]));
  for (;;) {
    const items = reports(state, known);
    if (items.length > 0 || known.size === 0 || token.isCancellationRequested || state.reading.isStopped)
      return { items };
    await Promise.race([
      turns.nextChange(),
      new Promise<void>((resolve) => token.onCancellationRequested(() => resolve())),
    ]);
  }
}

function reports(
  { ledger }: ServerState,
  known: ReadonlyMap<string, { readonly uri: string; readonly value: string }>,
): WorkspaceDocumentDiagnosticReport[] {
  const items: WorkspaceDocumentDiagnosticReport[] = [];
  for (const [key, entry] of ledger.all()) {
    const last = known.get(key);
    if (last === undefined ? entry.diagnostics.length > 0 : last.value !== String(entry.generation))
      items.push(reportOf(entry));
  }
  for (const [key, { uri, value }] of known)
    if (ledger.get(key) === null && value !== '') items.push({ kind: 'full', uri, version: null, items: [] });
  return items;
}

function reportOf({ uri, version, generation, diagnostics }: Entry): WorkspaceDocumentDiagnosticReport {
  return { kind: 'full', uri, version, resultId: String(generation), items: [...diagnostics] };
}

/** Completion, with what is known of an item once it is looked at. */
import { type CompletionItem, CompletionItemKind, MarkupKind } from 'vscode-languageserver';
import { type CompletionKind, completionsAt, type CompletionItem as OurItem } from '../../features/completion';
import { documentationOf } from '../../features/named';
import type { Positions } from '../positions';
import { readyRequest } from '../reading';
import type { ServerState } from '../state';
import { subjectOf } from '../subject';
import { askedAt } from './at';

const KINDS: Readonly<Record<CompletionKind, CompletionItemKind>> = {
  fact: CompletionItemKind.Variable,
  table: CompletionItemKind.Module,
  row: CompletionItemKind.Struct,
  mode: CompletionItemKind.EnumMember,
  function: CompletionItemKind.Function,
  requirement: CompletionItemKind.Class,
  record: CompletionItemKind.Event,
  key: CompletionItemKind.Property,
  value: CompletionItemKind.Value,
  unit: CompletionItemKind.Unit,
};

/** What an item carries until it is resolved. */
interface Unresolved {
  readonly uri: string;
  readonly name: string;
}

export function registerCompletion(state: ServerState): void {
  const { connection } = state;
  connection.onCompletion(
    readyRequest(state, 'completion', (params) => {
      const asked = askedAt(state, params);
      if (asked === null) return null;
      const { whole, file, text, offset, positions } = asked;
      const items = completionsAt(whole, file, text, offset).map((item) =>
        itemOf(item, params.textDocument.uri, positions),
      );
      return items.length === 0 ? null : { isIncomplete: true, items };
    }),
  );
  connection.onCompletionResolve(
    readyRequest(state, 'completionItem/resolve', (item) => {
      const data = item.data as Unresolved | undefined;
      const subject = data === undefined ? null : subjectOf(state, data.uri);
      const text = data === undefined || subject === null ? null : documentationOf(subject.whole, data.name);
      return text === null ? item : { ...item, documentation: { kind: MarkupKind.Markdown, value: text } };
    }),
  );
}

function itemOf(item: OurItem, uri: string, positions: Positions): CompletionItem {
  const { label, kind, detail, insert, replace, rank, documentation, subject } = item;
  return {
    label,
    kind: KINDS[kind],
    ...(detail !== '' && { detail }),
    sortText: `${String(rank).padStart(4, '0')} ${label}`,
    filterText: label,
    textEdit: { range: positions.rangeOf(replace), newText: insert },
    ...(documentation !== null && { documentation: { kind: MarkupKind.Markdown, value: documentation } }),
    ...(subject !== null && { data: { uri, name: subject } satisfies Unresolved }),
  };
}

/** Code actions: edits for any editor, trials for one that has them. */
import { type CodeAction, CodeActionKind } from 'vscode-languageserver';
import { codeActionsIn, type CodeAction as OurAction } from '../../features/code-actions';
import { commandOf } from '../commands';
import { diagnosticOf } from '../diagnostics';
import { readyRequest } from '../reading';
import type { ServerState } from '../state';
import { type Subject, subjectOf } from '../subject';
import { changesOf } from './text-edits';

export function registerCodeActions(state: ServerState): void {
  const { connection } = state;
  connection.onCodeAction(
    readyRequest(state, 'codeAction', ({ textDocument, range, context }) => {
      const subject = subjectOf(state, textDocument.uri);
      if (subject === null) return [];
      const span = subject.placing.positionsOf(subject.file).spanOf(range);
      return codeActionsIn(subject.whole, subject.file, span)
        .filter((action) => isAsked(kindOf(action), context.only))
        .flatMap((action) => actionOf(state, subject, action) ?? []);
    }),
  );
}

/** What mends nothing waits until it is looked for. */
function kindOf({ finding }: OurAction): CodeActionKind {
  return finding === null ? CodeActionKind.Refactor : CodeActionKind.QuickFix;
}

/** A kind takes in all that lies below it: `refactor` is asked for by `` and by `refactor`. */
function isAsked(kind: CodeActionKind, only: readonly CodeActionKind[] | undefined): boolean {
  return only === undefined || only.some((asked) => asked === '' || kind === asked || kind.startsWith(`${asked}.`));
}

function actionOf(state: ServerState, subject: Subject, action: OurAction): CodeAction | null {
  const { title, finding, trial, isPreferred } = action;
  const common = {
    title,
    kind: kindOf(action),
    ...(isPreferred && { isPreferred }),
    ...(finding !== null && { diagnostics: [diagnosticOf(finding, subject.placing)] }),
  };
  if (trial === null) return { ...common, edit: { changes: changesOf(subject.placing, action.edits) } };
  const uri = subject.placing.uriOf(subject.file);
  const command = commandOf(state, title, 'plimsoll.trial', { uri, ...trial });
  return command && { ...common, command };
}

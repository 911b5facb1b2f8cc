/** The commands of the category Plimsoll, and those that the server's lenses lead to. */
import { commands, type ExtensionContext, Position, type QuickPickItem, QuickPickItemKind, Uri, window } from 'vscode';
import type { CommandArguments } from '../server/lsp/messages';
import { startProduct } from './new-product';
import { locationOf } from './places';
import { type Filter, NO_FILTER } from './requirements-tree';
import type { RequirementsView } from './requirements-view';
import type { ServerLink } from './server-link';
import { EVIDENCE, signOf, VERDICTS } from './verdict-words';

export function registerCommands({ subscriptions }: ExtensionContext, link: ServerLink, view: RequirementsView): void {
  const register = (name: string, run: (...args: never[]) => unknown) =>
    subscriptions.push(commands.registerCommand(`plimsoll.${name}`, run));
  register('newProduct', () => startProduct(link));
  register('showRequirements', async () => {
    await link.start();
    await commands.executeCommand('setContext', 'plimsoll.isActive', true);
    await view.show();
  });
  register('filterRequirements', () => chooseFilter(view));
  register('showAllRequirements', () => view.setFilter(NO_FILTER));
  register('rescan', () => link.ask('plimsoll/rescan', null));
  register('restartServer', () => link.restart());
  register('showLog', () => link.showLog());
  register('showPlaces', showPlaces);
}

interface Choice extends QuickPickItem {
  readonly take: (filter: Filter) => Filter;
}

async function chooseFilter(view: RequirementsView): Promise<void> {
  const { filter } = view;
  const verdicts = VERDICTS.map(
    (verdict): Choice => ({
      label: `$(${signOf(verdict).icon}) ${verdict}`,
      picked: filter.verdicts.includes(verdict),
      take: (so) => ({ ...so, verdicts: [...so.verdicts, verdict] }),
    }),
  );
  const evidence = EVIDENCE.map(
    (state): Choice => ({
      label: state,
      picked: filter.evidence.includes(state),
      take: (so) => ({ ...so, evidence: [...so.evidence, state] }),
    }),
  );
  const generous: Choice = {
    label: '$(unfold) over-specified',
    picked: filter.overSpecified,
    take: (so) => ({ ...so, overSpecified: true }),
  };
  const choices = [heading('Verdict'), ...verdicts, generous, heading('Evidence'), ...evidence];
  const chosen = await window.showQuickPick(choices, {
    canPickMany: true,
    title: 'Requirements to Show',
    placeHolder: 'None chosen: all are shown',
  });
  if (chosen !== undefined) view.setFilter(chosen.reduce((so, { take }) => take(so), NO_FILTER));
}

function heading(label: string): Choice {
  return { label, kind: QuickPickItemKind.Separator, take: (filter) => filter };
}

/** What a lens leads to: one place is gone to, several are shown beside the text. */
async function showPlaces(...[uri, at, places]: CommandArguments['plimsoll.showPlaces']): Promise<void> {
  const from = new Position(at.line, at.character);
  const found = places.map(locationOf);
  await commands.executeCommand(
    'editor.action.goToLocations',
    Uri.parse(uri),
    from,
    found,
    'peek',
    'Nothing rests on it',
  );
}

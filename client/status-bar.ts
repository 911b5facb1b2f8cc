/** The summary of the product at hand in the status bar; it opens its matrix. */
import { Disposable, MarkdownString, StatusBarAlignment, type StatusBarItem, ThemeColor, window } from 'vscode';
import type { ProductSummary } from '../server/lsp/messages';
import type { ServerLink } from './server-link';
import { signOf, summaryLine, VERDICTS, worstVerdict } from './verdict-words';

export function createStatusBar(link: ServerLink): Disposable {
  const item = window.createStatusBarItem('plimsoll.summary', StatusBarAlignment.Left, 40);
  item.name = 'Plimsoll';
  const show = () => showIn(item, link);
  return Disposable.from(item, link.onSummary(show), link.onState(show), window.onDidChangeActiveTextEditor(show));
}

function showIn(item: StatusBarItem, link: ServerLink): void {
  item.backgroundColor = undefined;
  const product = link.productOf(window.activeTextEditor?.document.uri.toString() ?? null);
  if (link.state === 'failed') showFailure(item);
  else if (product !== null) showProduct(item, product);
  else if (link.state === 'starting') showReading(item);
  else item.hide();
}

function showReading(item: StatusBarItem): void {
  item.text = '$(loading~spin) Plimsoll';
  item.tooltip = 'Reading the product';
  item.show();
}

function showProduct(item: StatusBarItem, product: ProductSummary): void {
  const line = summaryLine(product);
  item.text = `$(${signOf(worstVerdict(product)).icon}) ${line}`;
  item.tooltip = tooltipOf(product);
  item.command = 'plimsoll.showMatrix';
  item.accessibilityInformation = { label: `Plimsoll, ${product.name}: ${line}`, role: 'button' };
  item.show();
}

function showFailure(item: StatusBarItem): void {
  item.text = '$(error) Plimsoll is off';
  item.tooltip = 'The language server stopped. Start it again';
  item.command = 'plimsoll.restartServer';
  item.backgroundColor = new ThemeColor('statusBarItem.errorBackground');
  item.show();
}

function tooltipOf({ name, phase, verdicts, overSpecified }: ProductSummary): MarkdownString {
  const tooltip = new MarkdownString(undefined, true);
  tooltip.appendText(name);
  tooltip.appendMarkdown(`  \nin phase *${phase}*\n\n`);
  const rows = VERDICTS.flatMap((verdict) => {
    const count = verdicts[verdict] ?? 0;
    return count === 0 ? [] : [`$(${signOf(verdict).icon}) ${count} ${verdict}`];
  });
  if (overSpecified > 0) rows.push(`$(unfold) ${overSpecified} over-specified`);
  tooltip.appendMarkdown(rows.join('  \n'));
  tooltip.appendMarkdown('\n\nClick to see the matrix');
  return tooltip;
}

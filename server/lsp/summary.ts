/** A product in figures, for the status bar of an editor. */

import type { ProductAnalysis } from '../findings/product-analysis';
import type { ProductSummary } from './messages';
import type { LiveProduct } from './products';
import type { ServerState } from './state';

interface Judged {
  readonly result: ProductAnalysis;
  readonly times: number;
}

const judged = new WeakMap<LiveProduct, Judged>();

/** None before the product was judged. */
export function summaryOf({ uris }: ServerState, live: LiveProduct): readonly ProductSummary[] {
  const { open, result, shown, only } = live;
  if (result === null || shown === null) return [];
  const { configuration } = open.workspace;
  const verdicts: Record<string, number> = {};
  for (const verdict of shown.verdicts.values()) verdicts[verdict] = (verdicts[verdict] ?? 0) + 1;
  const findings = { error: 0, warning: 0, information: 0, hint: 0 };
  for (const { severity } of shown.findings) findings[severity] += 1;
  return [
    {
      uri: uris.uriOf(only ?? open.place.root),
      name: productName(live),
      phase: configuration.phase,
      judged: timesJudged(live, result),
      requirements: result.analysis.requirements.length,
      verdicts,
      overSpecified: shown.findings.filter(({ code }) => code === 'over-specified').length,
      findings,
    },
  ];
}

/** As its configuration calls it, else its first document, else its folder. */
export function productName({ open, result }: LiveProduct): string {
  const { root } = open.place;
  return (
    open.workspace.configuration.product ??
    result?.analysis.product.title ??
    (root.slice(root.lastIndexOf('/') + 1) || root)
  );
}

function timesJudged(live: LiveProduct, result: ProductAnalysis): number {
  const last = judged.get(live);
  if (last?.result === result) return last.times;
  const times = (last?.times ?? 0) + 1;
  judged.set(live, { result, times });
  return times;
}

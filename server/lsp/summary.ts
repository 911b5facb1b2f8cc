/** A product in figures, for the status bar of an editor. */

import type { AnalysisPart } from '../engine/parts';
import type { Finding } from '../findings/finding';
import type { ProductAnalysis } from '../findings/product-analysis';
import type { ProductSummary } from './messages';
import type { LiveProduct } from './products';
import type { ServerState } from './state';
import type { Shown } from './still';

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
  const verdicts = added([...shown.parts.values()].map((part) => countsOf(part, verdictsIn)));
  for (const [id, { verdict }] of shown.held) moveOne(verdicts, verdictNow(shown, id), verdict);
  const found = added([...shown.byFile.values()].map((list) => countsOf(list, findingsIn)));
  return [
    {
      uri: uris.uriOf(only ?? open.place.root),
      name: productName(live),
      phase: configuration.phase,
      judged: timesJudged(live, result),
      requirements: result.analysis.product.requirements.length,
      verdicts,
      overSpecified: found['over-specified'] ?? 0,
      findings: {
        error: found.error ?? 0,
        warning: found.warning ?? 0,
        information: found.information ?? 0,
        hint: found.hint ?? 0,
      },
    },
  ];
}

type Counts = Readonly<Record<string, number>>;

const counted = new WeakMap<object, Counts>();

/** What is the same object has the same counts. */
function countsOf<Counted extends object>(what: Counted, namesIn: (what: Counted) => readonly string[]): Counts {
  const known = counted.get(what) ?? added(namesIn(what).map((name) => ({ [name]: 1 })));
  counted.set(what, known);
  return known;
}

function verdictsIn({ requirements }: AnalysisPart): readonly string[] {
  return requirements.map(({ verdict }) => verdict);
}

/** Severities, and what is counted by its own name. */
function findingsIn(findings: readonly Finding[]): readonly string[] {
  return findings.flatMap(({ severity, code }) => (code === 'over-specified' ? [severity, code] : [severity]));
}

function added(counts: readonly Counts[]): Record<string, number> {
  const sum: Record<string, number> = {};
  for (const one of counts) for (const name in one) sum[name] = (sum[name] ?? 0) + (one[name] ?? 0);
  return sum;
}

function moveOne(counts: Record<string, number>, from: string | undefined, to: string): void {
  if (from === undefined) return;
  counts[from] = (counts[from] ?? 0) - 1;
  if (counts[from] === 0) delete counts[from];
  counts[to] = (counts[to] ?? 0) + 1;
}

function verdictNow({ parts, held }: Shown, id: string): string | undefined {
  const file = held.get(id)?.place.file ?? '';
  return parts.get(file)?.requirements.find(({ requirement }) => requirement.id === id)?.verdict;
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

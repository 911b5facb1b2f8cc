/** What `check` says at the end: open points by owner, verdicts, evidence and findings counted. */
import { EVIDENCE_STATES } from '../engine/evidence/state';
import { type OpenPoint, openPointsByOwner } from '../findings/open-owners';
import type { ProductAnalysis } from '../findings/product-analysis';
import { createLineIndex } from '../syntax/line-index';
import { countFolded } from './finding-lines';
import type { TextStyle } from './text-style';
import { countsText } from './verdict-counts';

const NOBODY = 'no owner';

/** A line for each who answers for something that is not settled; nothing where all is. */
export function openPointsText(result: ProductAnalysis, { paint, pad }: TextStyle): readonly string[] {
  const points = openPointsByOwner(result.analysis, result.findings);
  if (points.length === 0) return [];
  const owners = [...new Set(points.map(({ owner }) => owner))];
  const columns = Math.max(...owners.map((owner) => (owner ?? NOBODY).length)) + 2;
  const lines = owners.map((owner) => {
    const own = points.filter((point) => point.owner === owner).map((point) => placedSubject(point, result));
    return `  ${pad(owner ?? NOBODY, columns)}${own.join(', ')}`;
  });
  return [[paint('heading', 'Open points'), ...lines].join('\n')];
}

function placedSubject({ subject, finding }: OpenPoint, { texts }: ProductAnalysis): string {
  const { file, span } = finding.place;
  return `${subject} (${file}:${createLineIndex(texts.get(file) ?? '').positionAt(span.start).line + 1})`;
}

export function summaryText(result: ProductAnalysis, style: TextStyle, shown: 'most' | 'all'): string {
  const { requirements } = result.analysis;
  const counts = countsText(requirements, style);
  const head = `${requirements.length} requirement${requirements.length === 1 ? '' : 's'}`;
  const verdicts = counts === '' ? `${head}.` : `${head}: ${counts}.`;
  return [verdicts, ...evidenceText(result), foundText(result, shown)].join('\n');
}

/** Coverage, the strongest first; what does not apply needs no evidence. */
function evidenceText({ analysis }: ProductAnalysis): readonly string[] {
  const applying = analysis.requirements.filter(({ verdict }) => verdict !== 'not applicable');
  const counts = [...EVIDENCE_STATES]
    .reverse()
    .map((state) => ({ state, count: applying.filter(({ evidence }) => evidence.state === state).length }))
    .filter(({ count }) => count > 0)
    .map(({ state, count }) => `${count} ${state}`);
  return counts.length === 0 ? [] : [`Evidence: ${counts.join(', ')}.`];
}

function foundText({ findings }: ProductAnalysis, shown: 'most' | 'all'): string {
  const found = (['error', 'warning', 'information'] as const)
    .map((severity) => ({ severity, count: findings.filter((finding) => finding.severity === severity).length }))
    .filter(({ count }) => count > 0)
    .map(
      ({ severity, count }) =>
        `${count} ${severity === 'information' ? 'to know' : `${severity}${count === 1 ? '' : 's'}`}`,
    );
  const folded = shown === 'all' ? 0 : countFolded(findings);
  const rest = folded === 0 ? '' : ` ${folded} of them not shown one by one (--all shows them).`;
  return `${found.length === 0 ? 'Nothing found' : found.join(', ')}.${rest}`;
}

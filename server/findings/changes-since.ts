/** Given figures that have changed since a run: then → now. */
import type { Analysis, RequirementResult } from '../engine/analysis';
import { factNamed, knownValue } from '../engine/evidence/measured';
import type { TestRun } from '../model/verification';
import { writtenValue } from '../model/written-value';
import { valueText } from '../quantity/value-text';
import type { Related } from './finding';

/** Changes named in a message. */
const MOST_NAMED = 3;

/** `; since then storage.capacity 8 TB → 7 TB`, and the places of what changed. */
export function changesSince(
  { product }: Analysis,
  run: TestRun | null,
  { uses }: RequirementResult,
): { readonly text: string; readonly related: readonly Related[] } {
  const changes = (run?.against ?? []).flatMap((one) => {
    const named = factNamed(product, one.name);
    const then = knownValue(one);
    if (then === null) return [];
    if (named === null) return [{ text: `${one.name} ${valueText(then)} → gone`, related: [] }];
    const now = writtenValue(named.fact.content, named.mode);
    if (!uses.has(named.fact.name) || now === null || valueText(now) === valueText(then)) return [];
    const text = `${one.name} ${valueText(then)} → ${valueText(now)}`;
    const place = { file: named.fact.file, span: named.fact.span };
    return [{ text, related: [{ place, message: `${one.name} was ${valueText(then)}` }] }];
  });
  if (changes.length === 0) return { text: '', related: [] };
  const more = changes.length > MOST_NAMED ? ` and ${changes.length - MOST_NAMED} more` : '';
  const named = changes.slice(0, MOST_NAMED).map(({ text }) => text);
  return { text: `; since then ${named.join(', ')}${more}`, related: changes.flatMap(({ related }) => related) };
}

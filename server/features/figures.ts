/** Facts and criteria in words, as hovers, hints and lenses show them. */

import type { Analysis, FactContent, FactResult, RequirementResult } from '../engine/analysis';
import type { CriterionResult } from '../engine/judge-criterion';
import { caseText, marginText, worstCaseText } from '../findings/criterion-text';
import { limitUnits, shownUnit } from '../findings/fact-units';
import { isDerived } from '../model/fact';
import { formatOutward } from '../quantity/format';
import * as interval from '../quantity/interval';
import type { Unit } from '../quantity/unit';

const units = new WeakMap<Analysis, ReadonlyMap<string, Unit>>();
const facts = new WeakMap<Analysis, ReadonlyMap<string, FactResult>>();

export function factResultOf(analysis: Analysis, name: string): FactResult | null {
  const known = facts.get(analysis) ?? new Map(analysis.facts.map((result) => [result.fact.name, result]));
  facts.set(analysis, known);
  return known.get(name) ?? null;
}

/** One line for each mode that decides it: `standby: 4 W`; one without a mode otherwise. */
export function valueLines(analysis: Analysis, { fact, values }: FactResult): readonly string[] {
  const limits = units.get(analysis) ?? limitUnits(analysis.requirements);
  units.set(analysis, limits);
  return values.map(({ mode, content }) => {
    const text = contentText(content, (quantity) =>
      shownUnit(
        !isDerived(fact.content) ? undefined : limits.get(fact.name),
        quantity.unit,
        quantity.dimension,
        analysis.product.units,
      ),
    );
    return mode === null ? text : `${mode}: ${text}`;
  });
}

/** `storage.retention >= 7 d: 9.353 d to 10.29 d, margin 2.352 d`. */
export function criterionLine(result: CriterionResult): string {
  const { criterion, figures } = result;
  const place = caseText(result);
  if (figures === null) return `${criterion.text}${place}`;
  const margin = marginText(figures);
  return `${criterion.text}: ${worstCaseText(figures)}${place}${margin === null ? '' : `, margin ${margin}`}`;
}

/** The margin of the criterion that decides; empty where there is none. */
export function marginOf({ criteria, verdict }: RequirementResult): string {
  const decides = criteria.find((criterion) => criterion.verdict === verdict && criterion.figures !== null);
  const { figures } = decides ?? criteria[0] ?? { figures: null };
  return figures === null ? '' : (marginText(figures) ?? '');
}

function contentText(
  content: FactContent,
  unitOf: (quantity: FactContent & { readonly type: 'quantity' }) => Unit,
): string {
  switch (content.type) {
    case 'undecided':
      return 'undecided';
    case 'text':
      return `"${content.text}"`;
    case 'boolean':
      return content.boolean ? 'yes' : 'no';
    case 'set':
      return content.items.map((item) => contentText(item, unitOf)).join(', ');
    case 'quantity': {
      const unit = unitOf(content);
      const full = formatOutward(content.full, unit);
      const isOne = interval.isPoint(content.full) || !interval.isPoint(content.typical);
      return isOne ? full : `${full}, typically ${formatOutward(content.typical, unit)}`;
    }
  }
}

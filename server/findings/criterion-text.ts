/** A judged criterion in words: value with worst case, the worst row and mode, margin. */
import type { Figures } from '../engine/criterion';
import type { CriterionResult } from '../engine/judge-criterion';
import { formatIn, formatOutward } from '../quantity/format';

/** What stands behind a criterion's text: `: 47.63 W to 61.57 W (in mode record), margin -1.569 W`. */
export function figuresText(result: CriterionResult): string {
  const { figures } = result;
  const place = caseText(result);
  if (figures === null) return place;
  const margin = marginText(figures);
  return `: ${worstCaseText(figures)}${place}${margin === null ? '' : `, margin ${margin}`}`;
}

/** The worst row and mode of several: ` (worst cam, in mode record)`. */
export function caseText({ mode, row }: CriterionResult): string {
  const where = [row === null ? '' : `worst ${row}`, mode === null ? '' : `in mode ${mode}`]
    .filter((part) => part !== '')
    .join(', ');
  return where === '' ? '' : ` (${where})`;
}

/** The worst case, rounded outward. */
export function worstCaseText({ value, unit }: Figures): string {
  return formatOutward(value, unit);
}

/** Rounded down; null where there is none. */
export function marginText({ margin, unit }: Figures): string | null {
  return margin === null ? null : formatIn(margin, unit, 'down', { difference: true });
}

/** contradiction: limits on one expression that apply together and leave nothing that satisfies them all. */
import type { Analysis } from '../engine/analysis';
import type { AnalysisPart } from '../engine/parts';
import { type Contradiction, contradictionsIn } from '../engine/relations';
import type { Bound, Gap } from '../engine/relations/allowed';
import type { Limit } from '../engine/relations/limit';
import { formatIn } from '../quantity/format';
import * as rational from '../quantity/rational';
import { AS_WRITTEN } from './describe';
import type { Draft } from './finding';

/** Stands on the later one; an error only where both bind. */
export function* contradictions(analysis: Analysis, part: AnalysisPart): Iterable<Draft> {
  for (const contradiction of contradictionsIn(analysis, part)) {
    const { later, earlier, isBinding } = contradiction;
    const others = earlier.filter((limit) => limit !== later);
    yield {
      code: 'contradiction',
      requirement: later.result.requirement.id,
      message: messageOf(contradiction, others),
      place: later.criterion.place,
      related: others.map(({ result, criterion }) => ({
        place: criterion.place,
        message: `${result.requirement.id} asks for ${criterion.text}`,
      })),
      ...(!isBinding && { severity: 'warning' }),
    };
  }
}

function messageOf({ later, gap }: Contradiction, others: readonly Limit[]): string {
  const { id } = later.result.requirement;
  if (others.length === 0) return `${id}: no value is ${later.criterion.text}: its ends are in the wrong order`;
  const asked = others.map(({ result, criterion }) => `${criterion.text} (${whose(result.requirement.id, id)})`);
  const distance = gap === null ? 'nothing is left that satisfies both' : distanceOf(gap, later);
  return `${id}: ${later.criterion.text} cannot hold together with ${asked.join(' and ')}: ${distance}; ${mendOf(gap, later)}`;
}

function whose(other: string, own: string): string {
  return other === own ? 'in the same requirement' : other;
}

function distanceOf({ low, high }: Gap, { unit }: Limit): string {
  const distance = rational.subtract(low.value, high.value);
  if (rational.sign(distance) === 0 || unit === null) return 'they meet in one figure that is not allowed';
  return `${formatIn(distance, unit, 'nearest', { ...AS_WRITTEN, difference: true })} lie between them`;
}

function mendOf(gap: Gap | null, { unit }: Limit): string {
  if (gap === null || unit === null) return 'change one of them, or say when each applies (Where, While)';
  const shown = ({ value }: Bound) => formatIn(value, unit, 'nearest', AS_WRITTEN);
  if (rational.equals(gap.low.value, gap.high.value))
    return `let both include ${shown(gap.low)}, or say when each applies (Where, While)`;
  return `bring ${shown(gap.low)} down to ${shown(gap.high)} or ${shown(gap.high)} up to ${shown(gap.low)}, or say when each applies (Where, While)`;
}

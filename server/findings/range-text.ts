/** How findings put the ends of ranges into words: rounded inward, in the unit of the figure's author. */
import type { End } from '../engine/ranges/affine';
import type { Figure, Needed } from '../engine/ranges/ranges';
import { type Direction, formatIn } from '../quantity/format';
import { formatNumber } from '../quantity/format-number';
import type { Rational } from '../quantity/rational';
import * as rational from '../quantity/rational';

const HUNDRED = rational.integer(100);

/** A place of the figure: `14 W`; of a half-width `±0.5 W`, or `±4 %` where its author wrote it so. */
export function figureText(figure: Figure, at: Rational, direction: Direction): string {
  const { value, movement } = figure;
  if (movement !== 'half-width') return formatIn(at, value.unit, direction);
  const { typical, form } = value;
  const isRatio = form.type === 'symmetric' && form.ratio && typical !== null && rational.sign(typical) !== 0;
  if (!isRatio) return `±${formatIn(at, value.unit, direction, { difference: true })}`;
  const share = rational.divide(rational.multiply(at, HUNDRED), rational.absolute(typical));
  return `±${formatNumber(share, direction)} %`;
}

/** An end as permission is shown: `60 W`, `just below 60 W` where it is itself not allowed. */
export function endText(figure: Figure, { value, strict }: End, direction: 'up' | 'down'): string {
  const shown = figureText(figure, value, direction);
  return strict ? `just ${direction === 'down' ? 'below' : 'above'} ${shown}` : shown;
}

/** `≤ 10.1 W`, `≥ 0.985`, `4 V to 5 V`, `within ±4 %`, `within less than ±4 %`; null where there is no range. */
export function neededText(figure: Figure, range: Needed): string | null {
  if (range.type !== 'range') return null;
  const { low, high } = range;
  if (figure.movement === 'half-width') return high === null ? null : widthText(figure, high);
  // What divides comes as close to zero as it likes: that is no end to speak of.
  const from = low?.strict && rational.sign(low.value) === 0 ? null : low;
  if (from !== null && high !== null) return betweenText(figure, from, high);
  if (high !== null) return `${sign('<', high)} ${figureText(figure, high.value, 'down')}`;
  return from === null ? null : `${sign('>', from)} ${figureText(figure, from.value, 'up')}`;
}

function betweenText(figure: Figure, low: End, high: End): string {
  if (rational.equals(low.value, high.value)) return `= ${figureText(figure, low.value, 'nearest')}`;
  return `${figureText(figure, low.value, 'up')} to ${figureText(figure, high.value, 'down')}`;
}

function widthText(figure: Figure, { value, strict }: End): string {
  if (rational.sign(value) === 0) return 'without its tolerance';
  return `${strict ? 'within less than' : 'within'} ${figureText(figure, value, 'down')}`;
}

function sign(relation: '<' | '>', { strict }: End): string {
  return strict ? relation : relation === '<' ? '≤' : '≥';
}

/** Whether a person would call it a mend: of what is never less than nothing, a figure below zero is none. */
export function isMend(figure: Figure, range: Needed): boolean {
  if (range.type !== 'range') return false;
  const { high } = range;
  const isNegative = high !== null && rational.sign(high.value) < 0;
  return !(isNegative && figure.value.unit.point === null && rational.sign(figure.now) >= 0);
}

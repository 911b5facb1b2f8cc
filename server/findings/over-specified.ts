/** over-specified: a limit surpassed by more than its headroom, where a fact could be relaxed with every verdict kept. */
import type { Analysis } from '../engine/analysis';
import type { OverSpecified } from '../engine/over-specified';
import type { RangeAnalysis } from '../engine/ranges/ranges';
import { coherentUnit } from '../quantity/coherent-unit';
import { formatIn } from '../quantity/format';
import { formatNumber } from '../quantity/format-number';
import type { Rational } from '../quantity/rational';
import * as rational from '../quantity/rational';
import type { UnitTable } from '../quantity/unit-table';
import { AS_WRITTEN, limitText, subjectOf } from './describe';
import type { Draft } from './finding';
import { endText, figureText } from './range-text';

export function* overSpecifiedLimits({ product }: Analysis, { overSpecified }: RangeAnalysis): Iterable<Draft> {
  for (const found of overSpecified) yield draft(found, product.units);
}

function draft(found: OverSpecified, units: UnitTable): Draft {
  const { requirement } = found.result;
  const { figure } = found.ranges;
  return {
    code: 'over-specified',
    requirement: requirement.id,
    message: `${requirement.id}: ${message(found)}${savingsText(found, units)}`,
    place: found.criterion.criterion.place,
    related: [
      {
        place: { file: figure.fact.file, span: figure.fact.span },
        message: `${figure.name} is ${figureText(figure, figure.now, 'nearest')}`,
      },
    ],
  };
}

function message(found: OverSpecified): string {
  const { criterion, figures, headroom, ranges, end } = found;
  const { figure } = ranges;
  const direction = rational.compare(end.value, figure.now) > 0 ? 'down' : 'up';
  const until = end.by === null ? '' : `, where ${end.by} binds`;
  const than = headroom.type === 'share' ? percent(headroom.share, 'nearest') : distance(headroom.distance, found);
  const over =
    headroom.type === 'share'
      ? percent(figures.surplus as Rational, 'down')
      : distance(figures.margin as Rational, found);
  return `${subjectOf(criterion)} has ${over} to spare of ${limitText(figures)}, more than the headroom of ${than}; ${figure.name} could be ${endText(figure, end, direction)} instead of ${figureText(figure, figure.now, 'nearest')}${until}`;
}

/** `; that would save 21.4 EUR of cost`. */
function savingsText({ savings }: OverSpecified, units: UnitTable): string {
  const texts = savings.map(({ total, by, figures: { unit, dimension } }) => {
    const shown = unit !== null && unit.rates.size === 0 ? unit : coherentUnit(dimension, units);
    return `${formatIn(by, shown, 'down', { difference: true })} of ${total}`;
  });
  return texts.length === 0 ? '' : `; that would save ${texts.join(' and ')}`;
}

function percent(share: Rational, direction: 'down' | 'nearest'): string {
  return `${formatNumber(rational.multiply(share, rational.integer(100)), direction)} %`;
}

function distance(value: Rational, { figures }: OverSpecified): string {
  return formatIn(value, figures.unit, 'down', { ...AS_WRITTEN, difference: true });
}

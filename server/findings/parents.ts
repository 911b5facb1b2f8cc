/** weaker-than-parent, tighter-than-parent, cycle: derived requirements against those that they derive from. */
import type { Analysis } from '../engine/analysis';
import type { AnalysisPart } from '../engine/parts';
import { type Cycle, cyclesOf, mismatchesIn, type ParentMismatch } from '../engine/relations';
import { type Bound, isLowerSide, type Side } from '../engine/relations/allowed';
import type { Limit } from '../engine/relations/limit';
import { readHeadroom } from '../model/headroom';
import { attributesOf, listOf, type Requirement } from '../model/requirement';
import { formatIn } from '../quantity/format';
import { formatNumber } from '../quantity/format-number';
import type { Rational } from '../quantity/rational';
import * as rational from '../quantity/rational';
import { AS_WRITTEN } from './describe';
import type { Draft } from './finding';

export function* derivations(analysis: Analysis, part: AnalysisPart): Iterable<Draft> {
  for (const mismatch of mismatchesIn(analysis, part)) yield mismatchDraft(mismatch);
  for (const { requirement } of part.requirements) yield* badHeadrooms(analysis, requirement);
}

export function* derivationCycles(analysis: Analysis): Iterable<Draft> {
  for (const cycle of cyclesOf(analysis)) yield cycleDraft(cycle);
}

function* badHeadrooms({ product }: Analysis, requirement: Requirement): Iterable<Draft> {
  for (const { text, span } of attributesOf(requirement, 'Headroom')) {
    const read = readHeadroom(text, product.units);
    if (read.type !== 'bad') continue;
    yield {
      code: 'bad-value',
      requirement: requirement.id,
      message: `${requirement.id}: ${read.message}`,
      place: { file: requirement.file, span },
    };
  }
}

function mismatchDraft(mismatch: ParentMismatch): Draft {
  const { type, child, parent } = mismatch;
  const said = mismatch.type === 'weaker' ? weakerMessage(mismatch) : tighterMessage(mismatch);
  return {
    code: `${type}-than-parent`,
    requirement: child.result.requirement.id,
    message: `${child.result.requirement.id}: ${child.criterion.text} ${said}`,
    place: child.criterion.place,
    related: [
      { place: parent.criterion.place, message: `${parent.result.requirement.id} asks for ${parent.criterion.text}` },
    ],
  };
}

function parentText({ criterion, result }: Limit): string {
  return `${criterion.text} of ${result.requirement.id}, from which it derives`;
}

function weakerMessage({ child, parent, side: missed }: ParentMismatch & { type: 'weaker' }): string {
  if (missed === null) return `allows more than ${parentText(parent)}; take over ${parent.criterion.text}`;
  const { side, bound, own } = missed;
  const mend = `write ${boundText(side, bound, parent)}`;
  if (own === null) return `says nothing of one end of ${parentText(parent)}; ${mend} as well`;
  const distance = rational.absolute(rational.subtract(own.value, bound.value));
  if (rational.sign(distance) === 0)
    return `allows ${figure(bound.value, parent)} itself, unlike ${parentText(parent)}; ${mend}`;
  const lower = isLowerSide(side) ? 'lower' : 'higher';
  return `goes ${difference(distance, child)} ${lower} than ${parentText(parent)}; ${mend}`;
}

function tighterMessage(mismatch: ParentMismatch & { type: 'tighter' }): string {
  const { child, parent, side, own, bound, relaxed, share } = mismatch;
  const distance = rational.absolute(rational.subtract(own.value, bound.value));
  const by =
    share === null
      ? difference(distance, child)
      : `${formatNumber(rational.multiply(share, rational.integer(100)), 'down')} %`;
  const mend = `${boundText(side, { value: relaxed, strict: false }, child)} would do`;
  return `is ${by} stricter than ${parentText(parent)}, more than the headroom; ${mend}, or give it a Headroom`;
}

function boundText(side: Side, { value, strict }: Bound, of: Limit): string {
  const lower = strict ? 'more than' : 'at least';
  const upper = strict ? 'less than' : 'at most';
  return `${isLowerSide(side) ? lower : upper} ${figure(value, of)}`;
}

function figure(value: Rational, { unit }: Limit): string {
  return unit === null ? '' : formatIn(value, unit, 'nearest', AS_WRITTEN);
}

function difference(value: Rational, { unit }: Limit): string {
  return unit === null ? '' : formatIn(value, unit, 'nearest', { ...AS_WRITTEN, difference: true });
}

/** Stands where the first in file order names the next. */
function cycleDraft({ way, others }: Cycle): Draft {
  const [first, ...rest] = way as readonly [Requirement, ...Requirement[]];
  const next = rest[0] ?? first;
  const attribute = first.attributes.find(
    (one) => one.key === 'Derives from' && listOf({ ...first, attributes: [one] }, one.key).includes(next.id),
  );
  return {
    code: 'cycle',
    requirement: first.id,
    message: rest.length === 0 ? selfMessage(first) : circleMessage(way),
    place: { file: first.file, span: attribute?.span ?? first.idSpan },
    related: [...rest, ...others].map(({ id, file, idSpan }) => ({
      place: { file, span: idSpan },
      message: `${id} is part of the circle`,
    })),
  };
}

/** Requirements of a circle named in its message. */
const MOST_NAMED = 8;

function circleMessage(way: readonly Requirement[]): string {
  const ids = way.slice(0, MOST_NAMED).map(({ id }) => id);
  const more = way.length > MOST_NAMED ? [`… (${way.length} in all)`] : [];
  const circle = [...ids, ...more, ids[0]].join(', which derives from ');
  return `${circle}: none of them comes first; take one “Derives from” out`;
}

function selfMessage({ id }: Requirement): string {
  return `${id} derives from itself; take ${id} out of its “Derives from”`;
}

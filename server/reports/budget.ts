/** `budget`: the contributors to a sum, biggest first, for people and for programs. */
import type { RequirementResult } from '../engine/analysis';
import type { Budget, Contribution } from '../engine/budget';
import { formatIn, formatOutward } from '../quantity/format';
import type { Rational } from '../quantity/rational';
import * as rational from '../quantity/rational';
import type { Unit } from '../quantity/unit';
import { distanceIn, extentIn } from './numbers';
import type { TextStyle } from './text-style';

/** What a limit still allows the whole to grow by. */
export interface Room {
  readonly requirement: string;
  readonly criterion: string;
  /** In base units; negative when the limit is broken. */
  readonly margin: Rational;
}

/** The tightest upper limit on the name, judged in whichever mode is worst. */
export function roomOf(requirements: readonly RequirementResult[], name: string): Room | null {
  let tightest: Room | null = null;
  for (const { requirement, criteria } of requirements) {
    for (const { criterion, figures } of criteria) {
      const { condition } = criterion;
      const value =
        condition.type === 'comparison' ? condition.left : condition.type === 'ends' ? condition.value : null;
      if (value?.type !== 'name' || value.parts.join('.') !== name || figures === null) continue;
      const margin = figures.margins?.high ?? (figures.relation.startsWith('<') ? figures.margin : null);
      if (margin === null || (tightest !== null && rational.compare(margin, tightest.margin) >= 0)) continue;
      tightest = { requirement: requirement.id, criterion: criterion.text, margin };
    }
  }
  return tightest;
}

export function budgetText(budgets: readonly Budget[], room: Room | null, unit: Unit, style: TextStyle): string {
  const blocks = budgets.map(({ mode, total }) => budgetBlock(mode, total, unit, style));
  return `${[...blocks, roomText(room, unit)].join('\n\n')}\n`;
}

interface Line {
  readonly label: string;
  readonly typical: string;
  readonly worst: string;
  readonly share: string;
}

function budgetBlock(mode: string | null, total: Contribution, unit: Unit, style: TextStyle): string {
  const head: Line = {
    label: mode === null ? '' : `in mode ${mode}`,
    typical: 'typical',
    worst: 'worst case',
    share: 'share',
  };
  const lines = [head, ...linesOf(total, unit, 0)];
  const width = (key: keyof Line) => Math.max(...lines.map((line) => line[key].length));
  const [labels, typicals, worsts] = [width('label'), width('typical'), width('worst')];
  return lines
    .map(({ label, typical, worst, share }, index) => {
      const text =
        `${style.pad(label, labels)}  ${style.padStart(typical, typicals)}  ${style.padStart(worst, worsts)}  ${style.padStart(share, 6)}`.trimEnd();
      return index === 0 ? style.paint('quiet', text) : index === 1 ? style.paint('heading', text) : text;
    })
    .join('\n');
}

function linesOf(contribution: Contribution, unit: Unit, depth: number): readonly Line[] {
  const { label, items, typical, worst, share, parts } = contribution;
  const count = items === null ? '' : ` × ${rational.toDouble(items)}`;
  const own: Line = {
    label: `${'  '.repeat(depth)}${label}${count}`,
    typical: formatOutward(typical, unit),
    worst: formatOutward(worst, unit),
    share: share === null ? '' : `${(share * 100).toFixed(1)} %`,
  };
  const taking = parts.filter((part) => !takesNothing(part));
  const idle = parts.length - taking.length;
  const rest: Line = {
    label: `${'  '.repeat(depth + 1)}${idle} more that take nothing`,
    typical: '',
    worst: '',
    share: '',
  };
  return [own, ...taking.flatMap((part) => linesOf(part, unit, depth + 1)), ...(idle > 0 ? [rest] : [])];
}

function takesNothing({ worst: { low, high } }: Contribution): boolean {
  return low !== null && high !== null && rational.sign(low) === 0 && rational.sign(high) === 0;
}

function roomText(room: Room | null, unit: Unit): string {
  if (room === null) return 'No upper limit is put on it.';
  const { requirement, criterion, margin } = room;
  const shown = formatIn(rational.absolute(margin), unit, rational.sign(margin) < 0 ? 'up' : 'down', {
    difference: true,
  });
  return rational.sign(margin) < 0
    ? `${requirement} (${criterion}) is exceeded by ${shown}.`
    : `It may still take ${shown} before ${requirement} (${criterion}) is not met in the worst case.`;
}

export function budgetJson(
  name: string,
  budgets: readonly Budget[],
  room: Room | null,
  unit: Unit,
): Readonly<Record<string, unknown>> {
  return {
    schema: 1,
    name,
    budgets: budgets.map(({ mode, total }) => ({ mode, total: contributionJson(total, unit) })),
    room:
      room === null
        ? null
        : { requirement: room.requirement, criterion: room.criterion, ...distanceIn(room.margin, unit) },
  };
}

function contributionJson({ label, items, typical, worst, share, parts }: Contribution, unit: Unit): unknown {
  return {
    name: label,
    items: items === null ? 1 : rational.toDouble(items),
    typical: extentIn(typical, unit),
    ...extentIn(worst, unit),
    unit: unit.canonical,
    share,
    parts: parts.map((part) => contributionJson(part, unit)),
  };
}

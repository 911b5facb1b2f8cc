/** The matrix turned round: what rests on each figure and on each part. */
import type { FactContent, FactResult } from '../../engine/analysis';
import type { BoundEnd, FigureRanges, RangeAnalysis } from '../../engine/ranges/ranges';
import { limitUnits, unitOfFact } from '../../findings/fact-units';
import { endText, neededText } from '../../findings/range-text';
import type { Row } from '../../model/fact';
import { formatOutward } from '../../quantity/format';
import * as rational from '../../quantity/rational';
import type { Unit } from '../../quantity/unit';
import type { FactUse, PartUse } from './record';
import { inOrder, linePlace, restingRequirement, type Scene } from './scene';

/** In file order. */
export function factUses(scene: Scene): readonly FactUse[] {
  const { analysis, ranges } = scene.result;
  const limits = limitUnits(analysis.requirements);
  return analysis.facts.flatMap((result) => {
    const { fact } = result;
    const resting = scene.resting.get(fact.name);
    if (resting === undefined || fact.row !== null) return [];
    return {
      name: fact.name,
      place: linePlace(scene, { file: fact.file, span: fact.nameSpan }),
      given: fact.content.type === 'value' || fact.content.type === 'modes' || fact.content.type === 'tbd',
      value: factText(scene, result, limits.get(fact.name)),
      source: fact.source ?? '',
      allowed: allowedText(ranges, fact.name),
      requirements: resting.map((requirement) => restingRequirement(scene, requirement)),
    };
  });
}

/** `47.63 W to 61.57 W`, or a value for each mode: `standby 1.5 W; record 55 W`. */
function factText({ result }: Scene, { fact, values }: FactResult, limit: Unit | undefined): string {
  const text = (content: FactContent): string => {
    switch (content.type) {
      case 'quantity':
        return formatOutward(content.full, unitOfFact(fact, content, limit, result.analysis.product.units));
      case 'text':
        return content.text;
      case 'boolean':
        return content.boolean ? 'yes' : 'no';
      case 'set':
        return content.items.map(text).join(', ');
      case 'undecided':
        return fact.content.type === 'tbd' ? 'to be determined' : 'undecided';
    }
  };
  return values.map(({ mode, content }) => `${mode === null ? '' : `${mode} `}${text(content)}`).join('; ');
}

/**
 * `from 40 W (TRN-030) to 60 W (TRN-031)`: of a figure written as several, each on its own; and where it would have to go
 * for what is not met now: `TRN-031 needs ≤ 41 W`.
 */
function allowedText(ranges: RangeAnalysis | null, name: string): string {
  const own = ranges?.ofFact(name).filter(({ figure }) => figure.movement !== 'half-width') ?? [];
  const texts = own.flatMap((one) => {
    const text = allowedOf(one);
    const { name: written } = one.figure;
    return text === '' ? [] : [written === name ? text : `${written.slice(name.length + 1)}: ${text}`];
  });
  return texts.join('; ');
}

function allowedOf(ranges: FigureRanges): string {
  const needed = ranges.needed.map(({ requirement, range }) => {
    const text = neededText(ranges.figure, range);
    return text === null ? `${requirement.id} is not met by it alone` : `${requirement.id} needs ${text}`;
  });
  const kept = keptText(ranges);
  // Free in both directions only because nothing that rests on it is met.
  return (kept === FREE && needed.length > 0 ? needed : [kept, ...needed]).filter((text) => text !== '').join('; ');
}

const FREE = 'any value';

function keptText({ figure, allowed }: FigureRanges): string {
  if (allowed === null) return '';
  const { low, high } = allowed;
  if (low !== null && high !== null && rational.equals(low.value, high.value))
    return `only ${endText(figure, low, 'up')}${binding(low)}`;
  const ends = [
    low === null ? '' : `from ${endText(figure, low, 'up')}${binding(low)}`,
    high === null ? '' : `to ${endText(figure, high, 'down')}${binding(high)}`,
  ].filter((end) => end !== '');
  return ends.length === 0 ? FREE : ends.join(' ');
}

/** The requirement that binds an end; the last of its choices is bound by none. */
function binding({ by }: BoundEnd): string {
  return by === null ? '' : ` (${by})`;
}

/** In the order of their tables. */
export function partUses(scene: Scene): readonly PartUse[] {
  const { product } = scene.result.analysis;
  return [...product.tables.values()].flatMap(({ rows }) => rows.flatMap((row) => partUse(scene, row)));
}

function partUse(scene: Scene, { table, id, place, fields }: Row): readonly PartUse[] {
  const used = [...fields].filter(([, fact]) => scene.resting.has(fact.name));
  if (used.length === 0) return [];
  const resting = new Set(used.flatMap(([, fact]) => scene.resting.get(fact.name) ?? []));
  const label = fields.get('name')?.content;
  return [
    {
      name: `${table}.${id}`,
      label: label?.type === 'value' && label.value.type === 'text' ? label.value.text : '',
      place: linePlace(scene, place),
      fields: used.map(([field]) => field),
      requirements: inOrder(scene, resting).map((requirement) => restingRequirement(scene, requirement)),
    },
  ];
}

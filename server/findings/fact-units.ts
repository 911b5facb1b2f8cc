/** In which unit a fact's figures are shown: its author's, else that of the first limit on it, else the coherent one. */
import type { FactContent, RequirementResult } from '../engine/analysis';
import type { Fact } from '../model/fact';
import { coherentUnit } from '../quantity/coherent-unit';
import type { Dimension } from '../quantity/dimension';
import type { Unit } from '../quantity/unit';
import type { UnitTable } from '../quantity/unit-table';

/** The unit of the first limit on each name, by file and place: derived figures are shown in it. */
export function limitUnits(requirements: readonly RequirementResult[]): ReadonlyMap<string, Unit> {
  const units = new Map<string, Unit>();
  for (const { criteria } of requirements) {
    for (const { criterion, figures } of criteria) {
      const { condition } = criterion;
      const value =
        condition.type === 'comparison' ? condition.left : condition.type === 'ends' ? condition.value : null;
      if (value?.type !== 'name' || figures === null) continue;
      const name = value.parts.join('.');
      if (!units.has(name)) units.set(name, figures.unit);
    }
  }
  return units;
}

/** The unit that a fact's figures are shown in. `limit`: that of the first limit on it. */
export function unitOfFact(
  { content }: Fact,
  value: FactContent & { readonly type: 'quantity' },
  limit: Unit | undefined,
  units: UnitTable,
): Unit {
  const isGiven = content.type === 'value' || content.type === 'modes';
  const own = value.unit !== null && value.unit.rates.size === 0 ? value.unit : null;
  return (isGiven ? own : (limit ?? null)) ?? coherentUnit(value.dimension, units);
}

/** The unit of a computed figure; a unit whose rate has a spread says no exact number. */
export function shownUnit(limit: Unit | undefined, own: Unit | null, dimension: Dimension, units: UnitTable): Unit {
  if (limit !== undefined) return limit;
  return own !== null && own.rates.size === 0 ? own : coherentUnit(dimension, units);
}

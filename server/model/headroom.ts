/** `Headroom`: how much surplus is allowed, as a share of the limit (`100 %`) or as a quantity (`5 W`, `2` items). */
import * as dimensions from '../quantity/dimension';
import type { Rational } from '../quantity/rational';
import * as rational from '../quantity/rational';
import { UNITY } from '../quantity/unit';
import type { UnitTable } from '../quantity/unit-table';
import type { QuantityValue } from '../quantity/value';
import { readValue } from '../syntax/quantity-literal';
import { type Problem, spanOf } from '../syntax/span';
import type { Configuration } from './configuration';
import { attributesOf, type Requirement } from './requirement';

export type Headroom =
  | { readonly type: 'share'; readonly share: Rational }
  /** A distance in base units, for limits of its dimension only. */
  | { readonly type: 'distance'; readonly distance: Rational; readonly dimension: dimensions.Dimension };

export type ReadHeadroom = Headroom | { readonly type: 'bad'; readonly message: string };

/** What a headroom looks like, for messages. */
const EXAMPLE = 'write a percentage (50 %) or a quantity in the unit of the limit (5 W)';

/** A quantity in % or ppm is a share; any other, a plain number too, is a distance. */
export function readHeadroom(text: string, units: UnitTable): ReadHeadroom {
  const read = readValue(text, units);
  const value = read.type === 'quantity' ? read.value : null;
  if (value === null || value.spread !== 'exact' || value.typical === null || value.unit.rates.size > 0)
    return { type: 'bad', message: `“${text}” is no headroom; ${EXAMPLE}` };
  const distance = distanceOf(value, value.typical);
  if (distance === null) return { type: 'bad', message: `“${text}” is a point, not a distance; ${EXAMPLE}` };
  if (rational.sign(distance) < 0) return { type: 'bad', message: `“${text}” is below zero; ${EXAMPLE}` };
  const { dimension, symbol } = value.unit;
  const isShare = dimension === dimensions.DIMENSIONLESS && symbol !== UNITY.symbol;
  return isShare ? { type: 'share', share: distance } : { type: 'distance', distance, dimension };
}

/** The requirement's own headrooms as far as they can be read, then the product's: the first that fits a limit is meant. */
export function headroomsOf(
  requirement: Requirement,
  configuration: Configuration,
  units: UnitTable,
): readonly Headroom[] {
  const own = attributesOf(requirement, 'Headroom').map(({ text }) => readHeadroom(text, units));
  return [...own, productHeadroom(configuration, units)].filter((read) => read.type !== 'bad');
}

const lastRead = new WeakMap<Configuration, { readonly units: UnitTable; readonly read: ReadHeadroom }>();

/** Every requirement asks for it, so it is read once. */
function productHeadroom(configuration: Configuration, units: UnitTable): ReadHeadroom {
  const known = lastRead.get(configuration);
  if (known?.units === units) return known.read;
  const read = readHeadroom(configuration.headroom.text, units);
  lastRead.set(configuration, { units, read });
  return read;
}

/** What is wrong with the product's headroom: code `bad-configuration`, in plimsoll.yaml. */
export function headroomProblems({ headroom }: Configuration, units: UnitTable): readonly Problem[] {
  const read = readHeadroom(headroom.text, units);
  if (read.type !== 'bad') return [];
  return [{ code: 'bad-configuration', message: read.message, span: headroom.scalar?.span ?? spanOf(0, 0) }];
}

/** 5 °C of headroom are 5 K; a level or a date is none. */
function distanceOf({ unit }: QuantityValue, typical: Rational): Rational | null {
  if (unit.point === null) return typical;
  return unit.point === 'temperature' ? rational.subtract(typical, unit.offset) : null;
}

/** `units:` of the configuration → the product's unit table, and a fact for each declared value that has a spread. */
import { compare, divide, ZERO } from '../quantity/rational';
import type { OwnUnit, UnitTable } from '../quantity/unit-table';
import { createUnitTable } from '../quantity/unit-table';
import type { QuantityValue } from '../quantity/value';
import { readValue } from '../syntax/quantity-literal';
import { type Problem, spanOf } from '../syntax/span';
import { CONFIGURATION_FILE, type Configuration, type ConfigurationText } from './configuration';
import type { Fact } from './fact';

export interface ProductUnits {
  readonly table: UnitTable;
  /** `units.USD`, for each unit whose declared value has a tolerance or range. */
  readonly facts: readonly Fact[];
  /** Code `bad-configuration`, in plimsoll.yaml. */
  readonly problems: readonly Problem[];
}

/** Reads the declared units in whatever order they rest on each other. */
export function productUnits(configuration: Configuration): ProductUnits {
  const own = new Map<string, OwnUnit>();
  const facts: Fact[] = [];
  let waiting = [...configuration.units];
  let table = createUnitTable();
  for (let before = -1; waiting.length !== before; ) {
    before = waiting.length;
    waiting = waiting.filter(([name, declared]) => {
      const unit = read(name, declared, table, facts);
      if (unit !== null) own.set(name, unit);
      return unit === null;
    });
    table = createUnitTable(own);
  }
  return { table, facts, problems: waiting.map(([name, declared]) => notReadable(name, declared)) };
}

function read(name: string, declared: ConfigurationText, units: UnitTable, facts: Fact[]): OwnUnit | null {
  if (declared.text === 'kind') return { type: 'kind' };
  const value = readValue(declared.text, units);
  if (value.type !== 'quantity' || value.value.typical === null) return null;
  const { unit, typical, spread } = value.value;
  // Nothing could be told in such a unit.
  if (compare(typical, ZERO) <= 0) return null;
  const factor = divide(typical, unit.factor);
  if (spread !== 'exact') facts.push(rateFact(name, declared, value.value));
  return { type: 'scaled', factor, of: unit, spread: spread !== 'exact' };
}

function rateFact(name: string, declared: ConfigurationText, value: QuantityValue): Fact {
  const span = declared.scalar?.span ?? spanOf(0, 0);
  return {
    name: `units.${name}`,
    file: CONFIGURATION_FILE,
    nameSpan: span,
    span,
    scope: ['units'],
    row: null,
    content: { type: 'value', value },
    source: null,
    provisional: false,
    problems: [],
    choices: null,
  };
}

function notReadable(name: string, { text, scalar }: ConfigurationText): Problem {
  return {
    code: 'bad-configuration',
    message: `“${text}” is no value of the unit ${name}: write a quantity above 0 (12 mm), or kind for something that is counted`,
    span: scalar?.span ?? spanOf(0, 0),
  };
}

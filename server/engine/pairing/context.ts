/** What every step of the pairing looks things up in. */
import type { Unit } from '../../quantity/unit';
import type { UnitTable } from '../../quantity/unit-table';
import type { StatementReading } from '../../syntax/sentence/reading';
import type { Term } from '../../syntax/sentence/term';
import { keyOf, type Token } from '../../syntax/sentence/token';
import type { Amount } from './figure';

export interface Context {
  readonly reading: StatementReading;
  readonly tokens: readonly Token[];
  readonly text: string;
  readonly units: UnitTable;
  readonly termFrom: ReadonlyMap<number, Term>;
  readonly termTo: ReadonlyMap<number, Term>;
  /** The first sentence with an obligation word; -1 when there is none. */
  readonly firstObliged: number;
  /** Amounts by their first token, read once: several forms of a figure begin with the same one. */
  readonly amounts: Map<number, Amount | null>;
}

export function contextOf(reading: StatementReading, units: UnitTable): Context {
  return {
    reading,
    tokens: reading.tokens,
    text: reading.prose.text,
    units,
    termFrom: new Map(reading.terms.map((term) => [term.from, term])),
    termTo: new Map(reading.terms.map((term) => [term.to, term])),
    firstObliged: reading.sentences.findIndex(({ obligation }) => obligation !== null),
    amounts: new Map(),
  };
}

/** The word or mark at a token index, in lower case; empty for figures, code and outside the statement. */
export function keyAt(context: Context, index: number): string {
  return keyOf(context.tokens[index]);
}

/** Nothing, not even a space, stands between a token and the next one. */
export function touchesNext(context: Context, index: number): boolean {
  return context.tokens[index]?.end === context.tokens[index + 1]?.start;
}

/** A unit of one currency. */
export function isMoney(unit: Unit): boolean {
  const [base, ...more] = unit.dimension.base.keys();
  return base !== undefined && more.length === 0 && base.startsWith('money:');
}

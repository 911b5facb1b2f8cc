/** The engine for a product that changes: what rests on nothing that changed is kept from one analysis to the next. */
import type { Fact } from '../model/fact';
import type { Product, Table } from '../model/product';
import type { Requirement } from '../model/requirement';
import type { Analysis } from './analysis';
import { differences } from './differences';
import { type Kept, type LastWork, type Start, work } from './kept';

export type { LastWork } from './kept';

/** What was worked out of the product as it was last. */
export interface Memory {
  /**
   * The analysis of the product as it stands now, as if it had been made from nothing. Documents, facts, rows and
   * requirements that did not change have to be the same objects as before. The lowering of the analysis before is
   * taken over: nothing more may be asked of it.
   */
  analyse(product: Product): Analysis;
  /** What the last analysis worked out; the rest was kept. */
  readonly lastWork: LastWork;
}

export function createMemory(): Memory {
  let kept: Kept | null = null;
  let lastWork: LastWork = { facts: [], requirements: [] };
  return {
    analyse: (given) => {
      const before: Kept | null = kept;
      // A mistake half-way would leave half a memory.
      kept = null;
      const product = before === null ? given : withKnownTables(before.product, given);
      const start = before === null || isOtherGround(before.product, product) ? null : forgetChanged(before, product);
      let done = work(start, product);
      if (start !== null && done.hasCycle) done = work(null, product);
      lastWork = done.lastWork;
      // Which fact of a circle is met first decides what the others are told, so a circle is always walked anew.
      kept = done.hasCycle ? null : done.kept;
      return done.analysis;
    },
    get lastWork() {
      return lastWork;
    },
  };
}

/** What everything rests on, so that nobody keeps book of it. */
function isOtherGround(before: Product, now: Product): boolean {
  return (
    before.units !== now.units ||
    before.configuration !== now.configuration ||
    before.surroundings.today !== now.surroundings.today ||
    !hasSameEntries(before.surroundings.digests, now.surroundings.digests) ||
    !hasSameEntries(before.verifications, now.verifications) ||
    now.duplicateVerifications.size > 0 ||
    !isSameEvidence(before, now)
  );
}

function isSameEvidence({ evidenceFiles: before }: Product, { evidenceFiles: now }: Product): boolean {
  return (
    before.length === now.length &&
    now.every(
      ({ path, requirement }, index) => path === before[index]?.path && requirement === before[index]?.requirement,
    )
  );
}

function hasSameEntries<Value>(before: ReadonlyMap<string, Value>, now: ReadonlyMap<string, Value>): boolean {
  if (before === now) return true;
  if (before.size !== now.size) return false;
  for (const [key, value] of now) if (before.get(key) !== value) return false;
  return true;
}

/** A table whose rows are the same is the same table. */
function withKnownTables(before: Product, now: Product): Product {
  const tables = new Map([...now.tables].map(([name, table]) => [name, knownTable(before.tables.get(name), table)]));
  return { ...now, tables };
}

function knownTable(before: Table | undefined, now: Table): Table {
  const isSame =
    before !== undefined &&
    before.rows.length === now.rows.length &&
    now.rows.every((row, index) => row === before.rows[index]) &&
    now.duplicateRows.size === 0 &&
    before.duplicateRows.size === 0;
  return isSame ? before : now;
}

function forgetChanged(kept: Kept, product: Product): Start {
  const { lowering } = kept;
  const { changed, gone } = differences(kept.product, product);
  const { workers, variables } = kept.recorder.forget(changed, gone);
  const files = new Set<string>();
  for (const worker of workers) {
    if (typeof worker === 'string') lowering.forgetFact(worker);
    else if (kept.facts.delete(worker as Fact)) files.add((worker as Fact).file);
    else if (kept.requirements.delete(worker as Requirement)) {
      kept.limits.delete(worker as Requirement);
      files.add((worker as Requirement).file);
    }
  }
  for (const id of variables) lowering.variables.delete(id);
  return { kept, files };
}

/** The engine for a product that changes: what rests on nothing that changed is kept from one analysis to the next. */
import type { DocumentModel } from '../model/document';
import type { Fact } from '../model/fact';
import type { Product, Table } from '../model/product';
import type { Requirement } from '../model/requirement';
import { type Analysis, distinct, guardedFact, guardedRequirement } from './analysis';
import type { FactResult } from './fact-result';
import { Lowering } from './lowering/lowering';
import { collectTexts } from './lowering/texts';
import { keys, Recorder, recorded, type Worker } from './recorder';
import { type Limit, limitsOf } from './relations/limit';
import type { RequirementResult } from './requirement-result';

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

export interface LastWork {
  readonly facts: readonly string[];
  /** By id. */
  readonly requirements: readonly string[];
}

interface Kept {
  readonly product: Product;
  readonly recorder: Recorder;
  readonly lowering: Lowering;
  readonly facts: Map<Fact, FactResult>;
  readonly requirements: Map<Requirement, RequirementResult>;
  readonly limits: Map<Requirement, readonly Limit[]>;
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
      if (start !== null && hasCycle(done.analysis.facts)) done = work(null, product);
      lastWork = done.lastWork;
      // Which fact of a circle is met first decides what the others are told, so a circle is always walked anew.
      kept = hasCycle(done.analysis.facts) ? null : done.kept;
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

function hasCycle(facts: readonly FactResult[]): boolean {
  return facts.some(({ reasons }) => reasons.some(({ code }) => code === 'cycle'));
}

function forgetChanged(before: Kept, product: Product): Kept {
  const { lowering } = before;
  const { changed, gone } = differences(before.product, product);
  const { workers, variables } = before.recorder.forget(changed, gone);
  for (const worker of workers) {
    if (typeof worker === 'string') lowering.forgetFact(worker);
    else if (!before.facts.delete(worker as Fact)) {
      before.requirements.delete(worker as Requirement);
      before.limits.delete(worker as Requirement);
    }
  }
  for (const id of variables) lowering.variables.delete(id);
  return before;
}

interface Differences {
  readonly changed: ReadonlySet<string>;
  readonly gone: readonly Worker[];
}

/** Only documents that are other can have brought anything. */
function differences(before: Product, now: Product): Differences {
  const [old, young] = [new Set(before.documents), new Set(now.documents)];
  const left = before.documents.filter((document) => !young.has(document));
  const both = [...left, ...now.documents.filter((document) => !old.has(document))];
  const changed = new Set<string>();
  for (const name of new Set(both.flatMap(factNames))) noteFact(changed, name, before, now);
  for (const name of new Set(both.flatMap(({ tables }) => tables.map((table) => table.name)))) {
    if (before.tables.get(name) === now.tables.get(name)) continue;
    changed.add(keys.table(name)).add(keys.allTables).add(keys.names);
  }
  const requirements = new Set(now.requirements);
  const gone = left.flatMap((document) => document.requirements.filter((one) => !requirements.has(one)));
  return { changed, gone };
}

function noteFact(changed: Set<string>, name: string, before: Product, now: Product): void {
  const [old, young] = [before.facts.get(name), now.facts.get(name)];
  if (old !== young) {
    changed.add(keys.fact(name)).add(keys.allFacts);
    if (old === undefined || young === undefined) changed.add(keys.names);
    if ([old, young].some((fact) => fact !== undefined && collectTexts([fact]).size > 0)) changed.add(keys.allTexts);
  }
  const [was, is] = [before.duplicates.get(name) ?? [], now.duplicates.get(name) ?? []];
  if (was.length === is.length && is.every((fact, index) => fact === was[index])) return;
  changed.add(keys.duplicate(name)).add(keys.allFacts).add(keys.names);
}

function factNames({ facts, tables }: DocumentModel): readonly string[] {
  const rows = tables.flatMap((table) => table.rows);
  return [...facts, ...rows.flatMap((row) => [...row.fields.values()])].map(({ name }) => name);
}

interface Done {
  readonly kept: Kept;
  readonly analysis: Analysis;
  readonly lastWork: LastWork;
}

function work(start: Kept | null, product: Product): Done {
  const recorder = start?.recorder ?? new Recorder();
  const memory = { recorder, former: start?.lowering ?? null };
  const lowering = new Lowering(recorded(product, recorder), 'constants', memory);
  const kept: Kept = {
    product,
    recorder,
    lowering,
    facts: start?.facts ?? new Map(),
    requirements: start?.requirements ?? new Map(),
    limits: start?.limits ?? new Map(),
  };
  const lastWork = { facts: [] as string[], requirements: [] as string[] };
  const facts = [...product.facts.values()].map((fact) => {
    const known = kept.facts.get(fact);
    if (known !== undefined) return known;
    lastWork.facts.push(fact.name);
    const result = recorder.run(fact, () => guardedFact(lowering, fact));
    kept.facts.set(fact, result);
    return result;
  });
  const requirements = product.requirements.map((requirement) => {
    const known = kept.requirements.get(requirement);
    if (known !== undefined) return known;
    lastWork.requirements.push(requirement.id);
    return recorder.run(requirement, () => {
      const result = guardedRequirement(lowering, requirement);
      kept.requirements.set(requirement, result);
      kept.limits.set(requirement, limitsOf(lowering, result));
      return result;
    });
  });
  const notes = distinct(recorder.kept());
  return { kept, lastWork, analysis: { product, requirements, facts, notes, lowering, limits: new Map(kept.limits) } };
}

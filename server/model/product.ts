/** All documents of a product joined: every name once, tables whole, requirements by id. */
import type { UnitTable } from '../quantity/unit-table';
import type { Configuration } from './configuration';
import type { DocumentModel } from './document';
import type { EvidenceFile, FileDigest } from './evidence-file';
import type { Fact, Row } from './fact';
import type { ProductUnits } from './own-units';
import type { Requirement } from './requirement';
import type { Verification } from './verification';

export interface Product {
  readonly configuration: Configuration;
  /** What its first requirements document calls it. */
  readonly title: string | null;
  readonly units: UnitTable;
  readonly modes: ReadonlySet<string>;
  readonly documents: readonly DocumentModel[];
  /** Rates of own units that have a spread, from the configuration. */
  readonly rates: readonly Fact[];
  /** Alternatives that do not count now. */
  readonly setAside: readonly DocumentModel[];
  /** Facts and row fields by full name; a name that stands twice is in `duplicates` instead. */
  readonly facts: ReadonlyMap<string, Fact>;
  /** Facts as documents have them; where this is a product on trial, `facts` are others. */
  readonly writtenFacts: ReadonlyMap<string, Fact>;
  readonly duplicates: ReadonlyMap<string, readonly Fact[]>;
  readonly tables: ReadonlyMap<string, Table>;
  /** In file and text order; of several with one id the first is the one that others mean. */
  readonly requirements: readonly Requirement[];
  readonly undecidedOptions: readonly UndecidedOption[];
  /** Records by id; of several with one id the first is the one that others mean. */
  readonly verifications: ReadonlyMap<string, Verification>;
  /** Records whose id stands more than once. */
  readonly duplicateVerifications: ReadonlyMap<string, readonly Verification[]>;
  readonly evidenceFiles: readonly EvidenceFile[];
  readonly surroundings: Surroundings;
}

/** What evidence and waivers are held against, besides the product's texts. */
export interface Surroundings {
  /** ISO 8601, UTC; null where no day was given. */
  readonly today: string | null;
  /** Of documents of evidence, by their path below the product's folder. */
  readonly digests: ReadonlyMap<string, FileDigest>;
}

export const NO_SURROUNDINGS: Surroundings = { today: null, digests: new Map() };

export interface Table {
  readonly name: string;
  readonly rows: readonly Row[];
  readonly rowsById: ReadonlyMap<string, Row>;
  /** Every field that any row has: none of these names is looked up further out from a row. */
  readonly fieldNames: ReadonlySet<string>;
  /** Rows whose id stands more than once. */
  readonly duplicateRows: ReadonlyMap<string, readonly Row[]>;
}

export interface UndecidedOption {
  readonly group: string;
  readonly alternatives: readonly DocumentModel[];
  /** The choice that names no alternative, or null when nothing was chosen. */
  readonly chosen: string | null;
}

/** Joins documents, given in file order. */
export function joinDocuments(
  documents: readonly DocumentModel[],
  configuration: Configuration,
  { table: units, facts: rates }: ProductUnits,
  surroundings: Surroundings = NO_SURROUNDINGS,
): Product {
  const { counting, setAside, undecided } = countingDocuments(documents, configuration);
  const tables = joinTables(counting);
  const byName = new Map<string, Fact[]>();
  const outsideOptions = counting.filter(({ option }) => option === null);
  const chosenOptions = counting.filter(({ option }) => option !== null);
  collect(rates, byName);
  collect(factsOf(outsideOptions), byName);
  replace(factsOf(chosenOptions), byName);
  const facts = new Map<string, Fact>();
  const duplicates = new Map<string, readonly Fact[]>();
  for (const [name, all] of byName) {
    if (all.length === 1) facts.set(name, all[0] as Fact);
    else duplicates.set(name, all);
  }
  return {
    configuration,
    title: counting.find(({ title }) => title !== null)?.title ?? null,
    units,
    modes: new Set(configuration.modes.map(({ text }) => text)),
    documents: counting,
    rates,
    setAside,
    facts,
    writtenFacts: facts,
    duplicates,
    tables,
    requirements: counting.flatMap(({ requirements }) => requirements),
    undecidedOptions: undecided,
    ...joinVerifications(counting),
    evidenceFiles: counting.flatMap(({ evidenceFiles }) => evidenceFiles),
    surroundings,
  };
}

/** Exactly one alternative of a group counts; while none is chosen, none does. */
function countingDocuments(documents: readonly DocumentModel[], configuration: Configuration) {
  const groups = new Map<string, DocumentModel[]>();
  for (const document of documents) {
    if (document.option === null) continue;
    const group = groups.get(document.option.group) ?? [];
    groups.set(document.option.group, [...group, document]);
  }
  const undecided: UndecidedOption[] = [];
  for (const [group, alternatives] of groups) {
    const chosen = configuration.choose.get(group)?.option ?? null;
    if (!alternatives.some(({ option }) => option?.alternative === chosen))
      undecided.push({ group, alternatives, chosen });
  }
  const counts = ({ option }: DocumentModel) =>
    option === null || configuration.choose.get(option.group)?.option === option.alternative;
  return {
    counting: documents.filter(counts),
    setAside: documents.filter((document) => !counts(document)),
    undecided,
  };
}

function joinVerifications(
  documents: readonly DocumentModel[],
): Pick<Product, 'verifications' | 'duplicateVerifications'> {
  const byId = new Map<string, readonly Verification[]>();
  for (const one of documents.flatMap((document) => document.verifications))
    byId.set(one.id, [...(byId.get(one.id) ?? []), one]);
  return {
    verifications: new Map([...byId].map(([id, [first]]) => [id, first as Verification])),
    duplicateVerifications: new Map([...byId].filter(([, all]) => all.length > 1)),
  };
}

function factsOf(documents: readonly DocumentModel[]): readonly Fact[] {
  return documents.flatMap(factsOfDocument);
}

/** Its facts and the fields of its rows, in the order of the text. */
export function factsOfDocument({ facts, tables }: DocumentModel): readonly Fact[] {
  return [...facts, ...tables.flatMap(({ rows }) => rows.flatMap((row) => [...row.fields.values()]))];
}

function collect(facts: readonly Fact[], byName: Map<string, Fact[]>): void {
  for (const fact of facts) {
    const known = byName.get(fact.name);
    if (known === undefined) byName.set(fact.name, [fact]);
    else known.push(fact);
  }
}

/** A name given in the chosen option replaces the same name outside the group. */
function replace(facts: readonly Fact[], byName: Map<string, Fact[]>): void {
  const own = new Map<string, Fact[]>();
  collect(facts, own);
  for (const [name, all] of own) byName.set(name, all);
}

/** @param names null for all */
export function joinTables(
  documents: readonly DocumentModel[],
  names: ReadonlySet<string> | null = null,
): ReadonlyMap<string, Table> {
  const rowsByTable = new Map<string, Map<string, Row[]>>();
  for (const { tables } of documents) {
    for (const { name, rows } of tables) {
      if (names !== null && !names.has(name)) continue;
      const table = rowsByTable.get(name) ?? new Map<string, Row[]>();
      rowsByTable.set(name, table);
      for (const row of rows) {
        const known = table.get(row.id);
        if (known === undefined) table.set(row.id, [row]);
        else known.push(row);
      }
    }
  }
  return new Map([...rowsByTable].map(([name, rows]) => [name, joinTable(name, rows)]));
}

function joinTable(name: string, byId: ReadonlyMap<string, readonly Row[]>): Table {
  const fieldNames = new Set<string>();
  const rows: Row[] = [];
  const duplicateRows = new Map<string, readonly Row[]>();
  for (const [id, all] of byId) {
    const last = all[all.length - 1] as Row;
    rows.push(last);
    if (all.length > 1) duplicateRows.set(id, all);
    for (const row of all) for (const field of row.fields.keys()) fieldNames.add(field);
  }
  return { name, rows, rowsById: new Map(rows.map((row) => [row.id, row])), fieldNames, duplicateRows };
}

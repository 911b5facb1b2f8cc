/** A product of which some documents say other things under the same names, joined without a walk through all names. */
import type { DocumentModel } from './document';
import type { Fact } from './fact';
import { PatchedMap } from './patched-map';
import { factsOfDocument, joinTables, type Product, type Surroundings } from './product';
import type { Requirement } from './requirement';

/**
 * @param before joined from documents of the same configuration and units, in the same order
 * @param documents those that count and those that do not, in file order
 * @returns null where names came or went, or an option is concerned: then all is to be joined
 */
export function rejoined(
  before: Product,
  documents: readonly DocumentModel[],
  surroundings: Surroundings,
): Product | null {
  const pairs = pairsOf(before, documents);
  const changed = pairs?.filter(({ old, young }) => old !== young) ?? [];
  if (pairs === null || !changed.every((pair) => isPatch(before, pair))) return null;
  const facts = PatchedMap.of(before.facts, new Map(changed.flatMap(({ young }) => namedFacts(young))));
  const tables = new Map([...before.tables, ...joinTables(documents, tableNames(changed))]);
  return {
    ...before,
    documents,
    title: documents.find(({ title }) => title !== null)?.title ?? null,
    facts,
    writtenFacts: facts,
    tables,
    requirements: requirementsOf(before, pairs),
    evidenceFiles: documents.flatMap(({ evidenceFiles }) => evidenceFiles),
    surroundings,
  };
}

/** A copy of so many is quicker than a walk through all documents' lists. */
function requirementsOf({ requirements }: Product, pairs: readonly Pair[]): readonly Requirement[] {
  const copy = requirements.slice();
  let start = 0;
  for (const { old, young } of pairs) {
    if (old.requirements.length !== young.requirements.length) return pairs.flatMap((pair) => pair.young.requirements);
    if (old !== young) copy.splice(start, old.requirements.length, ...young.requirements);
    start += old.requirements.length;
  }
  return copy;
}

interface Pair {
  readonly old: DocumentModel;
  readonly young: DocumentModel;
}

/** Null where documents came or went, or some do not count. */
function pairsOf(before: Product, documents: readonly DocumentModel[]): readonly Pair[] | null {
  if (before.setAside.length > 0 || before.documents.length !== documents.length) return null;
  const pairs = documents.map((young, index) => ({ old: before.documents[index] as DocumentModel, young }));
  return pairs.every(({ old, young }) => old.file === young.file) ? pairs : null;
}

/** Every name, row and record stands in it as before, and each of its names is meant by it alone. */
function isPatch(before: Product, { old, young }: Pair): boolean {
  if (old.option !== null || young.option !== null) return false;
  const [was, is] = [factsOfDocument(old), factsOfDocument(young)];
  return (
    was.length === is.length &&
    was.every((fact, index) => fact.name === is[index]?.name && before.facts.get(fact.name) === fact) &&
    rowsOf(old) === rowsOf(young) &&
    old.verifications.length === young.verifications.length &&
    old.verifications.every((record, index) => record === young.verifications[index])
  );
}

function namedFacts(document: DocumentModel): readonly [string, Fact][] {
  return factsOfDocument(document).map((fact) => [fact.name, fact]);
}

function rowsOf({ tables }: DocumentModel): string {
  return JSON.stringify(tables.map(({ name, rows }) => [name, ...rows.map(({ id }) => id)]));
}

function tableNames(changed: readonly Pair[]): ReadonlySet<string> {
  return new Set(changed.flatMap(({ young }) => young.tables.map(({ name }) => name)));
}

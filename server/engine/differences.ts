/** What of a product is other than it was: names and tables by their keys, and requirements that are gone. */
import type { DocumentModel } from '../model/document';
import { factsOfDocument, type Product } from '../model/product';
import { collectTexts } from './lowering/texts';
import { keys, type Worker } from './recorder';

export interface Differences {
  readonly changed: ReadonlySet<string>;
  readonly gone: readonly Worker[];
}

/** Only documents that are other can have brought anything. */
export function differences(before: Product, now: Product): Differences {
  const [old, young] = [new Set(before.documents), new Set(now.documents)];
  const left = before.documents.filter((document) => !young.has(document));
  const come = now.documents.filter((document) => !old.has(document));
  const both = [...left, ...come];
  const changed = new Set<string>();
  for (const name of new Set(both.flatMap(factNames))) noteFact(changed, name, before, now);
  for (const name of new Set(both.flatMap(({ tables }) => tables.map((table) => table.name)))) {
    if (before.tables.get(name) === now.tables.get(name)) continue;
    changed.add(keys.table(name)).add(keys.allTables).add(keys.names);
  }
  const requirements = new Set(come.flatMap((document) => document.requirements));
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

function factNames(document: DocumentModel): readonly string[] {
  return factsOfDocument(document).map(({ name }) => name);
}

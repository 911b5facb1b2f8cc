/** An analysis by documents: what is found in one rests on its part, and on what it looks up of others. */
import { CONFIGURATION_FILE } from '../model/configuration';
import type { DocumentModel } from '../model/document';
import type { Fact } from '../model/fact';
import { factsOfDocument, type Product } from '../model/product';
import type { Requirement } from '../model/requirement';
import type { FactResult } from './fact-result';
import type { RequirementResult } from './requirement-result';

export interface AnalysisPart {
  readonly file: string;
  /** Null for the rates of own units, which stand in the configuration. */
  readonly document: DocumentModel | null;
  /** In the order of the text; those whose name means another fact, or several, are left out. */
  readonly facts: readonly FactResult[];
  /** In the order of the text. */
  readonly requirements: readonly RequirementResult[];
}

/** What a part is made of, before it is judged. */
export interface PartSource {
  readonly file: string;
  readonly document: DocumentModel | null;
  readonly facts: readonly Fact[];
  readonly requirements: readonly Requirement[];
}

/** The rates first, then every document that counts, in file order. */
export function partSources(product: Product): readonly PartSource[] {
  return [ratesOf(product), ...product.documents.map((document) => sourceOf(product, document))];
}

export function sourceOf(product: Product, document: DocumentModel): PartSource {
  const { file, requirements } = document;
  return { file, document, facts: meant(product, factsOfDocument(document), file), requirements };
}

export function ratesOf(product: Product): PartSource {
  const facts = meant(product, product.rates, CONFIGURATION_FILE);
  return { file: CONFIGURATION_FILE, document: null, facts, requirements: [] };
}

/** Of a product on trial the facts are others than the documents have. */
function meant({ facts }: Product, written: readonly Fact[], file: string): readonly Fact[] {
  return written.flatMap(({ name }) => {
    const fact = facts.get(name);
    return fact?.file === file ? [fact] : [];
  });
}

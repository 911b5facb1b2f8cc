/** The outline of a document, and symbols of a whole product by name. */
import type { Analysis } from '../engine/analysis';
import { shownTitle } from '../findings/requirement-text';
import type { DocumentModel } from '../model/document';
import type { Place } from '../model/place';
import { type Span, spanOf } from '../syntax/span';

export type SymbolKind = 'requirement' | 'fact' | 'table' | 'row' | 'record';

export interface DocumentSymbol {
  readonly name: string;
  readonly detail: string;
  readonly kind: SymbolKind;
  /** All that belongs to it. */
  readonly span: Span;
  /** Its name, inside of `span`. */
  readonly nameSpan: Span;
  readonly children: readonly DocumentSymbol[];
}

export interface WorkspaceSymbol {
  readonly name: string;
  readonly kind: SymbolKind;
  readonly place: Place;
  /** The table of a row, the document's title otherwise. */
  readonly container: string;
}

/** Symbols found by one search at the most: nobody reads more. */
const MOST_FOUND = 200;

export function documentSymbols({ product, requirements }: Analysis, file: string): readonly DocumentSymbol[] {
  const document = product.documents.find((one) => one.file === file);
  if (document === undefined) return [];
  const verdicts = new Map(requirements.map(({ requirement, verdict }) => [requirement, verdict]));
  const symbols: DocumentSymbol[] = [
    ...document.facts
      .filter((fact) => fact.row === null && fact.file === file)
      .map((fact) => leaf(fact.name, '', 'fact', covering(fact.nameSpan, fact.span), fact.nameSpan)),
    ...tables(document),
    ...document.verifications.map(({ id, title, span, idSpan }) =>
      leaf(id, title ?? '', 'record', covering(span, idSpan), idSpan),
    ),
    ...document.requirements.map((requirement) =>
      leaf(
        `${requirement.id} ${shownTitle(requirement)}`.trim(),
        verdicts.get(requirement) ?? '',
        'requirement',
        requirement.span,
        requirement.idSpan,
      ),
    ),
  ];
  return symbols.sort((a, b) => a.span.start - b.span.start);
}

/** Those whose name holds all letters of the query in its order; an empty query finds all. */
export function workspaceSymbols({ product }: Analysis, query: string): readonly WorkspaceSymbol[] {
  const found: WorkspaceSymbol[] = [];
  const letters = [...query.toLowerCase()];
  const add = (name: string, kind: SymbolKind, place: Place, container: string) => {
    if (found.length < MOST_FOUND && holds(name, letters)) found.push({ name, kind, place, container });
  };
  for (const { requirements, facts, tables: parts, verifications, title, file } of product.documents) {
    const container = title ?? file;
    for (const requirement of requirements)
      add(
        `${requirement.id} ${shownTitle(requirement)}`.trim(),
        'requirement',
        { file, span: requirement.idSpan },
        container,
      );
    for (const fact of facts) add(fact.name, 'fact', { file: fact.file, span: fact.nameSpan }, container);
    for (const { rows } of parts) for (const row of rows) add(`${row.table}.${row.id}`, 'row', row.place, row.table);
    for (const { id, title: name, idSpan } of verifications)
      add(name === null ? id : `${id} ${name}`, 'record', { file, span: idSpan }, container);
  }
  return found;
}

function holds(name: string, letters: readonly string[]): boolean {
  const lower = name.toLowerCase();
  let from = 0;
  for (const letter of letters) {
    const at = lower.indexOf(letter, from);
    if (at < 0) return false;
    from = at + letter.length;
  }
  return true;
}

function tables({ tables: parts, file }: DocumentModel): readonly DocumentSymbol[] {
  return parts.map(({ name, place, rows }) => {
    const children = rows
      .filter((row) => row.place.file === file)
      .map(({ id, place: at }) => leaf(id, '', 'row', at.span, at.span));
    const span = children.reduce((all, child) => covering(all, child.span), place.span);
    return { name, detail: `${rows.length} rows`, kind: 'table', span, nameSpan: place.span, children };
  });
}

function leaf(name: string, detail: string, kind: SymbolKind, span: Span, nameSpan: Span): DocumentSymbol {
  return { name, detail, kind, span, nameSpan, children: [] };
}

function covering(a: Span, b: Span): Span {
  return spanOf(Math.min(a.start, b.start), Math.max(a.end, b.end));
}

/** What is wrong with a document itself: front matter, limits of size, attributes; and paragraphs that no requirement holds. */
import type { Analysis } from '../engine/analysis';
import type { DocumentModel } from '../model/document';
import type { Product } from '../model/product';
import { nextFreeId } from '../model/requirement-id';
import { spanBeside } from '../syntax/anchor';
import type { Span } from '../syntax/span';
import { codeOf } from './causes';
import type { Draft } from './finding';

/** @param document any that was read, one of an alternative that does not count as well */
export function* documentProblems(document: DocumentModel): Iterable<Draft> {
  const { file } = document;
  for (const problem of document.problems) {
    const fixes = problem.fix === undefined ? [] : [problem.fix];
    yield {
      code: codeOf(problem),
      message: problem.message,
      place: { file: problem.file ?? file, span: problem.span },
      fixes,
    };
  }
  if (document.unread !== null) yield takesNoPart(file, document.unread);
}

/** What binds and stands under no requirement. */
export function* paragraphsWithoutId({ product }: Analysis): Iterable<Draft> {
  for (const documents of [product.documents, product.setAside])
    for (const document of documents)
      for (const span of document.withoutId) yield withoutId(document.file, span, idsAround(document, product));
}

/** Those of the document last: the next id goes on from them. */
function idsAround({ requirements }: DocumentModel, { requirements: all }: Product): readonly string[] {
  const own = new Set(requirements.map(({ id }) => id));
  return [...all.map(({ id }) => id).filter((id) => !own.has(id)), ...own];
}

function withoutId(file: string, span: Span, ids: readonly string[]): Draft {
  const id = nextFreeId(ids);
  return {
    code: 'no-id',
    message: `this paragraph binds, but stands under no requirement; give it a heading with an id: ## ${id}`,
    place: { file, span },
    fixes: [
      {
        title: `Put it under ${id}`,
        edits: [{ span: spanBeside(span, span.start, span.start), text: `## ${id}\n\n` }],
      },
    ],
  };
}

function takesNoPart(file: string, span: Span): Draft {
  return {
    code: 'no-id',
    severity: 'information',
    message: 'this looks like a requirement, but the file takes no part: its front matter has no “requirements:”',
    place: { file, span },
    fixes: [],
  };
}

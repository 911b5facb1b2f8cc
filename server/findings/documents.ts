/** What is wrong with a document itself: front matter, limits of size, attributes; and paragraphs that no requirement holds. */
import type { Analysis } from '../engine/analysis';
import type { DocumentModel } from '../model/document';
import { nextFreeId } from '../model/requirement-id';
import { spanOf } from '../syntax/span';
import { codeOf } from './causes';
import type { Draft } from './finding';

/** @param documents every document read, those of alternatives that do not count as well */
export function* documentProblems(analysis: Analysis, documents: readonly DocumentModel[]): Iterable<Draft> {
  const ids = analysis.product.requirements.map(({ id }) => id);
  for (const document of documents) {
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
    const own = document.requirements.map(({ id }) => id);
    for (const span of document.withoutId)
      yield withoutId(file, span, own.length > 0 ? [...ids.filter((id) => !own.includes(id)), ...own] : ids);
    if (document.unread !== null) yield takesNoPart(file, document.unread);
  }
}

function withoutId(
  file: string,
  span: { readonly start: number; readonly end: number },
  ids: readonly string[],
): Draft {
  const id = nextFreeId(ids);
  return {
    code: 'no-id',
    message: `this paragraph binds, but stands under no requirement; give it a heading with an id: ## ${id}`,
    place: { file, span },
    fixes: [{ title: `Put it under ${id}`, edits: [{ span: spanOf(span.start, span.start), text: `## ${id}\n\n` }] }],
  };
}

function takesNoPart(file: string, span: { readonly start: number; readonly end: number }): Draft {
  return {
    code: 'no-id',
    severity: 'information',
    message: 'this looks like a requirement, but the file takes no part: its front matter has no “requirements:”',
    place: { file, span },
    fixes: [],
  };
}

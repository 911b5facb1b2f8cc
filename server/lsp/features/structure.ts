/** Folding, links and semantic tokens. */
import {
  FoldingRangeKind,
  type SemanticTokens,
  SemanticTokensBuilder,
  type SemanticTokensParams,
} from 'vscode-languageserver';
import { foldsIn } from '../../features/folding';
import { linksIn } from '../../features/links';
import { TOKEN_TYPES, tokensIn } from '../../features/tokens';
import { readyRequest } from '../reading';
import { forSameText } from '../same-text';
import type { ServerState } from '../state';
import { type Subject, subjectOf } from '../subject';

export function registerStructure(state: ServerState): void {
  const { connection, uris, products } = state;
  connection.onFoldingRanges(
    readyRequest(state, 'foldingRange', ({ textDocument }) => {
      const subject = subjectOf(state, textDocument.uri);
      if (subject === null) return null;
      const positions = subject.placing.positionsOf(subject.file);
      return foldsIn(subject.whole.analysis, subject.file, subject.text).flatMap((span) => {
        const { first, last } = positions.linesOf(span);
        const endsLine = positions.positionAt(span.end).character === 0 ? last - 1 : last;
        return endsLine > first ? [{ startLine: first, endLine: endsLine, kind: FoldingRangeKind.Region }] : [];
      });
    }),
  );
  connection.onDocumentLinks(
    readyRequest(state, 'documentLink', ({ textDocument }) => {
      const subject = subjectOf(state, textDocument.uri);
      if (subject === null) return null;
      const positions = subject.placing.positionsOf(subject.file);
      return linksIn(subject.whole.analysis, subject.file).map(({ span, path }) => ({
        range: positions.rangeOf(span),
        target: uris.uriOf(products.keyOf(subject.live, path)),
      }));
    }),
  );
  connection.languages.semanticTokens.on(
    forSameText(
      state,
      readyRequest(state, 'semanticTokens', ({ textDocument }: SemanticTokensParams) => {
        const subject = subjectOf(state, textDocument.uri);
        return subject === null ? { data: [] } : tokens(subject);
      }),
    ),
  );
}

/** Tokens of the protocol lie on one line. */
function tokens({ whole, file, placing }: Subject): SemanticTokens {
  const positions = placing.positionsOf(file);
  const builder = new SemanticTokensBuilder();
  for (const { span, type, isDefinition } of tokensIn(whole, file)) {
    const { start, end } = positions.rangeOf(span);
    if (start.line !== end.line) continue;
    builder.push(
      start.line,
      start.character,
      end.character - start.character,
      TOKEN_TYPES.indexOf(type),
      isDefinition ? 1 : 0,
    );
  }
  return builder.build();
}

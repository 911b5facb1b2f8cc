/** Semantic tokens: names inside code spans and front matter, and the words of a sentence that are read as its limit. */
import type { ProductAnalysis } from '../findings/product-analysis';
import type { Span } from '../syntax/span';
import { occurrencesIn, type Target } from './occurrences';

/** The legend, by the protocol's own names, so that every theme has colours for them. */
export const TOKEN_TYPES = ['variable', 'property', 'class', 'namespace', 'enumMember', 'keyword', 'number'] as const;

export type TokenType = (typeof TOKEN_TYPES)[number];

export interface SemanticToken {
  readonly span: Span;
  readonly type: TokenType;
  readonly isDefinition: boolean;
}

const TYPES: Readonly<Record<Target['type'], TokenType>> = {
  requirement: 'class',
  record: 'class',
  fact: 'variable',
  field: 'property',
  row: 'namespace',
  table: 'namespace',
  mode: 'enumMember',
};

/** In text order, none over another. */
export function tokensIn(whole: ProductAnalysis, file: string): readonly SemanticToken[] {
  const { analysis } = whole;
  const tokens: SemanticToken[] = occurrencesIn(whole, file)
    .filter(({ isDefinition, target }) => !isDefinition || target.type !== 'requirement')
    .map(({ span, target, isDefinition }) => ({ span, type: TYPES[target.type], isDefinition }));
  for (const { requirement, criteria } of analysis.requirements) {
    if (requirement.file !== file) continue;
    for (const { criterion } of criteria) {
      const { relation, quantity } = criterion.trace ?? { relation: null, quantity: null };
      if (relation !== null) tokens.push({ span: relation, type: 'keyword', isDefinition: false });
      if (quantity !== null) tokens.push({ span: quantity, type: 'number', isDefinition: false });
    }
  }
  return apart(tokens.sort((a, b) => a.span.start - b.span.start || a.span.end - b.span.end));
}

function apart(tokens: readonly SemanticToken[]): readonly SemanticToken[] {
  let end = -1;
  return tokens.filter(({ span }) => {
    if (span.start < end || span.end <= span.start) return false;
    end = span.end;
    return true;
  });
}

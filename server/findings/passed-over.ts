/** unchecked: a heading with an id, and in its reach a limit beside a figure of the design, but no word that makes it bind. */
import type { Analysis } from '../engine/analysis';
import type { AnalysisPart } from '../engine/parts';
import { lookUp } from '../model/names';
import type { Product } from '../model/product';
import { children, type Expression } from '../syntax/expression/ast';
import { parseExpression } from '../syntax/expression/parser';
import type { CodeSpan, Prose } from '../syntax/markdown/block';
import { readStatement } from '../syntax/sentence/read-statement';
import type { Draft } from './finding';

/** It stays an ordinary heading (2-language, Requirements), but whoever takes it for a promise is told. */
export function* passedOver({ product }: Analysis, { file, document }: AnalysisPart): Iterable<Draft> {
  for (const { id, idSpan, prose } of document?.passedOver ?? []) {
    const named = prose
      .filter(hasLimit)
      .flatMap(({ codes }) => codes)
      .find((code) => namesFigure(product, code));
    if (named === undefined) continue;
    yield {
      code: 'unchecked',
      severity: 'information',
      message: `${id} begins no requirement, since nothing below it says shall, should, will or may, so that no limit of “${named.code}” is checked here; write it as a sentence with shall`,
      place: { file, span: idSpan },
    };
  }
}

/** What gives a figure a relation, whatever its unit. */
const LIMITING: readonly string[] = ['relation', 'extreme', 'speed', 'after', 'within'];

function hasLimit(prose: Prose): boolean {
  const { terms, tokens } = readStatement(prose);
  return terms.some(({ meaning }) => LIMITING.includes(meaning.kind)) && tokens.some(({ type }) => type === 'number');
}

function namesFigure(product: Product, { code, span }: CodeSpan): boolean {
  const { expression, problems } = parseExpression(code, product.units, () => span);
  return problems.length === 0 && hasFigure(product, expression);
}

function hasFigure(product: Product, node: Expression): boolean {
  if (node.type === 'aggregate') return true;
  if (node.type !== 'name') return children(node).some((child) => hasFigure(product, child));
  const meaning = lookUp(product, node.parts, []);
  return meaning !== null && meaning.type !== 'mode';
}

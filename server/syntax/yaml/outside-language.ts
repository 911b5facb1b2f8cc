/** Anchors, aliases, tags and merge keys: YAML that is no part of the language, found in the concrete syntax. */
import type { CST } from 'yaml';
import { type Problem, spanOf } from '../span';

const ADVICE = {
  anchor: 'anchors (&name) are no part of the language; write the value where it is needed',
  alias: 'aliases (*name) are no part of the language; write the value itself',
  tag: 'tags (!name) are no part of the language; remove it',
  merge: 'merge keys (<<) are no part of the language; write the keys out',
} as const;

/** A problem `bad-front-matter` for each anchor, alias, tag and merge key. Recursion is as deep as the collections. */
export function problemsOutsideLanguage(tokens: readonly CST.Token[]): Problem[] {
  const problems: Problem[] = [];
  for (const token of tokens) collect(token, problems);
  return problems;
}

function collect(token: CST.Token | null | undefined, problems: Problem[]): void {
  if (!token) return;
  report(token, problems);
  if (token.type === 'document') {
    for (const property of token.start) report(property, problems);
    collect(token.value, problems);
  } else if (token.type === 'block-scalar') {
    for (const property of token.props) report(property, problems);
  } else if ('items' in token) {
    for (const item of token.items) collectItem(item, problems);
  }
}

function collectItem(item: CST.CollectionItem, problems: Problem[]): void {
  for (const property of item.start) report(property, problems);
  if (isMergeKey(item.key)) add(item.key, 'merge', problems);
  collect(item.key, problems);
  for (const property of item.sep ?? []) report(property, problems);
  collect(item.value, problems);
}

/** `<<` in quotes is an ordinary key. */
export function isMergeKey(token: CST.Token | null | undefined): token is CST.FlowScalar {
  return token?.type === 'scalar' && token.source === '<<';
}

function report(token: CST.Token, problems: Problem[]): void {
  if (token.type === 'anchor' || token.type === 'alias' || token.type === 'tag') add(token, token.type, problems);
}

function add(token: CST.SourceToken | CST.FlowScalar, kind: keyof typeof ADVICE, problems: Problem[]): void {
  const span = spanOf(token.offset, token.offset + token.source.length);
  problems.push({ code: 'bad-front-matter', message: ADVICE[kind], span });
}

/** YAML text to a tree with places; what the language leaves out of YAML is a problem, the rest still comes back. */
import {
  Composer,
  type CST,
  type Document,
  Lexer,
  LineCounter,
  type ParsedNode,
  Parser,
  type YAMLParseError,
} from 'yaml';
import { type Problem, type Span, spanOf } from './span';
import { problemsOutsideLanguage } from './yaml/outside-language';
import { plainYaml } from './yaml/plain';
import { syntaxMessage } from './yaml/syntax-message';
import { buildYamlTree } from './yaml/tree';
import type { YamlNode } from './yaml-node';

/** What was read, and what is wrong with it. Without a root nothing could be read, or nothing is there. */
export interface ParsedYaml {
  readonly root: YamlNode | null;
  /** In text order. Codes: `bad-front-matter`, `split-value`, `too-large`. */
  readonly problems: readonly Problem[];
}

/** UTF-16 code units of YAML that are read. */
export const MAXIMUM_YAML_LENGTH = 1_000_000;
/** Mappings and lists inside one another. */
export const MAXIMUM_YAML_DEPTH = 64;
/** Further syntax errors of one text are nearly always consequences of the first ones. */
const MAXIMUM_SYNTAX_PROBLEMS = 20;

/**
 * Reads the YAML (version 1.2) inside `span` of a document's text; every span of the result is a place in that text.
 * Scalars keep their source text. Never throws; time is linear in the length of the span.
 */
export function parseYaml(text: string, span: Span): ParsedYaml {
  if (span.end - span.start > MAXIMUM_YAML_LENGTH) return { root: null, problems: [tooLong(span)] };
  const plain = plainYaml(text, span);
  return plain === null ? parseAnyYaml(text, span) : { root: plain, problems: [] };
}

/** By the library, whatever is written. */
export function parseAnyYaml(text: string, span: Span): ParsedYaml {
  const source = blankBefore(text, span);
  const lines = new LineCounter();
  const tokens = readTokens(source, lines);
  if (typeof tokens === 'number') return { root: null, problems: [tooDeep(tokens)] };
  const documents = compose(tokens);
  const tree = buildYamlTree(documents[0]?.contents ?? null, source, (offset) => lines.linePos(offset).line);
  const problems = [
    ...syntaxProblems(documents, span, lines),
    ...problemsOutsideLanguage(tokens),
    ...severalDocuments(documents),
    ...tree.problems,
  ];
  return { root: tree.root, problems: problems.sort((a, b) => a.span.start - b.span.start) };
}

/** The text up to the span's end with all before it made blank, so that YAML offsets and lines are the document's. */
function blankBefore(text: string, span: Span): string {
  return text.slice(0, span.start).replace(/[^\n]/g, ' ') + text.slice(span.start, span.end);
}

/** The concrete syntax, or the offset where it gets too deep: composing recurses, so depth is bounded before it. */
function readTokens(source: string, lines: LineCounter): CST.Token[] | number {
  const tokens: CST.Token[] = [];
  lines.addNewLine(0);
  const parser = new Parser(lines.addNewLine);
  for (const lexeme of new Lexer().lex(source)) {
    for (const token of parser.next(lexeme)) tokens.push(token);
    if (isTooDeep(parser.stack)) return parser.offset;
  }
  for (const token of parser.end()) tokens.push(token);
  return tokens;
}

/** The open document, and often a scalar, stand on the parser's stack beside the open collections. */
function isTooDeep(stack: readonly CST.Token[]): boolean {
  return stack.length > MAXIMUM_YAML_DEPTH && stack.filter((token) => 'items' in token).length > MAXIMUM_YAML_DEPTH;
}

type YamlDocument = Document.Parsed<ParsedNode, true>;

/** With the failsafe schema every scalar is text; duplicate keys and aliases are looked for by this module's parts. */
function compose(tokens: readonly CST.Token[]): YamlDocument[] {
  const composer = new Composer<ParsedNode, true>({
    schema: 'failsafe',
    uniqueKeys: false,
    logLevel: 'silent',
  });
  return [...composer.compose(tokens)];
}

/** One a line: what follows on the same line is a consequence of the first. */
function syntaxProblems(documents: readonly YamlDocument[], span: Span, lines: LineCounter): Problem[] {
  const problems: Problem[] = [];
  let lastLine = -1;
  for (const error of documents.flatMap((document) => document.errors)) {
    const line = lines.linePos(error.pos[0]).line;
    const message = syntaxMessage(error.code, error.message);
    if (message === null || line === lastLine) continue;
    lastLine = line;
    problems.push({ code: 'bad-front-matter', message, span: insideOf(span, error) });
    if (problems.length === MAXIMUM_SYNTAX_PROBLEMS) break;
  }
  return problems;
}

function insideOf(span: Span, error: YAMLParseError): Span {
  const start = Math.min(Math.max(error.pos[0], span.start), span.end);
  return spanOf(start, Math.max(start, Math.min(error.pos[1], span.end)));
}

function severalDocuments(documents: readonly YamlDocument[]): Problem[] {
  const second = documents[1];
  if (!second) return [];
  const start = second.range[0];
  const message = 'only the first YAML document is read; remove the marker --- that starts another';
  return [{ code: 'bad-front-matter', message, span: spanOf(start, start) }];
}

function tooLong(span: Span): Problem {
  const size = ((span.end - span.start) / 1_000_000).toFixed(1);
  const message = `${size} MB of YAML; at most 1 MB is read. Move facts to another file.`;
  return { code: 'too-large', message, span: spanOf(span.start, span.start) };
}

function tooDeep(offset: number): Problem {
  const message = `mappings and lists are nested more than ${MAXIMUM_YAML_DEPTH} deep here; nothing of it is read`;
  return { code: 'bad-front-matter', message, span: spanOf(offset, offset) };
}

/** The rules of tidiness that a machine can hold, each with why it exists. */
import { FINDING_CODES } from '../../grammar/findings';
import { blanked, lineAt, type SourceFile } from './source';

export const MAXIMUM_FILE_LINES = 500;
export const MAXIMUM_FUNCTION_LINES = 60;

/** Codes of issues of other libraries that our sources make. */
const FOREIGN_CODES = ['custom'];

/** A module says in its first sentence what it is. */
export function headerMistakes({ path, text }: SourceFile): readonly string[] {
  const header = /^\/\*\*[\s\S]*?\*\//.exec(text)?.[0] ?? '';
  const sentence = header.replace(/^\/\*\*|\*\/$|^\s*\*/gm, ' ').trim();
  if (/^\S+\s[\s\S]*[.:]/.test(sentence)) return [];
  return [`${path}: begins with no sentence in /** … */; a reader should know what a module is before reading it`];
}

export function lengthMistakes({ path, text }: SourceFile): readonly string[] {
  const lines = text.split('\n').length - 1;
  if (lines <= MAXIMUM_FILE_LINES) return [];
  return [
    `${path}: ${lines} lines, more than ${MAXIMUM_FILE_LINES}; a file that long holds more than one idea: split it`,
  ];
}

export function functionMistakes({ path, text }: SourceFile): readonly string[] {
  return functionsOf(text)
    .filter(({ lines }) => lines > MAXIMUM_FUNCTION_LINES)
    .map(({ name, line, lines }) => {
      return `${path}:${line}: ${name} has ${lines} lines, more than ${MAXIMUM_FUNCTION_LINES}; name its steps as functions`;
    });
}

/** Words that leave something for later, or tell of the machine that the text was written on. */
export function wordMistakes({ path, text }: SourceFile): readonly string[] {
  return WORDS.flatMap(([word, reason]) =>
    [...text.matchAll(word)].map(({ 0: found, index }) => `${path}:${lineAt(text, index)}: “${found}”: ${reason}`),
  );
}

/** Tests that do not run. */
export function skippedTests({ path, text }: SourceFile): readonly string[] {
  return [...blanked(text, 'strings').matchAll(SKIPPED)].map(({ 0: found, index }) => {
    return `${path}:${lineAt(text, index)}: ${found.trim()}: a test that does not run is believed to pass; run it or delete it`;
  });
}

/** Codes of findings that the grammar does not know, which would have no severity and no documentation. */
export function unknownCodes({ path, text }: SourceFile): readonly string[] {
  return [...blanked(text, 'comments').matchAll(/\bcode: '([a-z-]+)'/g)]
    .filter(([, code = '']) => ![...FINDING_CODES, ...FOREIGN_CODES].includes(code))
    .map(({ 1: code, index }) => `${path}:${lineAt(text, index)}: no finding “${code}” in grammar/findings.ts`);
}

export interface FunctionExtent {
  readonly name: string;
  /** Of its first line, from 1. */
  readonly line: number;
  readonly lines: number;
}

/** Functions, methods and arrow functions with a body in braces, found by their braces. */
export function functionsOf(text: string): readonly FunctionExtent[] {
  const source = blanked(text, 'strings');
  return [...source.matchAll(FUNCTION_START)].flatMap((match) => {
    const open = match[0].endsWith('=> {')
      ? match.index + match[0].length - 1
      : bodyAfter(source, match.index + match[0].length - 1);
    const close = open === null ? null : matching(source, open);
    if (close === null) return [];
    const line = lineAt(source, match.index + match[0].search(/\S/));
    return [{ name: match[1] ?? match[2] ?? 'a function', line, lines: lineAt(source, close) - line + 1 }];
  });
}

const WORDS: readonly (readonly [word: RegExp, reason: string])[] = [
  [/\b(?:TO[D]O|FIX[M]E|XX[X]|HAC[K])\b/g, 'what is left to do belongs in the issue tracker, where it is seen'],
  [/(?<![\w.~-])(?:\/(?:work|home|Users|root)\/\w|\b[A-Z]:\\Users)/g, 'a path of one machine means nothing on another'],
];

const SKIPPED = /\b(?:test|it|describe|suite)(?:\.\w+)*\.(?:skip|only|todo|fails)\b|\b[fx](?:it|test|describe)\s*\(/g;

const FUNCTION_START =
  /\bfunction\b\*?\s*(\w*)\s*(?:<[^(]*>)?\(|=> \{|^ +(?:(?:public|private|protected|static|override|async|get|set) )*\*?(?!if\b|for\b|while\b|switch\b|catch\b|return\b|function\b)([\w#]+)(?:<[^(]*>)?\((?=[^\n]*\{$|$)/gm;

/**
 * The brace that opens a body, after the parameters that begin at `open`: the last of the braces that follow them, since
 * those before it belong to the type of the result.
 */
function bodyAfter(source: string, open: number): number | null {
  const close = matching(source, open);
  if (close === null) return null;
  let brace: number | null = null;
  let rest = /^\s*(?::[^{;=]*)?\{/;
  for (let end: number | null = close; end !== null; end = matching(source, brace)) {
    const head = rest.exec(source.slice(end + 1, end + 1 + LONGEST_TYPE));
    if (head === null) break;
    brace = end + head[0].length;
    rest = /^[>[\])]*(?:\s*[|&][^{;=]*)?\s\{/;
    if (!head[0].includes(':') && end === close) break;
  }
  return brace;
}

/** Characters looked through for the next brace of a type. */
const LONGEST_TYPE = 300;

function matching(source: string, open: number): number | null {
  let depth = 0;
  for (let at = open; at < source.length; at++) {
    if ('([{'.includes(source[at] as string)) depth++;
    if (')]}'.includes(source[at] as string)) depth--;
    if (depth === 0) return at;
  }
  return null;
}

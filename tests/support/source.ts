/** The repository's own source as text, for the tests that hold its rules. */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

export interface SourceFile {
  /** Relative to the repository, with `/`. */
  readonly path: string;
  readonly text: string;
}

const ROOT = join(import.meta.dirname, '..', '..');
const SKIPPED = new Set(['node_modules', 'dist', 'coverage', '.git']);

/** The files below a folder of the repository (`.` for all of it) whose path fits. */
export function sourceFiles(folder: string, fits: RegExp): readonly SourceFile[] {
  // A folder of the layout that holds nothing yet is not in a checkout.
  if (!existsSync(join(ROOT, folder))) return [];
  const paths = readdirSync(join(ROOT, folder), { withFileTypes: true }).flatMap((entry) => {
    const path = folder === '.' ? entry.name : `${folder}/${entry.name}`;
    if (entry.isDirectory()) return SKIPPED.has(entry.name) ? [] : sourceFiles(path, fits);
    return entry.isFile() && fits.test(path) ? [{ path, text: readFileSync(join(ROOT, path), 'utf8') }] : [];
  });
  return paths.sort((a, b) => (a.path < b.path ? -1 : 1));
}

/**
 * The text with spaces for comments, and with `strings` for what stands in quotes and regular expressions too. Offsets
 * and lines stay. Code in a template is kept.
 */
export function blanked(text: string, what: 'comments' | 'strings'): string {
  let result = '';
  let at = 0;
  for (const match of text.matchAll(TOKENS)) {
    const [token] = match;
    // A slash after a value divides; only elsewhere can it begin a regular expression.
    const isRegExp = token.startsWith('/') && token[1] !== '/' && token[1] !== '*';
    if (isRegExp && !BEFORE_REGEXP.test(text.slice(Math.max(0, match.index - 20), match.index))) continue;
    const isComment = token.startsWith('//') || token.startsWith('/*');
    result += text.slice(at, match.index) + (isComment ? spaces(token) : what === 'strings' ? emptied(token) : token);
    at = match.index + token.length;
  }
  return result + text.slice(at);
}

/** The line, from 1, of an offset. */
export function lineAt(text: string, offset: number): number {
  return text.slice(0, offset).split('\n').length;
}

const TOKENS =
  /\/\/[^\n]*|\/\*[\s\S]*?\*\/|'(?:\\.|[^'\\\n])*'|"(?:\\.|[^"\\\n])*"|`(?:\\[\s\S]|[^`\\])*`|\/(?![*/])(?:\\.|\[(?:\\.|[^\]\\\n])*\]|[^/\\[\n])+\/[a-z]*/g;

const BEFORE_REGEXP = /(?:^|[(=:,[!&|?{};>\n]|\breturn)\s*$/;

/** Its quotes around spaces. */
function emptied(token: string): string {
  const inner = token.slice(1, -1).split(/(\$\{[^{}]*\})/);
  return token[0] + inner.map((part, index) => (index % 2 === 1 ? part : spaces(part))).join('') + token.slice(-1);
}

function spaces(token: string): string {
  return token.replace(/[^\n]/g, ' ');
}

/** `.gitignore` rules of nested folders, joined into one list that decides as git does: the last rule that fits wins. */
import ignore from 'ignore';
import { pathBelow } from './host';

export interface IgnoreRules {
  /** The folder that the rules are relative to, absolute, with `/`. */
  readonly base: string;
  ignores(path: string, isFolder: boolean): boolean;
  /** These rules and those of the `.gitignore` of a folder at or below the base. */
  withFile(folder: string, text: string): IgnoreRules;
}

/** Rules that ignore nothing, for a folder that is the top of what is listed. `ignoresCase`: names match in any case. */
export function noIgnoreRules(base: string, ignoresCase: boolean): IgnoreRules {
  return rulesOf(base, [], ignoresCase);
}

function rulesOf(base: string, patterns: readonly string[], ignoresCase: boolean): IgnoreRules {
  const matcher = ignore({ ignorecase: ignoresCase }).add(patterns);
  return {
    base,
    ignores: (path, isFolder) => patterns.length > 0 && matcher.ignores(pathBelow(base, path) + (isFolder ? '/' : '')),
    withFile: (folder, text) => {
      const own = text.split(/\r?\n/).flatMap((line) => rebased(line, pathBelow(base, folder)));
      return rulesOf(base, [...patterns, ...own], ignoresCase);
    },
  };
}

/**
 * A line of the `.gitignore` in `folder` as it would stand in the base's. A pattern with a slash before its end is
 * relative to its own folder, another fits at any depth below it (gitignore(5), Pattern format).
 */
function rebased(line: string, folder: string): readonly string[] {
  if (line.trim() === '' || line.startsWith('#')) return [];
  if (folder === '') return [line];
  const negation = line.startsWith('!') ? '!' : '';
  const pattern = line.slice(negation.length);
  const isAnchored = /\/(?!\s*$)/.test(pattern);
  const prefix = `/${folder.replace(/[\\*?[\]!# ]/g, '\\$&')}/`;
  return [`${negation}${prefix}${isAnchored ? pattern.replace(/^\//, '') : `**/${pattern}`}`];
}

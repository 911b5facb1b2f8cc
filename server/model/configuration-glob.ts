/**
 * The path patterns of `include` and `exclude`: `*` and `?` within a name, `**` across folders, `{a,b}` for either.
 * Matching simulates all readings at once, so it takes time in proportion to pattern × path whatever the pattern is.
 */

/** A pattern with more alternatives than this (written out, braces multiply) is refused. */
const MAXIMUM_ALTERNATIVES = 256;

/** A pattern longer than this is refused. */
const MAXIMUM_LENGTH = 1000;

/** Whether a path below the product's folder, written with `/`, is meant. */
export type PathFilter = (path: string) => boolean;

/** What is wrong with a pattern, to stand after it in a sentence; null when it can be used. */
export function globMistake(pattern: string): string | null {
  if (pattern.length > MAXIMUM_LENGTH) return `is longer than ${MAXIMUM_LENGTH} characters`;
  const cleaned = withoutDecoration(pattern);
  if (pattern.includes('\\')) return 'has a backslash: folders are separated by “/”';
  if (/^\/|^[A-Za-z]:/.test(pattern)) return 'begins at the root: patterns are relative to the folder of plimsoll.yaml';
  if (cleaned.split('/').includes('..')) return 'leaves the folder of plimsoll.yaml';
  if (/[[\]]/.test(pattern)) return 'has square brackets, which mean nothing here: use {a,b}';
  if (pattern.startsWith('!')) return 'begins with “!”: list it under the other key instead';
  if (cleaned === '') return 'names nothing';
  const alternatives = expandBraces(cleaned);
  return typeof alternatives === 'string' ? alternatives : null;
}

/**
 * A filter for paths that any of the patterns names, itself or a folder above it: `drafts` and `drafts/**` both mean
 * all that is in `drafts`. Patterns with a mistake ({@link globMistake}) match nothing. Case counts.
 */
export function globFilter(patterns: readonly string[]): PathFilter {
  const compiled = patterns.filter((pattern) => globMistake(pattern) === null).flatMap(compile);
  return (path) => compiled.some((tokens) => matches(tokens, path));
}

/** One step of a pattern: a character, `?`, `*`, `**`, or `**` with the `/` after it. */
type Token =
  | { readonly type: 'character'; readonly character: string }
  | { readonly type: 'any' | 'name' | 'path' | 'folders' };

function compile(pattern: string): readonly (readonly Token[])[] {
  const alternatives = expandBraces(withoutDecoration(pattern));
  return typeof alternatives === 'string' ? [] : alternatives.map(tokenize);
}

/** `./a/` is `a`. */
function withoutDecoration(pattern: string): string {
  return pattern.replace(/^(?:\.\/+)+/, '').replace(/\/+$/, '');
}

function tokenize(pattern: string): readonly Token[] {
  const tokens: Token[] = [];
  for (const [part] of pattern.matchAll(/(?<![^/])\*\*\/|\*+|[^*]/gu)) {
    if (part === '**/') tokens.push({ type: 'folders' });
    else if (part.startsWith('**')) tokens.push({ type: 'path' });
    else if (part === '*') tokens.push({ type: 'name' });
    else if (part === '?') tokens.push({ type: 'any' });
    else tokens.push({ type: 'character', character: part });
  }
  return tokens;
}

/** Runs through the path with the set of places in the pattern that its beginning can have reached. */
function matches(tokens: readonly Token[], path: string): boolean {
  let places = new Set(entered(tokens, 0));
  for (const character of path) {
    // The pattern has named a folder that the path lies in.
    if (character === '/' && places.has(tokens.length)) return true;
    const next = new Set<number>();
    for (const place of places) for (const reached of step(tokens, place, character)) next.add(reached);
    places = next;
    if (places.size === 0) return false;
  }
  return places.has(tokens.length);
}

/** Where a character leads from a place in the pattern. */
function step(tokens: readonly Token[], place: number, character: string): readonly number[] {
  const token = tokens[place];
  if (token === undefined) return [];
  if (token.type === 'character') return token.character === character ? entered(tokens, place + 1) : [];
  if (token.type === 'any') return character === '/' ? [] : entered(tokens, place + 1);
  if (token.type === 'name') return character === '/' ? [] : [place, ...entered(tokens, place + 1)];
  if (token.type === 'folders' && character !== '/') return [place];
  return [place, ...entered(tokens, place + 1)];
}

/** The place and those after it that are reached without a character, since what lies between can stand for nothing. */
function entered(tokens: readonly Token[], place: number): readonly number[] {
  const places = [place];
  for (let last = place; canBeEmpty(tokens[last]); last++) places.push(last + 1);
  return places;
}

function canBeEmpty(token: Token | undefined): boolean {
  return token !== undefined && token.type !== 'character' && token.type !== 'any';
}

/** Every way of choosing one text from each `{…}`, or what is wrong with the braces. */
function expandBraces(pattern: string): readonly string[] | string {
  const open = pattern.indexOf('{');
  if (open < 0) return pattern.includes('}') ? 'has a “}” without “{”' : [pattern];
  const parts = braceParts(pattern, open);
  if (parts === null) return 'has a “{” without “}”';
  const rest = expandBraces(pattern.slice(parts.end));
  if (typeof rest === 'string') return rest;
  const chosen: string[] = [];
  for (const alternative of parts.alternatives) {
    const inner = expandBraces(alternative);
    if (typeof inner === 'string') return inner;
    if ((chosen.length + inner.length) * rest.length > MAXIMUM_ALTERNATIVES) return 'has too many alternatives';
    for (const text of inner) chosen.push(text);
  }
  const before = pattern.slice(0, open);
  return chosen.flatMap((text) => rest.map((after) => before + text + after));
}

/** The texts between the commas of the brace at `open`, and the offset after its `}`; null when it does not end. */
function braceParts(pattern: string, open: number): { alternatives: string[]; end: number } | null {
  const alternatives: string[] = [];
  let depth = 0;
  let start = open + 1;
  for (let offset = open; offset < pattern.length; offset++) {
    const character = pattern[offset];
    if (character === '{') depth++;
    if (character === '}') depth--;
    if (depth === 0 || (depth === 1 && character === ',')) {
      alternatives.push(pattern.slice(start, offset));
      start = offset + 1;
    }
    if (depth === 0) return { alternatives, end: offset + 1 };
  }
  return null;
}

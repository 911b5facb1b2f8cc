/** A tree of phrases, word by word, that finds the longest one at a place in time bounded by the longest phrase. */

export interface Trie<T> {
  readonly branches: Map<string, Trie<T>>;
  meaning: T | null;
}

/** Where the longest phrase ends, and what it means. */
export interface Match<T> {
  readonly meaning: T;
  readonly length: number;
}

export interface Row<T> {
  readonly meaning: T;
  /** Words apart by one space. */
  readonly phrases: readonly string[];
}

export function buildTrie<T>(rows: readonly Row<T>[]): Trie<T> {
  const root: Trie<T> = { branches: new Map(), meaning: null };
  for (const { meaning, phrases } of rows) for (const phrase of phrases) add(root, phrase.split(' '), meaning);
  return root;
}

/** The longest phrase that begins at `from`; `keysAt` gives the spellings under which a word may stand, best first. */
export function longestMatch<T>(
  trie: Trie<T>,
  from: number,
  keysAt: (index: number) => readonly string[],
): Match<T> | null {
  let best: Match<T> | null = trie.meaning === null ? null : { meaning: trie.meaning, length: 0 };
  for (const key of keysAt(from)) {
    const branch = trie.branches.get(key);
    const found = branch ? longestMatch(branch, from + 1, keysAt) : null;
    if (found && found.length + 1 > (best?.length ?? 0)) best = { meaning: found.meaning, length: found.length + 1 };
  }
  return best;
}

function add<T>(trie: Trie<T>, words: readonly string[], meaning: T): void {
  const [first, ...rest] = words;
  if (first === undefined) {
    trie.meaning = meaning;
    return;
  }
  const branch = trie.branches.get(first) ?? { branches: new Map(), meaning: null };
  trie.branches.set(first, branch);
  add(branch, rest, meaning);
}

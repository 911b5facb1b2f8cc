/** Which known units an unknown word may have meant. */

/** Known spellings arranged for comparison, so that few are looked at for one word. */
export interface Spellings {
  readonly byLength: ReadonlyMap<number, readonly string[]>;
  readonly byLowerCase: ReadonlyMap<string, readonly string[]>;
}

/** Two letters are one edit away from far too many symbols to say that one was meant. */
const SHORTEST_FOR_EDITS = 3;
const MOST_PROPOSED = 3;

/** Words alike but for case first, then words one insertion, deletion, replacement or swap away. */
export function nearestWords(word: string, own: readonly string[], language: Spellings): readonly string[] {
  if (word === '') return [];
  const lower = word.toLowerCase();
  const ownAlike = own.filter((candidate) => candidate.toLowerCase() === lower);
  const alike = [...ownAlike, ...(language.byLowerCase.get(lower) ?? [])].filter((candidate) => candidate !== word);
  const near = [word.length, word.length - 1, word.length + 1].flatMap((length) => language.byLength.get(length) ?? []);
  const close = [...own, ...near].filter((candidate) => isClose(word, candidate));
  return [...new Set([...alike, ...close])].slice(0, MOST_PROPOSED);
}

export function arranged(spellings: readonly string[]): Spellings {
  return {
    byLength: groupedBy(spellings, (spelling) => spelling.length),
    byLowerCase: groupedBy(spellings, (spelling) => spelling.toLowerCase()),
  };
}

function groupedBy<Key>(
  spellings: readonly string[],
  keyOf: (spelling: string) => Key,
): ReadonlyMap<Key, readonly string[]> {
  const groups = new Map<Key, string[]>();
  for (const spelling of spellings) {
    const key = keyOf(spelling);
    const group = groups.get(key);
    if (group) group.push(spelling);
    else groups.set(key, [spelling]);
  }
  return groups;
}

function isClose(word: string, candidate: string): boolean {
  // Any three capitals are one edit away from the code of some currency.
  return word.length >= SHORTEST_FOR_EDITS && isOneEdit(word, candidate) && !/^[A-Z]{3}$/.test(candidate);
}

/** Whether one insertion, deletion, replacement or swap of neighbours makes one word the other. */
function isOneEdit(a: string, b: string): boolean {
  const [short, long] = a.length <= b.length ? [a, b] : [b, a];
  if (long.length - short.length > 1) return false;
  let start = 0;
  while (start < short.length && short[start] === long[start]) start += 1;
  if (short.length < long.length) return short.slice(start) === long.slice(start + 1);
  if (start === short.length) return false;
  if (short.slice(start + 1) === long.slice(start + 1)) return true;
  const swapped = short[start] === long[start + 1] && short[start + 1] === long[start];
  return swapped && short.slice(start + 2) === long.slice(start + 2);
}

/** Which known units an unknown word may have meant. */

/** Known spellings by their length, so that only those of about the same length are compared. */
export type SpellingsByLength = ReadonlyMap<number, readonly string[]>;

/** Two letters are one edit away from far too many symbols to say that one was meant. */
const SHORTEST_FOR_EDITS = 3;
const MOST_PROPOSED = 3;

/** Words alike but for case first, then words one insertion, deletion, replacement or swap away. */
export function nearestWords(word: string, own: readonly string[], language: SpellingsByLength): readonly string[] {
  if (word === '') return [];
  const near = [word.length, word.length - 1, word.length + 1].flatMap((length) => language.get(length) ?? []);
  const candidates = [...own, ...near];
  const lower = word.toLowerCase();
  const alike = candidates.filter((candidate) => candidate !== word && candidate.toLowerCase() === lower);
  const close = candidates.filter((candidate) => isClose(word, candidate));
  return [...new Set([...alike, ...close])].slice(0, MOST_PROPOSED);
}

export function byLength(spellings: readonly string[]): SpellingsByLength {
  const result = new Map<number, string[]>();
  for (const spelling of spellings) {
    const bucket = result.get(spelling.length);
    if (bucket) bucket.push(spelling);
    else result.set(spelling.length, [spelling]);
  }
  return result;
}

function isClose(word: string, candidate: string): boolean {
  // Any three capitals are one edit away from the code of some currency.
  return word.length >= SHORTEST_FOR_EDITS && !/^[A-Z]{3}$/.test(candidate) && isOneEdit(word, candidate);
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

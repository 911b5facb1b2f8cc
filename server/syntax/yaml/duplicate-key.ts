/** Keys given twice in one mapping: the first one counts, each further one is a problem. */
import type { Problem } from '../span';
import type { YamlEntry } from '../yaml-node';

/** The entries with distinct keys, and a problem for each entry left out. `lineAt` gives a line from 1. */
export function withoutDuplicates(
  entries: readonly YamlEntry[],
  lineAt: (offset: number) => number,
): { readonly entries: readonly YamlEntry[]; readonly problems: readonly Problem[] } {
  const first = new Map<string, YamlEntry>();
  const problems: Problem[] = [];
  for (const entry of entries) {
    const earlier = first.get(entry.key);
    if (earlier) problems.push(givenTwice(entry, lineAt(earlier.keySpan.start)));
    else first.set(entry.key, entry);
  }
  return { entries: [...first.values()], problems };
}

function givenTwice(entry: YamlEntry, firstLine: number): Problem {
  const message = `the key "${entry.key}" is given twice in this mapping, first on line ${firstLine}; keep one`;
  return { code: 'bad-front-matter', message, span: entry.keySpan };
}

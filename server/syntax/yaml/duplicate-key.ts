/** Keys given twice in one mapping: each further one is a problem, and one with another value leaves all of them in doubt. */
import type { Problem } from '../span';
import type { YamlEntry, YamlNode } from '../yaml-node';

/** The entries with distinct keys, and a problem for each entry left out. `lineAt` gives a line from 1. */
export function withoutDuplicates(
  entries: readonly YamlEntry[],
  lineAt: (offset: number) => number,
): { readonly entries: readonly YamlEntry[]; readonly problems: readonly Problem[] } {
  const kept = new Map<string, YamlEntry>();
  const problems: Problem[] = [];
  for (const entry of entries) {
    const first = kept.get(entry.key);
    if (first === undefined) {
      kept.set(entry.key, entry);
      continue;
    }
    const problem = givenTwice(entry, lineAt(first.keySpan.start));
    problems.push(problem);
    if (first.doubt === undefined && !saysTheSame(first.value, entry.value))
      kept.set(entry.key, { ...first, doubt: problem });
  }
  return { entries: [...kept.values()], problems };
}

function givenTwice(entry: YamlEntry, firstLine: number): Problem {
  const message = `the key "${entry.key}" is given twice in this mapping, first on line ${firstLine}; keep one`;
  return { code: 'bad-front-matter', message, span: entry.keySpan };
}

/** Recursion is as deep as the collections, which whoever parses bounds. */
function saysTheSame(a: YamlNode, b: YamlNode): boolean {
  if (a.type === 'scalar') return b.type === 'scalar' && a.text === b.text && a.style === b.style;
  if (a.type === 'list')
    return (
      b.type === 'list' &&
      a.items.length === b.items.length &&
      a.items.every((item, index) => saysTheSame(item, b.items[index] as YamlNode))
    );
  return (
    b.type === 'map' && a.entries.length === b.entries.length && a.entries.every((entry) => isIn(entry, b.entries))
  );
}

function isIn({ key, value, doubt }: YamlEntry, entries: readonly YamlEntry[]): boolean {
  return (
    doubt === undefined &&
    entries.some((other) => other.key === key && other.doubt === undefined && saysTheSame(value, other.value))
  );
}

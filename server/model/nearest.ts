/** The known words that a mistyped one most likely meant. */

/**
 * The candidates that are few edits (one letter added, dropped, changed, or two neighbours swapped; case is no edit)
 * from `word`, the nearest first, equally near ones in the order given. Few is one for words of up to five letters,
 * else a third of the letters.
 */
export function nearestWords(word: string, candidates: Iterable<string>): readonly string[] {
  const limit = Math.max(1, Math.floor(word.length / 3));
  const small = word.toLowerCase();
  const near: { readonly candidate: string; readonly edits: number }[] = [];
  for (const candidate of new Set(candidates)) {
    if (Math.abs(candidate.length - word.length) > limit) continue;
    const edits = editDistance(small, candidate.toLowerCase(), limit);
    if (edits <= limit) near.push({ candidate, edits });
  }
  near.sort((a, b) => a.edits - b.edits);
  return near.map(({ candidate }) => candidate);
}

/**
 * Optimal string alignment distance: edits as in {@link nearestWords}, no part edited twice.
 * @param most past so many edits it is given up: then any number above is returned
 */
export function editDistance(from: string, to: string, most = Number.POSITIVE_INFINITY): number {
  let beforeLast: number[] = [];
  let last = Array.from({ length: to.length + 1 }, (_, column) => column);
  let leastOfLast = 0;
  for (let row = 1; row <= from.length; row++) {
    const current = [row];
    let least = row;
    for (let column = 1; column <= to.length; column++) {
      const edits = cheapest({ from, to, row, column, current, last, beforeLast });
      current.push(edits);
      least = Math.min(least, edits);
    }
    // A swap reaches back over two rows.
    if (least > most && leastOfLast > most) return least;
    leastOfLast = least;
    [beforeLast, last] = [last, current];
  }
  return last[to.length] ?? 0;
}

interface Cell {
  readonly from: string;
  readonly to: string;
  readonly row: number;
  readonly column: number;
  readonly current: readonly number[];
  readonly last: readonly number[];
  readonly beforeLast: readonly number[];
}

function cheapest({ from, to, row, column, current, last, beforeLast }: Cell): number {
  const same = from[row - 1] === to[column - 1];
  const replaced = at(last, column - 1) + (same ? 0 : 1);
  const added = at(current, column - 1) + 1;
  const dropped = at(last, column) + 1;
  const isSwap = row > 1 && column > 1 && from[row - 1] === to[column - 2] && from[row - 2] === to[column - 1];
  const swapped = isSwap ? at(beforeLast, column - 2) + 1 : Number.POSITIVE_INFINITY;
  return Math.min(replaced, added, dropped, swapped);
}

function at(row: readonly number[], column: number): number {
  return row[column] ?? Number.POSITIVE_INFINITY;
}

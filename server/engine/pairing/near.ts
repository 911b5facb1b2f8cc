/** The neighbours of a token in a sorted list; so many that no sentence for people has more, so few that time stays linear. */

const WINDOW = 30;

/** Up to 30 items on either side of the token; `items` are sorted by `placeOf`. */
export function around<T>(items: readonly T[], token: number, placeOf: (item: T) => number): readonly T[] {
  const behind = firstBehind(items, token, placeOf);
  return items.slice(Math.max(0, behind - WINDOW), behind + WINDOW);
}

/** Index of the first item behind the token. */
export function firstBehind<T>(items: readonly T[], token: number, placeOf: (item: T) => number): number {
  let low = 0;
  let high = items.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    const item = items[middle];
    if (item !== undefined && placeOf(item) > token) high = middle;
    else low = middle + 1;
  }
  return low;
}

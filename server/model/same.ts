/** Whether two values that were read say the same: plain records, lists, maps and sets, compared by what they hold. */

export function isSame(a: unknown, b: unknown): boolean {
  if (Object.is(a, b)) return true;
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null) return false;
  if (Array.isArray(a) || Array.isArray(b)) return Array.isArray(a) && Array.isArray(b) && isSameList(a, b);
  if (a instanceof Map || b instanceof Map)
    return a instanceof Map && b instanceof Map && a.size === b.size && isSameList([...a], [...b]);
  if (a instanceof Set || b instanceof Set)
    return a instanceof Set && b instanceof Set && a.size === b.size && isSameList([...a], [...b]);
  return isSameRecord(a as Record<string, unknown>, b as Record<string, unknown>);
}

function isSameList(a: readonly unknown[], b: readonly unknown[]): boolean {
  return a.length === b.length && a.every((item, index) => isSame(item, b[index]));
}

/** Whether both lists hold the very same things. */
export function holdsSame<Item>(a: readonly Item[], b: readonly Item[]): boolean {
  return a.length === b.length && a.every((item, index) => item === b[index]);
}

function isSameRecord(a: Record<string, unknown>, b: Record<string, unknown>): boolean {
  const names = Object.keys(a);
  return names.length === Object.keys(b).length && names.every((name) => name in b && isSame(a[name], b[name]));
}

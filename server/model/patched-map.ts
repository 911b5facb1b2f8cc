/** A map in which some entries have other values: the same keys in the same order, without a copy of the rest. */

/** So many entries are kept apart; past that the whole is copied, which then costs little an edit. */
const MOST_PATCHED = 4096;

export class PatchedMap<Value> implements ReadonlyMap<string, Value> {
  private constructor(
    /** The map that was patched first: maps of one source have the same keys. */
    readonly source: ReadonlyMap<string, Value>,
    private readonly base: ReadonlyMap<string, Value>,
    private readonly patch: ReadonlyMap<string, Value>,
  ) {}

  /** @param changed by keys of the map; the map itself stays as it is */
  static of<Value>(map: ReadonlyMap<string, Value>, changed: ReadonlyMap<string, Value>): ReadonlyMap<string, Value> {
    if (changed.size === 0) return map;
    const [source, base, known] = map instanceof PatchedMap ? [map.source, map.base, map.patch] : [map, map, []];
    const patch = new Map<string, Value>([...known, ...changed]);
    if (patch.size <= MOST_PATCHED) return new PatchedMap(source, base, patch);
    return new PatchedMap(source, new Map(new PatchedMap(source, base, patch)), new Map());
  }

  get(key: string): Value | undefined {
    return this.patch.get(key) ?? this.base.get(key);
  }

  has(key: string): boolean {
    return this.base.has(key);
  }

  get size(): number {
    return this.base.size;
  }

  keys(): MapIterator<string> {
    return this.base.keys();
  }

  *values(): MapIterator<Value> {
    for (const [, value] of this.entries()) yield value;
  }

  *entries(): MapIterator<[string, Value]> {
    for (const [key, value] of this.base) yield [key, this.patch.get(key) ?? value];
  }

  [Symbol.iterator](): MapIterator<[string, Value]> {
    return this.entries();
  }

  forEach(visit: (value: Value, key: string, map: ReadonlyMap<string, Value>) => void): void {
    for (const [key, value] of this.entries()) visit(value, key, this);
  }
}

/** Whether both come from one map by {@link PatchedMap.of}, so that no key came or went. */
export function isOfOneSource<Value>(a: ReadonlyMap<string, Value>, b: ReadonlyMap<string, Value>): boolean {
  const sourceOf = (map: ReadonlyMap<string, Value>) => (map instanceof PatchedMap ? map.source : map);
  return sourceOf(a) === sourceOf(b);
}

/** Lists by key to which many parts add: when one part says something else, only the lists of its keys are made anew. */
import { holdsSame } from '../model/same';

export class KeyedLists<Value> {
  /** By key, what each part adds, in the order of the parts' names. */
  private readonly lists = new Map<string, Added<Value>[]>();
  private readonly joined = new Map<string, readonly Value[]>();
  private readonly parts = new Map<string, ReadonlyMap<string, readonly Value[]>>();

  /** The same array for as long as nothing of it is other. */
  get(key: string): readonly Value[] {
    const known = this.joined.get(key);
    if (known !== undefined) return known;
    const list = (this.lists.get(key) ?? []).flatMap(({ values }) => values);
    this.joined.set(key, list);
    return list;
  }

  has(key: string): boolean {
    return this.lists.has(key);
  }

  keys(): Iterable<string> {
    return this.lists.keys();
  }

  /**
   * What a part adds now, in place of what it added before.
   * @returns the keys whose list is other; `isNew` where the key itself came or went
   */
  set(part: string, now: ReadonlyMap<string, readonly Value[]>): readonly ChangedKey[] {
    const before = this.parts.get(part) ?? new Map<string, readonly Value[]>();
    if (now.size === 0) this.parts.delete(part);
    else this.parts.set(part, now);
    const changed: ChangedKey[] = [];
    for (const key of before.keys()) if (!now.has(key)) changed.push(this.put(key, part, []));
    for (const [key, values] of now)
      if (!holdsSame(before.get(key) ?? [], values)) changed.push(this.put(key, part, values));
    return changed;
  }

  partNames(): Iterable<string> {
    return this.parts.keys();
  }

  private put(key: string, part: string, values: readonly Value[]): ChangedKey {
    const known = this.lists.get(key) ?? [];
    const others = known.filter((added) => added.part !== part);
    if (values.length > 0) others.splice(placeOf(others, part), 0, { part, values });
    if (others.length === 0) this.lists.delete(key);
    else this.lists.set(key, others);
    this.joined.delete(key);
    return { key, isNew: (known.length === 0) !== (others.length === 0) };
  }
}

interface Added<Value> {
  readonly part: string;
  readonly values: readonly Value[];
}

export interface ChangedKey {
  readonly key: string;
  readonly isNew: boolean;
}

/** Behind the last whose name comes before; parts are mostly added in order. */
function placeOf<Value>(list: readonly Added<Value>[], part: string): number {
  let place = list.length;
  while (place > 0 && (list[place - 1] as Added<Value>).part > part) place -= 1;
  return place;
}

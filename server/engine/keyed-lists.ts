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

  /**
   * What a part adds now, in place of what it added before.
   * @returns the keys whose list is other
   */
  set(part: string, now: ReadonlyMap<string, readonly Value[]>): readonly string[] {
    const before = this.parts.get(part) ?? new Map<string, readonly Value[]>();
    if (now.size === 0) this.parts.delete(part);
    else this.parts.set(part, now);
    const gone = [...before.keys()].filter((key) => !now.has(key));
    const other = [...now.keys()].filter((key) => !holdsSame(before.get(key) ?? [], now.get(key) ?? []));
    for (const key of [...gone, ...other]) {
      if (before.has(key)) this.takeOut(key, part);
      const values = now.get(key);
      if (values !== undefined) this.add(key, { part, values });
      this.joined.delete(key);
    }
    return [...gone, ...other];
  }

  private takeOut(key: string, part: string): void {
    const others = (this.lists.get(key) ?? []).filter((added) => added.part !== part);
    if (others.length === 0) this.lists.delete(key);
    else this.lists.set(key, others);
  }

  private add(key: string, added: Added<Value>): void {
    const list = this.lists.get(key);
    if (list === undefined) this.lists.set(key, [added]);
    else list.splice(placeOf(list, added.part), 0, added);
  }
}

interface Added<Value> {
  readonly part: string;
  readonly values: readonly Value[];
}

/** Behind the last whose name comes before; parts are mostly added in order. */
function placeOf<Value>(list: readonly Added<Value>[], part: string): number {
  let place = list.length;
  while (place > 0 && (list[place - 1] as Added<Value>).part > part) place -= 1;
  return place;
}

/** Which things each piece of work read, so that only what rests on a changed one is done again. */
import type { Product } from '../model/product';
import type { Reason } from './typed';

/** Who did the work: a lowered fact by its name, or a result by what it is of. */
export type Worker = string | object;

/** A worker that can be asked, often and quickly, whether all that it looked up is as it was. */
export class Lookups {
  stand = true;
}

/** Names whose keys are kept; past that they are made anew. */
const MOST_KEYS = 1_000_000;

/** One text a key: it is looked up so often that making and weighing a new one each time would show. */
function keysOf(kind: string): (name: string) => string {
  const known = new Map<string, string>();
  return (name) => {
    const key = known.get(name) ?? `${kind}:${name}`;
    if (known.size >= MOST_KEYS) known.clear();
    known.set(name, key);
    return key;
  };
}

/** Keys of what can be read and may change. */
export const keys = {
  fact: keysOf('f'),
  duplicate: keysOf('d'),
  table: keysOf('t'),
  lowered: keysOf('l'),
  variable: keysOf('v'),
  /** All texts: what a text is compared with may be a slip of the pen. */
  allTexts: '*texts',
  /** Which names there are: suggestions. */
  names: '*names',
  allFacts: '*facts',
  allTables: '*tables',
  /** Requirements that stand under an id. */
  id: keysOf('i'),
  /** What was judged of the requirements with an id. */
  result: keysOf('r'),
  /** Requirements that rest on a fact. */
  resting: keysOf('u'),
  /** Limits on one expression. */
  limits: keysOf('g'),
} as const;

const UNNOTED = 'nobody';
const VARIABLE = keys.variable('');

export class Recorder {
  private readonly stack: { readonly worker: Worker; readonly read: Set<string> }[] = [];
  private readonly read = new Map<Worker, Set<string>>();
  private readonly remarks = new Map<Worker, Reason[]>();
  private readonly readers = new Map<string, Set<Worker>>();

  /** Notes that what is at work now read this. */
  note(key: string): void {
    const top = this.stack[this.stack.length - 1];
    if (top === undefined || top.read.has(key)) return;
    top.read.add(key);
    if (top.worker !== UNNOTED) this.enlist(key, top.worker);
  }

  /** Keeps a remark for as long as the work that came upon it stands. */
  keep(remark: Reason): void {
    const worker = this.stack[this.stack.length - 1]?.worker;
    if (worker === undefined) return;
    const known = this.remarks.get(worker);
    if (known === undefined) this.remarks.set(worker, [remark]);
    else known.push(remark);
  }

  /** Every remark whose work stands. */
  kept(): readonly Reason[] {
    return [...this.remarks.values()].flat();
  }

  /** Does work for a worker; what it reads adds to what the worker read before. */
  run<Result>(worker: Worker, work: () => Result): Result {
    const own = this.read.get(worker) ?? new Set<string>();
    this.read.set(worker, own);
    this.stack.push({ worker, read: own });
    try {
      return work();
    } finally {
      this.stack.pop();
    }
  }

  /** Does work that looks at more than it rests on. */
  unnoted<Result>(work: () => Result): Result {
    this.stack.push({ worker: UNNOTED, read: new Set() });
    try {
      return work();
    } finally {
      this.stack.pop();
    }
  }

  /** Everyone who rests on one of these, directly or in turn, and on what `gone` made; all of them are forgotten. */
  forget(changed: Iterable<string>, gone: Iterable<Worker>): Forgotten {
    const workers = new Set<Worker>(gone);
    const variables = new Set<string>();
    const queue = new Set(changed);
    const spread = (worker: Worker) => {
      if (typeof worker === 'string') queue.add(keys.lowered(worker));
      for (const key of this.read.get(worker) ?? []) {
        if (!key.startsWith(VARIABLE)) continue;
        // Whoever else stands on the variable would be left with another one than is made anew.
        queue.add(key);
        variables.add(key.slice(VARIABLE.length));
      }
    };
    for (const worker of workers) spread(worker);
    for (const key of queue) {
      for (const reader of this.readers.get(key) ?? []) {
        if (workers.has(reader)) continue;
        workers.add(reader);
        spread(reader);
      }
    }
    for (const worker of workers) this.drop(worker);
    return { workers, variables };
  }

  private enlist(key: string, worker: Worker): void {
    const known = this.readers.get(key);
    if (known === undefined) this.readers.set(key, new Set([worker]));
    else known.add(worker);
  }

  private drop(worker: Worker): void {
    for (const key of this.read.get(worker) ?? []) {
      const readers = this.readers.get(key);
      readers?.delete(worker);
      if (readers?.size === 0) this.readers.delete(key);
    }
    this.read.delete(worker);
    this.remarks.delete(worker);
    if (worker instanceof Lookups) worker.stand = false;
  }
}

export interface Forgotten {
  readonly workers: ReadonlySet<Worker>;
  /** Ids of variables that are to be made anew. */
  readonly variables: ReadonlySet<string>;
}

/** The product as one that notes what is looked up in it. */
export function recorded(product: Product, recorder: Recorder): Product {
  const facts = new RecordedMap(product.facts, keys.fact, keys.allFacts, recorder);
  return {
    ...product,
    facts,
    writtenFacts: product.writtenFacts === product.facts ? facts : product.writtenFacts,
    duplicates: new RecordedMap(product.duplicates, keys.duplicate, keys.allFacts, recorder),
    tables: new RecordedMap(product.tables, keys.table, keys.allTables, recorder),
  };
}

/** Which names a map has: whoever asks is asked again when any comes or goes, and of no value. */
export function namesOf(map: ReadonlyMap<string, unknown>): { has(name: string): boolean } {
  return map instanceof RecordedMap ? map.names() : map;
}

class RecordedMap<Value> implements ReadonlyMap<string, Value> {
  constructor(
    private readonly map: ReadonlyMap<string, Value>,
    private readonly keyOf: (name: string) => string,
    private readonly all: string,
    private readonly recorder: Recorder,
  ) {}

  get(name: string): Value | undefined {
    this.recorder.note(this.keyOf(name));
    return this.map.get(name);
  }

  has(name: string): boolean {
    this.recorder.note(this.keyOf(name));
    return this.map.has(name);
  }

  get size(): number {
    return this.whole().size;
  }

  keys(): MapIterator<string> {
    this.recorder.note(keys.names);
    return this.map.keys();
  }

  values(): MapIterator<Value> {
    return this.whole().values();
  }

  entries(): MapIterator<[string, Value]> {
    return this.whole().entries();
  }

  [Symbol.iterator](): MapIterator<[string, Value]> {
    return this.whole()[Symbol.iterator]();
  }

  forEach(visit: (value: Value, name: string, map: ReadonlyMap<string, Value>) => void): void {
    this.whole().forEach(visit);
  }

  names(): ReadonlyMap<string, Value> {
    this.recorder.note(keys.names);
    return this.map;
  }

  private whole(): ReadonlyMap<string, Value> {
    this.recorder.note(this.all);
    return this.map;
  }
}

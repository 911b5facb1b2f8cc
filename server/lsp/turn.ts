/** One turn after every burst of changes: analyse what changed, hold still what would flicker, send what is other. */
import type { Finding } from '../findings/finding';
import type { ProductAnalysis } from '../findings/product-analysis';
import { pathIn } from '../host';
import { CONFIGURATION_FILE } from '../model/configuration';
import { holdsSame } from '../model/same';
import { spanOf } from '../syntax/span';
import { createDiagnosticMemory, type DiagnosticMemory, diagnosticsOf } from './diagnostics';
import { messageOf } from './guard';
import { later } from './later';
import type { Entry, Wanted } from './ledger';
import { createPositions } from './positions';
import type { LiveProduct } from './products';
import { type ProductPlacing, placingOf, pulls, type ServerState } from './state';
import { NOTHING_SHOWN, type Shown, standStill } from './still';
import { summaryOf } from './summary';

/** A change that follows within so many milliseconds of the first joins its turn. */
const JOINS_WITHIN = 30;
/** After so long without an edit, in milliseconds, what takes longer is computed as well. */
const RESTS_AFTER = 1000;

export class Turns {
  private readonly changed = new Set<LiveProduct>();
  private readonly timers = new Map<LiveProduct, ReturnType<typeof setTimeout>>();
  private isScheduled = false;
  private changes = 0;
  private firstChange = 0;
  private lastSummary = '';
  private readonly refreshed = new WeakMap<LiveProduct, ProductAnalysis>();
  private readonly made = new WeakMap<LiveProduct, LastMade>();
  /** Woken when pulled diagnostics have become others. */
  private waiting: (() => void)[] = [];

  constructor(private readonly state: ServerState) {}

  /** Something of the product is other than it was. */
  note(live: LiveProduct): void {
    const { host } = this.state;
    if (this.changed.size === 0) this.firstChange = host.now();
    this.changed.add(live);
    this.changes += 1;
    this.schedule();
  }

  /** Does now what is pending. */
  flush(): void {
    for (const live of [...this.changed]) {
      this.changed.delete(live);
      this.update(live);
    }
  }

  /** The product is no more. */
  drop(live: LiveProduct): void {
    this.changed.delete(live);
    this.stopTimer(live);
    this.send(this.state.ledger.drop(ownerOf(live)));
    this.sendSummary();
  }

  /** Resolves when any diagnostics have become others. */
  nextChange(): Promise<void> {
    return new Promise((resolve) => this.waiting.push(resolve));
  }

  stop(): void {
    for (const live of [...this.timers.keys()]) this.stopTimer(live);
    this.changed.clear();
    this.wake();
  }

  /** Messages that wait in the queue are taken in first, as long as the first change does not wait for long. */
  private schedule(): void {
    if (this.isScheduled || !this.state.isScanned) return;
    this.isScheduled = true;
    const { changes } = this;
    later(() =>
      later(() => {
        this.isScheduled = false;
        const isLate = this.state.host.now() - this.firstChange >= JOINS_WITHIN;
        if (this.changes > changes && !isLate) this.schedule();
        else this.flush();
      }),
    );
  }

  private update(live: LiveProduct): void {
    if (!this.state.isScanned || !live.isRead) return;
    const now = this.state.host.now();
    const result = this.analysed(live);
    live.shown = result === null ? withMistake(live) : standStill(live.shown, result, live.edit, now);
    this.publish(live, live.shown);
    this.sendSummary();
    if (result === null) return;
    this.comeBack(live, live.shown, result.ranges !== null, now);
    if (live.shown.until === null) this.refresh(live, result);
  }

  private analysed(live: LiveProduct): ProductAnalysis | null {
    try {
      return this.state.products.analysis(live);
    } catch (error) {
      this.state.connection.console.error(`plimsoll: ${ownerOf(live)}: ${messageOf(error)}`);
      return null;
    }
  }

  /** When what is held back is due, and once everything rests. */
  private comeBack(live: LiveProduct, shown: Shown, isRested: boolean, now: number): void {
    this.stopTimer(live);
    const due = shown.until ?? (isRested ? null : (live.edit?.at ?? now) + RESTS_AFTER);
    if (due === null) return;
    const work = shown.until === null ? () => void this.rest(live) : () => this.update(live);
    this.timers.set(live, setTimeout(work, Math.max(due - now, 1)));
  }

  /** What takes longer, in between whatever comes in; given up when a text changes. */
  private async rest(live: LiveProduct): Promise<void> {
    try {
      const isStopped = () => !this.timers.has(live);
      if ((await this.state.products.rested(live, isStopped)) !== null) this.update(live);
    } catch (error) {
      this.state.connection.console.error(`plimsoll: ${ownerOf(live)}: ${messageOf(error)}`);
    }
  }

  private stopTimer(live: LiveProduct): void {
    clearTimeout(this.timers.get(live));
    this.timers.delete(live);
  }

  private publish(live: LiveProduct, shown: Shown): void {
    const placing = placingOf(this.state, live, shown.texts);
    const wanted = new Map<string, Wanted>();
    const { memory, names } = this.lastMade(live);
    for (const [file, diagnostics] of diagnosticsOf(shown.byFile, placing, memory)) {
      const { key, uri } = nameOf(file, placing, names);
      wanted.set(key, { uri, version: this.state.buffers.get(key)?.version ?? null, diagnostics });
    }
    for (const [key, one] of this.filesThatCannotBeRead(live)) if (!wanted.has(key)) wanted.set(key, one);
    this.send(this.state.ledger.replace(ownerOf(live), wanted));
  }

  /** What was made under other URIs is made anew. */
  private lastMade(live: LiveProduct): LastMade {
    const { buffers, uris } = this.state;
    const spellings = [uris.learned, ...[...buffers.values()].map(({ uri }) => uri)].join(' ');
    const known = this.made.get(live);
    if (known?.spellings === spellings) return known;
    const made: LastMade = { spellings, memory: createDiagnosticMemory(), names: new Map() };
    this.made.set(live, made);
    return made;
  }

  /** What no document can say: files without permission, a configuration with the wrong name. */
  private filesThatCannotBeRead({ open, notes }: LiveProduct): ReadonlyMap<string, Wanted> {
    const { uris, encoding } = this.state;
    const found = new Map<string, Wanted>();
    const add = (key: string, message: string) => {
      const range = createPositions('', encoding).rangeOf(spanOf(0, 0));
      const diagnostics = [{ range, severity: 2 as const, code: 'bad-configuration', source: 'plimsoll', message }];
      found.set(key, { uri: uris.uriOf(key), version: null, diagnostics });
    };
    const { root, misnamed } = open.place;
    for (const { path, reason } of notes?.texts.unreadable ?? []) add(pathIn(root, path), `cannot be read: ${reason}`);
    if (notes?.complaint) add(pathIn(root, CONFIGURATION_FILE), notes.complaint);
    if (misnamed !== null) add(misnamed, `not read, since the configuration is called ${CONFIGURATION_FILE}`);
    return found;
  }

  private send(changed: readonly Entry[]): void {
    if (changed.length === 0) return;
    const { connection, client } = this.state;
    if (!pulls(this.state)) {
      for (const { uri, version, diagnostics } of changed)
        void connection.sendDiagnostics({
          uri,
          diagnostics: [...diagnostics],
          ...(version !== null && { version }),
        });
    } else if (client.workspace?.diagnostics?.refreshSupport) {
      connection.languages.diagnostics.refresh().catch(() => undefined);
    }
    this.wake();
  }

  /** Hints and lenses of other documents follow, together with the findings that are shown and never before them. */
  private refresh(live: LiveProduct, result: ProductAnalysis): void {
    const last = this.refreshed.get(live);
    this.refreshed.set(live, result);
    if (last !== undefined && saysTheSame(last, result)) return;
    const { connection, client } = this.state;
    const { inlayHint, codeLens } = client.workspace ?? {};
    if (inlayHint?.refreshSupport) connection.languages.inlayHint.refresh().catch(() => undefined);
    if (codeLens?.refreshSupport) connection.sendRequest('workspace/codeLens/refresh').catch(() => undefined);
  }

  private wake(): void {
    const { waiting } = this;
    this.waiting = [];
    for (const resolve of waiting) resolve();
  }

  private sendSummary(): void {
    const { state } = this;
    const products = [...state.products.all()].flatMap((live) => summaryOf(state, live));
    const text = JSON.stringify(products);
    if (text === this.lastSummary) return;
    this.lastSummary = text;
    void state.connection.sendNotification('plimsoll/summary', { products });
  }
}

/** What is found of a document that nothing has touched is the very object that it was. */
function saysTheSame(a: ProductAnalysis, b: ProductAnalysis): boolean {
  const rangesAreNew = a.ranges !== b.ranges && b.ranges !== null;
  return !rangesAreNew && holdsSame(a.analysis.parts, b.analysis.parts);
}

/** What was sent last of a product, under URIs as the client's documents and folders spelled them. */
interface LastMade {
  readonly spellings: string;
  readonly memory: DiagnosticMemory;
  readonly names: Map<string, FileName>;
}

/** How a file is called inside and by the client. */
interface FileName {
  readonly key: string;
  readonly uri: string;
}

function nameOf(file: string, placing: ProductPlacing, names: Map<string, FileName>): FileName {
  const known = names.get(file) ?? { key: placing.keyOf(file), uri: placing.uriOf(file) };
  names.set(file, known);
  return known;
}

function ownerOf({ open, only }: LiveProduct): string {
  return only ?? open.place.root;
}

/** A mistake of ours is confessed beside what was last found; an empty list would say that all is well. */
function withMistake({ shown, edit, open }: LiveProduct): Shown {
  const file = edit?.file ?? [...open.files][0] ?? CONFIGURATION_FILE;
  const mistake: Finding = {
    code: 'internal',
    severity: 'error',
    requirement: null,
    message: 'the product could not be judged because of a mistake in the program; what is shown is of before',
    place: { file, span: spanOf(0, 0) },
    related: [],
    fixes: [],
    alike: null,
  };
  const last = shown ?? NOTHING_SHOWN;
  const others = (last.byFile.get(file) ?? []).filter(({ message }) => message !== mistake.message);
  return { ...last, byFile: new Map(last.byFile).set(file, [...others, mistake]), until: null };
}

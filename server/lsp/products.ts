/** The products of the workspace: which there are, what is read of them, and which of them a document belongs to. */
import type { ProductAnalysis } from '../findings/product-analysis';
import { folderAbove, type Host, pathBelow, pathIn, today } from '../host';
import { findProduct, type ProductPlace } from '../host-files';
import {
  createOpenProduct,
  type OpenProduct,
  type Overlay,
  type ReadAgain,
  readAgain,
  takeAgain,
} from '../workspace-files';
import type { Buffer } from './buffers';
import { breathe } from './later';
import type { LastEdit, Shown } from './still';

/** A product that is kept up to date. */
export interface LiveProduct {
  readonly open: OpenProduct;
  /** The key of the only document of a product that no folder of the workspace holds; null for others. */
  readonly only: string | null;
  /** Null: texts have changed since. */
  result: ProductAnalysis | null;
  /** Its first reading is complete. */
  isRead: boolean;
  edit: LastEdit | null;
  shown: Shown | null;
  /** What the last reading of its files said. */
  notes: ReadAgain | null;
}

/** Where a document stands. */
export interface Located {
  readonly live: LiveProduct;
  /** Below the product's folder. */
  readonly path: string;
}

/** So long, in milliseconds, nothing else comes in while ranges are worked out. */
const SLICE = 10;

/** Called with what was read so far, for progress. */
export type Report = (what: string) => void;

export class Products {
  /** By the product's folder; documents outside every folder by their own key. */
  private readonly byRoot = new Map<string, LiveProduct>();
  private folders: readonly string[] = [];

  constructor(
    private readonly host: Host,
    private readonly buffers: ReadonlyMap<string, Buffer>,
  ) {}

  all(): Iterable<LiveProduct> {
    return this.byRoot.values();
  }

  setFolders(folders: readonly string[]): void {
    this.folders = folders;
  }

  /** The product that a document or folder belongs to: the one with the longest folder above it. */
  at(key: string): Located | null {
    const alone = this.byRoot.get(key);
    if (alone?.only === key) return { live: alone, path: nameOf(key) };
    for (let folder: string | null = key; folder !== null; folder = folderAbove(folder)) {
      const live = this.byRoot.get(folder);
      if (live !== undefined && live.only === null) return { live, path: folder === key ? '' : pathBelow(folder, key) };
    }
    return null;
  }

  /**
   * Finds the products of all folders and of all open documents, and reads each again.
   * @returns those that are no more
   */
  async scan(report: Report): Promise<readonly LiveProduct[]> {
    const places = new Map<string, ProductPlace>();
    for (const folder of this.folders) {
      const place = await findProduct(this.host, folder);
      if (place !== null) places.set(place.root, place);
    }
    await this.addConfigured(places);
    const pending = [...places.values()];
    for (let place = pending.shift(); place !== undefined; place = pending.shift()) {
      report(place.root);
      const nested = await this.readWhole(place);
      for (const inner of nested) if (!places.has(inner.root)) pending.push(inner);
      for (const inner of nested) places.set(inner.root, inner);
    }
    const gone = this.keepOnly(places);
    this.adoptLoose();
    return gone;
  }

  /** Reads what has changed of some files; null: any may have. */
  async readFiles(live: LiveProduct, paths: ReadonlySet<string> | null): Promise<boolean> {
    if (live.only !== null) return this.takeText(live, nameOf(live.only));
    live.notes = await readAgain(this.host, live.open, paths);
    if (live.notes.isOther) live.result = null;
    live.isRead = true;
    return live.notes.isOther;
  }

  /** Takes in the text that counts of one document, open or not. False: nothing is other than it was. */
  takeText(live: LiveProduct, path: string): boolean {
    const isOther = takeAgain(live.open, path);
    if (isOther) live.result = null;
    return isOther;
  }

  /** Opens the product of a document that no product holds yet. */
  async adopt(key: string): Promise<void> {
    const folder = folderAbove(key);
    const place = folder === null ? null : await findProduct(this.host, folder);
    if (place?.hasConfiguration && this.at(key) === null) await this.readWhole(place);
    this.adoptLoose();
  }

  /** Drops the product of a document that stood alone and was closed; null where it was none. */
  release(key: string): LiveProduct | null {
    const live = this.byRoot.get(key);
    if (live?.only !== key) return null;
    this.byRoot.delete(key);
    return live;
  }

  analysis(live: LiveProduct): ProductAnalysis {
    live.result ??= live.open.workspace.analysis({ today: today(this.host) });
    return live.result;
  }

  /**
   * With allowed and needed ranges, which take longer: a slice at a time, messages coming in between. Null: a text has
   * changed meanwhile, or it was cancelled.
   */
  async rested(live: LiveProduct, isCancelled: () => boolean = () => false): Promise<ProductAnalysis | null> {
    const quick = this.analysis(live);
    if (quick.ranges !== null) return quick;
    const steps = live.open.workspace.withRanges(quick);
    for (let until = this.host.now() + SLICE; ; ) {
      const step = steps.next();
      if (step.done) {
        live.result = step.value;
        return step.value;
      }
      if (this.host.now() < until) continue;
      await breathe();
      if (live.result !== quick || isCancelled()) return null;
      until = this.host.now() + SLICE;
    }
  }

  /** As it would be with other texts, by path. */
  analysisWith(live: LiveProduct, texts: ReadonlyMap<string, string>): ProductAnalysis {
    return live.open.workspace.analysisWith(texts, { today: today(this.host) });
  }

  /** The key of a file of a product. */
  keyOf({ open, only }: LiveProduct, path: string): string {
    return only ?? pathIn(open.place.root, path);
  }

  /** Products with a configuration that hold open documents outside all folders. */
  private async addConfigured(places: Map<string, ProductPlace>): Promise<void> {
    for (const key of this.buffers.keys()) {
      const folder = folderAbove(key);
      if (folder === null || this.folders.some((one) => key.startsWith(`${one}/`))) continue;
      const place = await findProduct(this.host, folder);
      if (place?.hasConfiguration) places.set(place.root, place);
    }
  }

  private async readWhole(place: ProductPlace): Promise<readonly ProductPlace[]> {
    const known = this.byRoot.get(place.root);
    const live =
      known ??
      this.create(createOpenProduct(place, { holdsLastGood: true, keepsWork: true }, this.overlayOf(place.root)), null);
    this.byRoot.set(place.root, live);
    await this.readFiles(live, null);
    const nested = live.notes?.texts.nested ?? [];
    return nested.map((path) => ({ root: pathIn(place.root, path), hasConfiguration: true, misnamed: null }));
  }

  private keepOnly(places: ReadonlyMap<string, ProductPlace>): readonly LiveProduct[] {
    const gone: LiveProduct[] = [];
    for (const [root, live] of [...this.byRoot]) {
      if (live.only === null ? places.has(root) : this.buffers.has(root) && !this.isHeld(root)) continue;
      this.byRoot.delete(root);
      gone.push(live);
    }
    return gone;
  }

  private isHeld(key: string): boolean {
    return this.at(key)?.live.only === null;
  }

  /** Each open document that no product holds is a product of its own. */
  private adoptLoose(): void {
    for (const key of this.buffers.keys()) {
      if (this.at(key) !== null) continue;
      const name = nameOf(key);
      const place = { root: folderAbove(key) ?? key, hasConfiguration: false, misnamed: null };
      const overlay = { textOf: () => this.buffers.get(key)?.text ?? null, paths: () => [name] };
      const live = this.create(createOpenProduct(place, { holdsLastGood: true, keepsWork: true }, overlay), key);
      live.open.files = new Set([name]);
      live.isRead = true;
      this.byRoot.set(key, live);
      this.takeText(live, name);
    }
  }

  private create(open: OpenProduct, only: string | null): LiveProduct {
    return { open, only, result: null, isRead: false, edit: null, shown: null, notes: null };
  }

  private overlayOf(root: string): Overlay {
    return {
      textOf: (path) => this.buffers.get(pathIn(root, path))?.text ?? null,
      paths: () =>
        [...this.buffers.keys()].flatMap((key) => {
          const found = this.at(key);
          return found !== null && found.live.only === null && found.live.open.place.root === root ? [found.path] : [];
        }),
    };
  }
}

function nameOf(key: string): string {
  return key.slice(key.lastIndexOf('/') + 1);
}

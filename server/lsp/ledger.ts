/** Owns what the client sees: every document's diagnostics by generation, version and content; only differences go out. */
import type { Diagnostic } from 'vscode-languageserver';

/** What is known to the client, or shall be, of one document. */
export interface Entry {
  readonly uri: string;
  /** Of the open document that the diagnostics were made from; null: it is not open. */
  readonly version: number | null;
  readonly diagnostics: readonly Diagnostic[];
  /** Counts changes of the content; the result id of pulled diagnostics. */
  readonly generation: number;
  /** The content, to tell whether it is another. */
  readonly content: string;
}

/** Diagnostics of one document, as they shall be seen. */
export interface Wanted {
  readonly uri: string;
  readonly version: number | null;
  readonly diagnostics: readonly Diagnostic[];
}

export class Ledger {
  private readonly entries = new Map<string, Entry>();
  /** By owner (a product's folder): the documents that it has diagnostics in. */
  private readonly owned = new Map<string, Set<string>>();
  private generations = 0;

  /**
   * Takes all diagnostics of an owner; documents of its that are not named have none any more.
   * @returns the documents whose diagnostics are others now
   */
  replace(owner: string, wanted: ReadonlyMap<string, Wanted>): readonly Entry[] {
    const changed: Entry[] = [];
    const known = this.owned.get(owner) ?? new Set();
    for (const key of known) {
      if (wanted.has(key)) continue;
      const entry = this.entries.get(key);
      if (entry !== undefined && entry.diagnostics.length > 0)
        changed.push(this.put(key, { uri: entry.uri, version: null, diagnostics: [] }));
    }
    for (const [key, one] of wanted) {
      if (this.isOther(key, one)) changed.push(...this.underOtherUri(key, one), this.put(key, one));
      else this.keepList(key, one.diagnostics);
    }
    this.owned.set(owner, new Set(wanted.keys()));
    return changed;
  }

  /** An owner that is gone takes its diagnostics with it. */
  drop(owner: string): readonly Entry[] {
    const changed = this.replace(owner, new Map());
    this.owned.delete(owner);
    return changed;
  }

  get(key: string): Entry | null {
    return this.entries.get(key) ?? null;
  }

  /** Documents whose diagnostics are empty but were not always are among them. */
  all(): ReadonlyMap<string, Entry> {
    return this.entries;
  }

  /** What a client that takes two spellings for two documents still shows under the one of before. */
  private underOtherUri(key: string, { uri }: Wanted): readonly Entry[] {
    const known = this.entries.get(key);
    const isLeft = known !== undefined && known.uri !== uri && known.diagnostics.length > 0;
    return isLeft ? [{ ...known, version: null, diagnostics: [] }] : [];
  }

  private isOther(key: string, { uri, version, diagnostics }: Wanted): boolean {
    const known = this.entries.get(key);
    if (known === undefined) return diagnostics.length > 0;
    // A strict client drops what was made for another version, so a new version of the same content is sent again.
    if (known.version !== version && diagnostics.length > 0) return true;
    if (known.diagnostics === diagnostics) return known.uri !== uri;
    return known.uri !== uri || known.content !== JSON.stringify(diagnostics);
  }

  /** Lists that say the same are told apart by what they say; next time, that it is this list is enough. */
  private keepList(key: string, diagnostics: readonly Diagnostic[]): void {
    const known = this.entries.get(key);
    if (known !== undefined && known.diagnostics !== diagnostics) this.entries.set(key, { ...known, diagnostics });
  }

  private put(key: string, { uri, version, diagnostics }: Wanted): Entry {
    const content = JSON.stringify(diagnostics);
    const known = this.entries.get(key);
    const isSame = known !== undefined && known.content === content;
    if (!isSame) this.generations += 1;
    const entry = { uri, version, diagnostics, content, generation: isSame ? known.generation : this.generations };
    this.entries.set(key, entry);
    return entry;
  }
}

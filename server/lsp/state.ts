/** All that the server knows while it runs. */
import type { ClientCapabilities, Connection } from 'vscode-languageserver';
import type { Host } from '../host';
import type { Buffer } from './buffers';
import { Ledger } from './ledger';
import type { InitializationOptions } from './messages';
import { chosenEncoding, createPositions, type Encoding, type Positions } from './positions';
import { type LiveProduct, Products } from './products';
import { Reading } from './reading';
import type { Uris } from './uris';

export interface ServerState {
  readonly connection: Connection;
  readonly host: Host;
  readonly client: ClientCapabilities;
  readonly options: InitializationOptions;
  readonly encoding: Encoding;
  readonly uris: Uris;
  /** By key. */
  readonly buffers: Map<string, Buffer>;
  readonly products: Products;
  readonly ledger: Ledger;
  readonly reading: Reading;
  /** The first scan is complete: before it nothing is said of names and numbers that may still turn up. */
  isScanned: boolean;
}

export function createState(
  connection: Connection,
  host: Host,
  uris: Uris,
  client: ClientCapabilities,
  options: InitializationOptions,
): ServerState {
  const buffers = new Map<string, Buffer>();
  return {
    connection,
    host,
    client,
    options,
    encoding: chosenEncoding(client.general?.positionEncodings),
    uris,
    buffers,
    products: new Products(host, buffers),
    ledger: new Ledger(),
    reading: new Reading((mistake) => connection.console.error(mistake)),
    isScanned: false,
  };
}

/** The client asks for diagnostics itself. */
export function pulls({ client }: ServerState): boolean {
  return client.textDocument?.diagnostic !== undefined;
}

/** How places in a product are shown to the client; keeps the line index of each text it was asked about. */
export interface ProductPlacing {
  keyOf(file: string): string;
  uriOf(file: string): string;
  positionsOf(file: string): Positions;
  /** Of the open document; null where it is not open. */
  versionOf(file: string): number | null;
}

interface IndexedText {
  readonly text: string;
  readonly positions: Positions;
}

const indexed = new WeakMap<LiveProduct, Map<string, IndexedText>>();

/** @param texts those that the places were made from */
export function placingOf(
  { products, uris, buffers, encoding }: ServerState,
  live: LiveProduct,
  texts: ReadonlyMap<string, string>,
): ProductPlacing {
  const known = indexed.get(live) ?? new Map<string, IndexedText>();
  indexed.set(live, known);
  const keyOf = (file: string) => products.keyOf(live, file);
  return {
    keyOf,
    uriOf: (file) => buffers.get(keyOf(file))?.uri ?? uris.uriOf(keyOf(file)),
    versionOf: (file) => buffers.get(keyOf(file))?.version ?? null,
    positionsOf: (file) => {
      const text = texts.get(file) ?? '';
      const last = known.get(file);
      if (last?.text === text) return last.positions;
      const positions = createPositions(text, encoding);
      known.set(file, { text, positions });
      return positions;
    },
  };
}

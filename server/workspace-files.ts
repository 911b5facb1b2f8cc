/** A product and the files it is read from: what has changed is read again, what is open in an editor counts before it. */
import { type FileRead, type Host, pathIn } from './host';
import {
  type DocumentText,
  fileFilter,
  type ProductPlace,
  type ProductTexts,
  readDocument,
  readProduct,
} from './host-files';
import { decodeText } from './host-text';
import { CONFIGURATION_FILE } from './model/configuration';
import { sha256 } from './model/digest';
import type { FileDigest } from './model/evidence-file';
import { isSame } from './model/same';
import type { SectionCache } from './syntax/markdown/parse';
import { createProductWorkspace, type ProductWorkspace, type WorkspaceOptions } from './workspace';

/** A product, and what was read of it. */
export interface OpenProduct {
  readonly place: ProductPlace;
  readonly workspace: ProductWorkspace;
  readonly overlay: Overlay;
  /** Its documents and data files as they were read last from their files, by path; null for data files that are not there. */
  readonly documents: Map<string, DocumentText>;
  readonly data: Map<string, string | null>;
  /** Of documents of evidence; while nothing of one is other, the same value. */
  readonly digests: Map<string, FileDigest>;
  /** Null: there is none. */
  configuration: string | null;
  /** Paths of the documents that count, those that stand in an editor only among them. */
  files: ReadonlySet<string>;
}

/** Texts that count before those of the files: what is open in an editor. Paths are relative to the product's folder. */
export interface Overlay {
  /** Null: what the file holds counts. */
  textOf(path: string): string | null;
  paths(): Iterable<string>;
}

/** What reading again found. */
export interface ReadAgain {
  /** Anything is other than it was. */
  readonly isOther: boolean;
  readonly texts: Omit<ProductTexts, 'files' | 'documents'>;
  /** Why plimsoll.yaml could not be read; null where it could, or is not there. */
  readonly complaint: string | null;
}

/** Parses documents elsewhere while the rest is read; see server/cli/parse-ahead.ts. */
export type ParseAhead = (documents: readonly DocumentText[]) => {
  readonly documents: readonly DocumentText[];
  readonly parsed: Promise<ReadonlyMap<string, SectionCache>>;
};

const NO_OVERLAY: Overlay = { textOf: () => null, paths: () => [] };

/** A product nothing of which is read yet. */
export function createOpenProduct(
  place: ProductPlace,
  options?: WorkspaceOptions,
  overlay: Overlay = NO_OVERLAY,
): OpenProduct {
  return {
    place,
    workspace: createProductWorkspace(options),
    overlay,
    documents: new Map(),
    data: new Map(),
    digests: new Map(),
    configuration: null,
    files: new Set(),
  };
}

/** Reads files that are new or among those changed (null: any may have), and drops those that are gone. */
export async function readAgain(
  host: Host,
  product: OpenProduct,
  changed: ReadonlySet<string> | null,
  parseAhead: ParseAhead = () => ({ documents: [], parsed: Promise.resolve(new Map()) }),
): Promise<ReadAgain> {
  const { place, workspace } = product;
  const mayHaveChanged = (path: string) => changed === null || changed.has(path);
  const settings = mayHaveChanged(CONFIGURATION_FILE) ? await readConfiguration(host, product) : UNCHANGED;
  const isKnown = (path: string) => !mayHaveChanged(path) && product.documents.has(path);
  const { files, documents, ...texts } = await readProduct(host, place.root, workspace.configuration, isKnown);
  const unreadable = new Set(texts.unreadable.map(({ path }) => path));
  product.files = new Set([...files, ...(await openOnly(host, product, files))]);
  const isOther = [
    settings.isOther,
    dropDocuments(product, new Set(files.filter((path) => !unreadable.has(path)))),
    await takeDocuments(product, documents, parseAhead),
    takeOpenOnes(product),
    await readData(host, product, mayHaveChanged),
    await readEvidence(host, product),
  ].includes(true);
  return { isOther, texts, complaint: settings.complaint };
}

/**
 * Takes in the text that counts of one path after it changed in the editor, was opened or was closed.
 * @returns whether anything is other than it was
 */
export function takeAgain(product: OpenProduct, path: string): boolean {
  const { workspace, documents, data } = product;
  if (path === CONFIGURATION_FILE) return takeConfiguration(product);
  if (data.has(path)) workspace.setData(path, textThatCounts(product, path, data.get(path) ?? null));
  if (!product.files.has(path)) return data.has(path);
  const onDisk = documents.get(path);
  const text = product.overlay.textOf(path);
  if (text !== null) takeTyped(product, path, text);
  else if (onDisk === undefined) workspace.removeDocument(path);
  else takeFromDisk(product, onDisk);
  return true;
}

interface ReadSettings {
  readonly isOther: boolean;
  readonly complaint: string | null;
}

const UNCHANGED: ReadSettings = { isOther: false, complaint: null };

async function readConfiguration(host: Host, product: OpenProduct): Promise<ReadSettings> {
  const read = await host.readFile(pathIn(product.place.root, CONFIGURATION_FILE));
  if (read.type !== 'bytes' && read.type !== 'missing') {
    const reason = read.type === 'unreadable' ? read.reason : read.type;
    return { isOther: false, complaint: `${CONFIGURATION_FILE}: cannot be read: ${reason}` };
  }
  const decoded = read.type === 'missing' ? null : decodeText(read.bytes);
  if (decoded !== null && decoded.problem !== null)
    return { isOther: false, complaint: `${CONFIGURATION_FILE}: ${decoded.problem.message}` };
  const before = product.configuration;
  product.configuration = decoded?.text ?? null;
  const isOther = before !== product.configuration || product.overlay.textOf(CONFIGURATION_FILE) !== null;
  if (isOther) takeConfiguration(product);
  return { isOther, complaint: null };
}

function takeConfiguration(product: OpenProduct): boolean {
  product.workspace.setConfiguration(textThatCounts(product, CONFIGURATION_FILE, product.configuration));
  return true;
}

function textThatCounts({ overlay }: OpenProduct, path: string, onDisk: string | null): string | null {
  return overlay.textOf(path) ?? onDisk;
}

/** Takes in what was read; of a large product a part is parsed on another core meanwhile. */
async function takeDocuments(
  product: OpenProduct,
  documents: readonly DocumentText[],
  parseAhead: ParseAhead,
): Promise<boolean> {
  const ahead = parseAhead(documents);
  const elsewhere = new Set(ahead.documents);
  const here = documents.filter((document) => !elsewhere.has(document));
  const taken = here.map((document) => takeDocument(product, document));
  if (elsewhere.size > 0) product.workspace.read();
  const parsed = await ahead.parsed;
  const others = ahead.documents.map((document) => takeDocument(product, document, parsed.get(document.path)));
  return [...taken, ...others].includes(true);
}

/** Kept as the file's text; it counts only where the document is not open. */
function takeDocument(product: OpenProduct, document: DocumentText, parsed?: SectionCache): boolean {
  const { documents, overlay } = product;
  const { path, text, problem } = document;
  const known = documents.get(path);
  if (known !== undefined && known.text === text && known.problem?.message === problem?.message) return false;
  documents.set(path, document);
  if (overlay.textOf(path) !== null) return false;
  takeFromDisk(product, document, parsed);
  return true;
}

function takeFromDisk({ workspace }: OpenProduct, { path, text, problem }: DocumentText, parsed?: SectionCache): void {
  if (problem === null) workspace.setDocument(path, text, parsed);
  else workspace.setProblem(path, problem);
}

/** Open documents have their text in the editor, whatever was read of them meanwhile. */
function takeOpenOnes(product: OpenProduct): boolean {
  let isOther = false;
  for (const path of product.overlay.paths()) {
    const text = product.overlay.textOf(path);
    if (text === null || !product.files.has(path)) continue;
    isOther = takeTyped(product, path, text) || isOther;
  }
  return isOther;
}

function takeTyped({ workspace }: OpenProduct, path: string, text: string): boolean {
  const isOther = workspace.setDocument(path, text);
  workspace.expectEdits(path);
  return isOther;
}

function dropDocuments({ documents, workspace, overlay, files }: OpenProduct, onDisk: ReadonlySet<string>): boolean {
  let isOther = false;
  for (const path of [...documents.keys()]) if (!onDisk.has(path)) documents.delete(path);
  for (const path of workspace.documentPaths()) {
    const counts = documents.has(path) || (files.has(path) && overlay.textOf(path) !== null);
    if (counts) continue;
    workspace.removeDocument(path);
    isOther = true;
  }
  return isOther;
}

/** Documents that are open and have no file yet; what is ignored, or is another product's, has one. */
async function openOnly(host: Host, { place, workspace, overlay }: OpenProduct, listed: readonly string[]) {
  const isWanted = fileFilter(workspace.configuration);
  const known = new Set(listed);
  const found: string[] = [];
  for (const path of overlay.paths()) {
    if (known.has(path) || !isWanted(path)) continue;
    if ((await host.stat(pathIn(place.root, path))) === null) found.push(path);
  }
  return found;
}

/** The CSV files that tables read. */
async function readData(host: Host, product: OpenProduct, mayHaveChanged: (path: string) => boolean): Promise<boolean> {
  const { place, workspace, data } = product;
  let isOther = false;
  for (const path of [...[...data.keys()].filter(mayHaveChanged), ...workspace.missingData()]) {
    const read = await readDocument(host, place.root, path);
    const text = 'reason' in read || read.problem !== null ? null : read.text;
    if (data.has(path) && data.get(path) === text) continue;
    data.set(path, text);
    workspace.setData(path, textThatCounts(product, path, text));
    isOther = true;
  }
  return isOther;
}

/** Digests of the documents that requirements and runs point at; they are asked for each time, since nobody watches them. */
async function readEvidence(host: Host, { place, workspace, digests }: OpenProduct): Promise<boolean> {
  let isOther = false;
  for (const path of new Set([...digests.keys(), ...workspace.missingDigests()])) {
    const read = await host.readFile(pathIn(place.root, path), MOST_EVIDENCE_BYTES);
    const digest = digestOf(read);
    if (isSame(digests.get(path), digest)) continue;
    digests.set(path, digest);
    workspace.setDigest(path, digest);
    isOther = true;
  }
  return isOther;
}

/** Reports have pictures in them; a larger one is not read. */
const MOST_EVIDENCE_BYTES = 100_000_000;

function digestOf(read: FileRead): FileDigest {
  switch (read.type) {
    case 'bytes':
      return sha256(read.bytes);
    case 'missing':
      return null;
    case 'unreadable':
      return { unread: read.reason };
    case 'too-large': {
      const [megabytes, limit] = [Math.ceil(read.size / 100_000) / 10, MOST_EVIDENCE_BYTES / 1_000_000];
      return { unread: `it has ${megabytes} MB, more than the ${limit} MB that are read` };
    }
  }
}

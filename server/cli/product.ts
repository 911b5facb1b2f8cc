/** Finds, reads and judges the product of a folder for a command, and reads again what has changed of it. */
import { resolve } from 'node:path';
import type { ProductAnalysis } from '../findings/product-analysis';
import { type Host, pathIn } from '../host';
import { type DocumentText, findProduct, type ProductPlace, readDocument, readProduct } from '../host-files';
import { decodeText } from '../host-text';
import { CONFIGURATION_FILE } from '../model/configuration';
import { sha256 } from '../model/digest';
import type { SectionCache } from '../syntax/markdown/parse';
import { createProductWorkspace, type ProductWorkspace } from '../workspace';
import { type FileNotes, fileNotes } from './files';
import { withProgress } from './output';
import { parseAhead } from './parse-ahead';

export interface CheckedProduct {
  readonly result: ProductAnalysis;
  readonly name: string;
  /** Something could not be read; lines on standard error said what. */
  readonly incomplete: boolean;
}

/** Verdicts only, or also how far figures may move. */
export type Asked = 'verdicts' | 'ranges';

/** A product, and what was read of it. */
export interface OpenProduct {
  readonly place: ProductPlace;
  readonly workspace: ProductWorkspace;
  /** Its documents and data files as they were read last, by path; null for data files that are not there. */
  readonly documents: Map<string, DocumentText>;
  readonly data: Map<string, string | null>;
  /** SHA-256 of documents of evidence; null for those that cannot be read. */
  readonly digests: Map<string, string | null>;
  /** Null: there is none. */
  configuration: string | null;
  notes: FileNotes;
}

/** Reads and judges the product that holds the folder; null, and a line on standard error, where there is no such folder. */
export async function checkProduct(
  host: Host,
  dir: string,
  today: string,
  asked: Asked = 'ranges',
): Promise<CheckedProduct | null> {
  const product = await openProduct(host, dir);
  if (product === null) {
    process.stderr.write(`plimsoll: ${dir}: there is no such folder\n`);
    return null;
  }
  return withProgress(process.stderr, `reading ${product.place.root}`, async (report) => {
    await readAgain(host, product, null);
    report('judging');
    return judge(product, today, asked);
  });
}

/** The product that holds the folder, nothing of it read yet; null where there is no such folder. */
export async function openProduct(host: Host, dir: string): Promise<OpenProduct | null> {
  const place = await findProduct(host, resolve(dir).replaceAll('\\', '/'));
  if (place === null) return null;
  return {
    place,
    workspace: createProductWorkspace(),
    documents: new Map(),
    data: new Map(),
    digests: new Map(),
    configuration: null,
    notes: { lines: [], isIncomplete: false },
  };
}

/**
 * Reads files that are new or among those changed (null: any may have), and drops those that are gone. What could not be
 * read is said on standard error once.
 * @returns whether anything is other than it was
 */
export async function readAgain(
  host: Host,
  product: OpenProduct,
  changed: ReadonlySet<string> | null,
): Promise<boolean> {
  const { place, workspace, notes } = product;
  const mayHaveChanged = (path: string) => changed === null || changed.has(path);
  const settings = mayHaveChanged(CONFIGURATION_FILE) ? await readConfiguration(host, product) : UNCHANGED;
  const isKnown = (path: string) => !mayHaveChanged(path) && product.documents.has(path);
  const texts = await readProduct(host, place.root, workspace.configuration, isKnown);
  const isOther = [
    settings.isOther,
    dropDocuments(product, new Set(texts.files), new Set(texts.unreadable.map(({ path }) => path))),
    await takeDocuments(product, texts.documents),
    await readData(host, product, mayHaveChanged),
    await readEvidence(host, product),
  ].includes(true);
  const { lines, isIncomplete } = fileNotes(place, texts);
  const complaints = settings.complaint === null ? [] : [settings.complaint];
  product.notes = { lines: [...complaints, ...lines], isIncomplete: isIncomplete || complaints.length > 0 };
  for (const line of product.notes.lines) if (!notes.lines.includes(line)) process.stderr.write(`plimsoll: ${line}\n`);
  return isOther || notes.lines.join('\n') !== product.notes.lines.join('\n');
}

/** Judges what was read. `today`: ISO 8601. */
export function judge(
  { place, workspace, notes }: OpenProduct,
  today: string,
  asked: Asked = 'ranges',
): CheckedProduct {
  const result = workspace.analysis({ today, ranges: asked === 'ranges' });
  const name = workspace.configuration.product ?? result.analysis.product.title ?? folderName(place.root);
  return { result, name, incomplete: notes.isIncomplete };
}

interface ReadSettings {
  readonly isOther: boolean;
  readonly complaint: string | null;
}

const UNCHANGED: ReadSettings = { isOther: false, complaint: null };

async function readConfiguration(host: Host, product: OpenProduct): Promise<ReadSettings> {
  const read = await host.readFile(pathIn(product.place.root, CONFIGURATION_FILE));
  if (read.type === 'missing') return { isOther: takeConfiguration(product, null), complaint: null };
  if (read.type !== 'bytes') {
    const reason = read.type === 'unreadable' ? read.reason : read.type;
    return { isOther: false, complaint: `${CONFIGURATION_FILE}: cannot be read: ${reason}` };
  }
  const { text, problem } = decodeText(read.bytes);
  if (problem !== null) return { isOther: false, complaint: `${CONFIGURATION_FILE}: ${problem.message}` };
  return { isOther: takeConfiguration(product, text), complaint: null };
}

function takeConfiguration(product: OpenProduct, text: string | null): boolean {
  if (product.configuration === text) return false;
  product.configuration = text;
  product.workspace.setConfiguration(text);
  return true;
}

/** Takes in what was read; of a large product a part is parsed on another core meanwhile. */
async function takeDocuments(product: OpenProduct, documents: readonly DocumentText[]): Promise<boolean> {
  const ahead = parseAhead(documents);
  const elsewhere = new Set(ahead.documents);
  const here = documents.filter((document) => !elsewhere.has(document));
  const taken = here.map((document) => takeDocument(product, document));
  if (elsewhere.size > 0) product.workspace.read();
  const parsed = await ahead.parsed;
  const others = ahead.documents.map((document) => takeDocument(product, document, parsed.get(document.path)));
  return [...taken, ...others].includes(true);
}

function takeDocument({ documents, workspace }: OpenProduct, document: DocumentText, parsed?: SectionCache): boolean {
  const { path, text, problem } = document;
  const known = documents.get(path);
  if (known !== undefined && known.text === text && known.problem?.message === problem?.message) return false;
  documents.set(path, document);
  if (problem === null) workspace.setDocument(path, text, parsed);
  else workspace.setProblem(path, problem);
  return true;
}

function dropDocuments(
  { documents, workspace }: OpenProduct,
  files: ReadonlySet<string>,
  unreadable: ReadonlySet<string>,
): boolean {
  const gone = [...documents.keys()].filter((path) => !files.has(path) || unreadable.has(path));
  for (const path of gone) {
    documents.delete(path);
    workspace.removeDocument(path);
  }
  return gone.length > 0;
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
    workspace.setData(path, text);
    isOther = true;
  }
  return isOther;
}

/** Digests of the documents that requirements and runs point at; they are asked for each time, since nobody watches them. */
async function readEvidence(host: Host, { place, workspace, digests }: OpenProduct): Promise<boolean> {
  let isOther = false;
  for (const path of new Set([...digests.keys(), ...workspace.missingDigests()])) {
    const read = await host.readFile(pathIn(place.root, path), MOST_EVIDENCE_BYTES);
    const digest = read.type === 'bytes' ? sha256(read.bytes) : null;
    if (digests.get(path) === digest) continue;
    digests.set(path, digest);
    workspace.setDigest(path, digest);
    isOther = true;
  }
  return isOther;
}

/** Reports have pictures in them; a larger one is taken for missing. */
const MOST_EVIDENCE_BYTES = 100_000_000;

function folderName(root: string): string {
  return root.slice(root.lastIndexOf('/') + 1) || root;
}

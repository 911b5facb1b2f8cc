/** Markdown of a large product parsed on a second core while the first reads the rest. */
import { isMainThread, parentPort, Worker, workerData } from 'node:worker_threads';
import type { DocumentText } from '../host-files';
import { createSectionCache, parseMarkdown, type SectionCache } from '../syntax/markdown/parse';
import { plainBlocks } from '../syntax/markdown/plain-blocks';

/** Below this much text a second core is not worth its start, in characters. */
const WORTHWHILE = 1_000_000;
/** What the other core takes; this one has all the front matter to read as well. */
const SHARE = 0.7;
/** Only these documents have Markdown to parse. */
const HAS_REQUIREMENTS = /^requirements:/mu;

export interface Ahead {
  /** Documents that are parsed elsewhere. */
  readonly documents: readonly DocumentText[];
  /** What was parsed of them, by path; empty where the other core failed, so that they are parsed here. */
  readonly parsed: Promise<ReadonlyMap<string, SectionCache>>;
}

/** Starts parsing a part of the documents on another core; none of them where they are few. */
export function parseAhead(documents: readonly DocumentText[]): Ahead {
  const total = documents.reduce((sum, { text }) => sum + text.length, 0);
  if (total < WORTHWHILE) return { documents: [], parsed: Promise.resolve(new Map()) };
  const taken = documents.slice(Math.floor(documents.length * (1 - SHARE)));
  return { documents: taken, parsed: parseElsewhere(taken) };
}

function parseElsewhere(documents: readonly DocumentText[]): Promise<ReadonlyMap<string, SectionCache>> {
  return new Promise((done) => {
    const worker = new Worker(__filename, { workerData: documents.map(({ path, text }) => ({ path, text })) });
    worker.once('message', (parsed: ReadonlyMap<string, SectionCache>) => done(parsed));
    // A worker that fails costs time only: what it should have parsed is parsed here.
    worker.once('error', () => done(new Map()));
    worker.once('exit', () => done(new Map()));
  });
}

/** True in the thread that {@link parseAhead} started, after it has done its work. */
export function parsedAsWorker(): boolean {
  if (isMainThread) return false;
  const documents = workerData as readonly { readonly path: string; readonly text: string }[];
  parentPort?.postMessage(new Map(documents.map(({ path, text }) => [path, parsed(text)])));
  return true;
}

function parsed(text: string): SectionCache {
  const cache = createSectionCache();
  if (HAS_REQUIREMENTS.test(text)) parseMarkdown(text, { cache, isRelevant: needsParser });
  return cache;
}

/** What is read without the parser is read again in less time than it takes to hand it over. */
function needsParser(sectionText: string): boolean {
  return plainBlocks(sectionText, 0) === null;
}

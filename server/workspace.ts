/** The one door: the texts of a product in, its analysis and findings out. Both ends (command line and editors) come through here. */
import { type Analysis, analyse } from './engine/analysis';
import { createMemory, type LastWork, type Memory } from './engine/memory';
import { type RangeAnalysis, rangesInSteps, rangesOf } from './engine/ranges/ranges';
import { finished } from './engine/steps';
import { collectInSteps, createFindingMemory, type FindingMemory } from './findings/collect';
import type { Finding } from './findings/finding';
import type { ProductAnalysis } from './findings/product-analysis';
import {
  CONFIGURATION_FILE,
  type Configuration,
  defaultConfiguration,
  parseConfiguration,
} from './model/configuration';
import { type DocumentModel, readDocument } from './model/document';
import type { FileDigest } from './model/evidence-file';
import { headroomProblems } from './model/headroom';
import { heldDocument, isFrontMatterBroken } from './model/held';
import { type ProductUnits, productUnits } from './model/own-units';
import type { PlacedProblem } from './model/place';
import { joinDocuments, type Product, type Surroundings } from './model/product';
import type { DataFile } from './model/read-facts';
import { rejoined } from './model/rejoin';
import { anchoredDocument, retained } from './model/retained';
import { unanchored } from './syntax/anchor';
import type { CodeSpan } from './syntax/markdown/block';
import { codeSpansIn } from './syntax/markdown/code-spans';
import { createSectionCache, parseMarkdown, type SectionCache } from './syntax/markdown/parse';
import { type Problem, spanOf } from './syntax/span';

/** A product whose texts may change. */
export interface ProductWorkspace {
  /** Null: there is no plimsoll.yaml. */
  setConfiguration(text: string | null): void;
  /** Which files the configuration takes in. */
  readonly configuration: Configuration;
  /** False: it is the text that it had. `parsed`: its sections, where they were parsed elsewhere. */
  setDocument(path: string, text: string, parsed?: SectionCache): boolean;
  /** Reads the documents given so far; the analysis does so as well. */
  read(): void;
  /** A file that could not become text: its encoding, its size. */
  setProblem(path: string, problem: Problem): void;
  removeDocument(path: string): void;
  /**
   * The document will be typed in. Once what it says has been judged again, by the next analysis, all of it may move and
   * is not judged for that; else that is so of whatever has moved once.
   */
  expectEdits(path: string): void;
  /** Of the documents given, in order of code units; those that take no part as well. */
  documentPaths(): readonly string[];
  /** CSV files that tables read and that were not given yet, by their path below the product's folder. */
  missingData(): readonly string[];
  /** Null: there is no such file. */
  setData(path: string, text: string | null): void;
  /** Documents of evidence whose digest was not given yet, by their path below the product's folder. */
  missingDigests(): readonly string[];
  setDigest(path: string, digest: FileDigest): void;
  /** The whole product as it stands. */
  analysis(options?: AnalysisOptions): ProductAnalysis;
  /**
   * The same with how far figures may move, in steps, for whoever must not wait: between two steps the texts may change,
   * and then it is to be given up.
   */
  withRanges(whole: ProductAnalysis): Generator<void, ProductAnalysis>;
  /** What the last analysis worked out anew; null where everything is, each time. */
  readonly lastWork: LastWork | null;
  /** The product as it would be with these texts in place of its own; nothing of it changes. */
  analysisWith(texts: ReadonlyMap<string, string>, options?: AnalysisOptions): ProductAnalysis;
}

export interface WorkspaceOptions {
  /**
   * For texts that are being typed: while plimsoll.yaml or front matter cannot be read, what was last read of it stays
   * in force, and the findings say so.
   */
  readonly holdsLastGood: boolean;
  /** For products that are analysed again and again: what rests on nothing that changed is kept. */
  readonly keepsWork: boolean;
}

const ONCE: WorkspaceOptions = { holdsLastGood: false, keepsWork: false };

export interface AnalysisOptions {
  /** The day that waivers and evidence are held against, ISO 8601, UTC. */
  readonly today?: string;
  /** Also how far figures may move, and what is over-specified, unneeded and unused. */
  readonly ranges?: boolean;
}

/** A document with what was read of it, kept until its text or what its reading rests on changes. */
interface OpenDocument {
  readonly text: string;
  readonly problem: Problem | null;
  readonly cache: SectionCache;
  read: ReadModel | null;
  /**
   * As it was analysed last, under the same units: what of it is still said stays, and follows when the present text is
   * analysed. Null once it was, and where nothing is kept.
   */
  analysedBefore: DocumentModel | null;
  /** Null: it never could be read, or nothing is held. */
  lastGood: KnownGood | null;
  /** All that it says is anchored when it is analysed for the first time. */
  expectsEdits: boolean;
}

/** A text that could be read. */
interface KnownGood {
  readonly text: string;
  /** Null: what its reading rests on has changed since. */
  model: DocumentModel | null;
}

interface ReadModel {
  readonly model: DocumentModel | null;
  /** It was taken into an analysis, with what is still said as it was before. */
  readonly isAnalysed: boolean;
  readonly problems: readonly PlacedProblem[];
}

/** All that is known of a product; what is read of one document rests on its own text, the settings and the data files. */
interface State {
  readonly holdsLastGood: boolean;
  /** Null for a product that is analysed once. */
  readonly memory: Memory | null;
  readonly foundBefore: FindingMemory | null;
  /** As it was analysed last; null where nothing is kept. */
  lastProduct: Product | null;
  settings: Settings;
  /** The last without a mistake; null: there was none yet. */
  goodSettings: Settings | null;
  readonly documents: Map<string, OpenDocument>;
  readonly data: Map<string, string | null>;
  readonly digests: Map<string, FileDigest>;
}

export function createProductWorkspace(options: WorkspaceOptions = ONCE): ProductWorkspace {
  const state: State = {
    holdsLastGood: options.holdsLastGood,
    memory: options.keepsWork ? createMemory() : null,
    foundBefore: options.keepsWork ? createFindingMemory() : null,
    lastProduct: null,
    settings: readSettings(null),
    goodSettings: null,
    documents: new Map(),
    data: new Map(),
    digests: new Map(),
  };
  return {
    setConfiguration: (text) => {
      forgetModels(state, false);
      state.settings = nextSettings(state, text);
    },
    get configuration() {
      return state.settings.configuration;
    },
    read: () => {
      modelsOf(state);
    },
    setDocument: (path, text, parsed) => setText(state, path, text, parsed),
    setProblem: (path, problem) => {
      state.documents.set(path, {
        text: '',
        problem,
        cache: createSectionCache(),
        read: null,
        analysedBefore: null,
        lastGood: null,
        expectsEdits: false,
      });
    },
    removeDocument: (path) => {
      state.documents.delete(path);
    },
    expectEdits: (path) => expectEdits(state, path),
    documentPaths: () => [...state.documents.keys()].sort(),
    missingData: () =>
      [...new Set(modelsOf(state).flatMap(({ dataFiles }) => dataFiles.map(({ path }) => path)))].filter(
        (path) => !state.data.has(path),
      ),
    setData: (path, text) => {
      state.data.set(path, text);
      forgetModels(state, true);
    },
    missingDigests: () => evidencePaths(modelsOf(state)).filter((path) => !state.digests.has(path)),
    setDigest: (path, digest) => {
      state.digests.set(path, digest);
    },
    get lastWork() {
      return state.memory?.lastWork ?? null;
    },
    withRanges: (whole) => addRanges(state, whole),
    analysisWith: (texts, options) => analyseWith(state, texts, options?.today ?? null),
    analysis: (options) => analyseProduct(state, options?.today ?? null, options?.ranges ?? false),
  };
}

function setText(state: State, path: string, text: string, parsed: SectionCache | undefined): boolean {
  const known = state.documents.get(path);
  if (known?.text === text && known.problem === null) return false;
  const cache = parsed ?? known?.cache ?? createSectionCache();
  const lastGood = known === undefined ? null : lastGoodOf(state, known);
  const analysedBefore = known === undefined ? null : analysedLast(known);
  const expectsEdits = known?.expectsEdits ?? false;
  state.documents.set(path, { text, problem: null, cache, read: null, analysedBefore, lastGood, expectsEdits });
  return true;
}

function expectEdits({ memory, documents }: State, path: string): void {
  const document = documents.get(path);
  if (document === undefined || document.expectsEdits || memory === null) return;
  document.expectsEdits = true;
  const { read } = document;
  if (read?.isAnalysed && read.model !== null) document.read = { ...read, model: anchoredDocument(read.model) };
}

/** What was read since and never analysed is of no use. */
function analysedLast({ read, analysedBefore }: OpenDocument): DocumentModel | null {
  return read?.isAnalysed ? read.model : analysedBefore;
}

/** @param keepsParts whether what is still said as before stays the object that it was */
function forgetModels(state: State, keepsParts: boolean): void {
  for (const document of state.documents.values()) {
    const good = lastGoodOf(state, document);
    document.lastGood = good && { text: good.text, model: null };
    document.analysedBefore = keepsParts ? analysedLast(document) : null;
    document.read = null;
  }
}

interface Settings {
  readonly text: string;
  readonly configuration: Configuration;
  readonly units: ProductUnits;
  readonly problems: readonly Problem[];
}

function readSettings(text: string | null): Settings {
  if (text === null) {
    const configuration = defaultConfiguration();
    return { text: '', configuration, units: productUnits(configuration), problems: [] };
  }
  const { configuration, problems } = parseConfiguration(text);
  const units = productUnits(configuration);
  return {
    text,
    configuration,
    units,
    problems: [...problems, ...units.problems, ...headroomProblems(configuration, units.table)],
  };
}

/** Mistakes are reported where they are; while there are some, the settings that had none stay in force. */
function nextSettings(state: State, text: string | null): Settings {
  const read = readSettings(text);
  if (read.problems.length === 0) state.goodSettings = read;
  const { holdsLastGood, goodSettings } = state;
  return holdsLastGood && goodSettings !== null ? { ...goodSettings, text: read.text, problems: read.problems } : read;
}

/** What may be held of a document once its text is another. */
function lastGoodOf({ holdsLastGood }: State, { text, read, lastGood }: OpenDocument): KnownGood | null {
  if (!holdsLastGood) return null;
  if (read === null || read.model?.held === true || isFrontMatterBroken(text, read.model)) return lastGood;
  // Front matter that could be read and gave the file no part left nothing that could be held.
  return read.model === null ? null : { text, model: read.model };
}

function analyseProduct(state: State, today: string | null, withRanges: boolean): ProductAnalysis {
  const { digests } = state;
  const product = joined(state, { today, digests });
  const analysis = state.memory === null ? analyse(product) : state.memory.analyse(product);
  return finished(judged(state, analysis, withRanges ? rangesOf(analysis) : null, today));
}

/** Where work is kept, what no changed document says is taken over from the product as it was last. */
function joined(state: State, surroundings: Surroundings): Product {
  const { configuration, units } = state.settings;
  const models = state.memory === null ? modelsOf(state) : keptModelsOf(state);
  const { lastProduct } = state;
  const isSameGround = lastProduct?.configuration === configuration && lastProduct.units === units.table;
  const product =
    (isSameGround ? rejoined(lastProduct, models, surroundings) : null) ??
    joinDocuments(models, configuration, units, surroundings);
  if (state.memory !== null) state.lastProduct = product;
  return product;
}

function analyseWith(state: State, texts: ReadonlyMap<string, string>, today: string | null): ProductAnalysis {
  const configuration = texts.get(CONFIGURATION_FILE);
  const settings = configuration === undefined ? state.settings : readSettings(configuration);
  const documents = new Map(
    [...state.documents].map(([path, document]): [string, OpenDocument] => {
      const text = texts.get(path) ?? document.text;
      const isSame = text === document.text && settings === state.settings;
      if (isSame) return [path, document];
      // Under another configuration it would be read otherwise, and the product itself is to know nothing of that.
      const lastGood = document.lastGood && { text: document.lastGood.text, model: null };
      return [path, { ...document, text, cache: createSectionCache(), read: null, analysedBefore: null, lastGood }];
    }),
  );
  const data = new Map([...state.data].map(([path, text]) => [path, texts.get(path) ?? text]));
  return analyseProduct(
    { ...state, memory: null, foundBefore: null, lastProduct: null, settings, documents, data },
    today,
    false,
  );
}

function* addRanges(state: State, { analysis, today }: ProductAnalysis): Generator<void, ProductAnalysis> {
  const ranges = yield* rangesInSteps(analysis);
  return yield* judged(state, analysis, ranges, today);
}

function* judged(
  state: State,
  analysis: Analysis,
  ranges: RangeAnalysis | null,
  today: string | null,
): Generator<void, ProductAnalysis> {
  const { settings, foundBefore } = state;
  const byFile = yield* collectInSteps(analysis, problemsOutside(state), ranges, foundBefore ?? createFindingMemory());
  let findings: readonly Finding[] | null = null;
  const texts = textsOf(state);
  return {
    analysis,
    byFile,
    get findings() {
      findings ??= [...byFile.values()].flat();
      return findings;
    },
    ranges,
    texts,
    codeSpansOf: (file) => codeSpansOf(texts.get(file) ?? '', state.documents.get(file)?.cache ?? createSectionCache()),
    badConfiguration: settings.problems.length > 0,
    today,
  };
}

/** What was parsed already is not parsed again, whether the text is still that of the document or not. */
function codeSpansOf(text: string, cache: SectionCache): readonly CodeSpan[] {
  if (!text.includes('`')) return [];
  return codeSpansIn(parseMarkdown(text, { cache }).sections.flatMap(({ blocks }) => blocks));
}

/** Of the configuration, and of files that could not become documents. */
function problemsOutside({ settings, documents }: State): readonly PlacedProblem[] {
  const outside: PlacedProblem[] = settings.problems.map((problem) => ({ ...problem, file: CONFIGURATION_FILE }));
  for (const [path, { problem, read }] of documents) {
    if (problem !== null) outside.push({ ...problem, file: path });
    outside.push(...(read?.problems ?? []));
  }
  return outside;
}

function textsOf({ settings, documents, data }: State): ReadonlyMap<string, string> {
  const texts = new Map([...documents].map(([path, { text }]) => [path, text]));
  for (const [path, text] of data) texts.set(path, text ?? '');
  return texts.set(CONFIGURATION_FILE, settings.text);
}

/** What requirements point at as evidence, and what runs kept the digest of. */
function evidencePaths(models: readonly DocumentModel[]): readonly string[] {
  const linked = models.flatMap(({ evidenceFiles }) => evidenceFiles.flatMap(({ path }) => path ?? []));
  const runs = models.flatMap(({ verifications }) => verifications.flatMap((record) => record.runs));
  return [...new Set([...linked, ...runs.flatMap(({ documents }) => [...documents.keys()])])];
}

/** What is read of every document that takes part, in file order. */
function modelsOf(state: State): readonly DocumentModel[] {
  const paths = [...state.documents.keys()].sort();
  return paths.flatMap((path) => {
    const document = state.documents.get(path) as OpenDocument;
    document.read ??= readGuarded(path, document, state);
    return document.read.model === null ? [] : [document.read.model];
  });
}

/**
 * The same with whatever was said before as the objects that were analysed then. It moves them to their places in the
 * present texts, so it is asked only for an analysis that takes the place of the last one.
 */
function keptModelsOf(state: State): readonly DocumentModel[] {
  modelsOf(state);
  for (const document of state.documents.values()) if (document.read?.isAnalysed === false) keep(state, document);
  return modelsOf(state);
}

function keep(state: State, document: OpenDocument): void {
  const { read, analysedBefore, lastGood, expectsEdits } = document;
  const isNeeded = lastGood !== null && lastGoodOf(state, document) === lastGood;
  document.lastGood = isNeeded ? unanchored(lastGood) : null;
  document.analysedBefore = null;
  if (read === null) return;
  const isFirst = analysedBefore === null && expectsEdits;
  const model = read.model && (isFirst ? anchoredDocument(read.model) : retained(analysedBefore, read.model));
  document.read = { ...read, model, isAnalysed: true };
}

/** A mistake of ours in one document is confessed there, and the rest is read. */
function readGuarded(path: string, document: OpenDocument, state: State): ReadModel {
  const isAnalysed = false;
  if (document.problem !== null) return { model: null, isAnalysed, problems: [] };
  try {
    const model = readOne(path, document, state);
    return {
      model,
      isAnalysed,
      problems: (model?.dataFiles ?? [])
        .filter((file) => state.data.get(file.path) === null)
        .map((file) => noSuchFile(path, file)),
    };
  } catch (error) {
    const message = `this file could not be read because of a mistake in the program: ${error instanceof Error ? error.message : String(error)}`;
    return { model: null, isAnalysed, problems: [{ code: 'internal', message, span: spanOf(0, 0), file: path }] };
  }
}

function readOne(path: string, document: OpenDocument, { settings, data }: State): DocumentModel | null {
  const { text, cache, lastGood: good } = document;
  const modes = new Set(settings.configuration.modes.map((mode) => mode.text));
  const known = new Map([...data].flatMap(([file, content]) => (content === null ? [] : [[file, content] as const])));
  const context = { units: settings.units.table, modes, data: known };
  const model = readDocument(path, text, context, cache);
  if (good === null || !isFrontMatterBroken(text, model)) return model;
  good.model ??= readDocument(path, good.text, context, createSectionCache());
  return good.model === null ? model : heldDocument(path, text, model, { text: good.text, model: good.model });
}

function noSuchFile(path: string, { path: missing, span }: DataFile): PlacedProblem {
  return {
    code: 'bad-value',
    message: `rows are read from ${missing}, and there is no such file in the product`,
    span,
    file: path,
  };
}

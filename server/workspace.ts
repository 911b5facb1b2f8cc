/** The one door: the texts of a product in, its analysis and findings out. Both ends (command line and editors) come through here. */
import { analyse } from './engine/analysis';
import { collectFindings } from './findings/collect';
import type { ProductAnalysis } from './findings/product-analysis';
import {
  CONFIGURATION_FILE,
  type Configuration,
  defaultConfiguration,
  parseConfiguration,
} from './model/configuration';
import { type DocumentModel, readDocument } from './model/document';
import { type ProductUnits, productUnits } from './model/own-units';
import type { PlacedProblem } from './model/place';
import { joinDocuments } from './model/product';
import { createSectionCache, type SectionCache } from './syntax/markdown/parse';
import { type Problem, spanOf } from './syntax/span';

/** A product whose texts may change. */
export interface ProductWorkspace {
  /** Null: there is no plimsoll.yaml. */
  setConfiguration(text: string | null): void;
  /** Which files the configuration takes in. */
  readonly configuration: Configuration;
  setDocument(path: string, text: string): void;
  /** A file that could not become text: its encoding, its size. */
  setProblem(path: string, problem: Problem): void;
  removeDocument(path: string): void;
  /** The whole product as it stands. */
  analysis(): ProductAnalysis;
}

interface OpenDocument {
  readonly text: string;
  readonly problem: Problem | null;
  readonly cache: SectionCache;
}

export function createProductWorkspace(): ProductWorkspace {
  const documents = new Map<string, OpenDocument>();
  let settings = readSettings(null);
  return {
    setConfiguration: (text) => {
      settings = readSettings(text);
    },
    get configuration() {
      return settings.configuration;
    },
    setDocument: (path, text) => {
      documents.set(path, { text, problem: null, cache: documents.get(path)?.cache ?? createSectionCache() });
    },
    setProblem: (path, problem) => {
      documents.set(path, { text: '', problem, cache: createSectionCache() });
    },
    removeDocument: (path) => {
      documents.delete(path);
    },
    analysis: () => analyseProduct(settings, documents),
  };
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
  return { text, configuration, units, problems: [...problems, ...units.problems] };
}

function analyseProduct(settings: Settings, documents: ReadonlyMap<string, OpenDocument>): ProductAnalysis {
  const outside: PlacedProblem[] = settings.problems.map((problem) => ({ ...problem, file: CONFIGURATION_FILE }));
  const models: DocumentModel[] = [];
  for (const path of [...documents.keys()].sort()) {
    const document = documents.get(path) as OpenDocument;
    if (document.problem !== null) outside.push({ ...document.problem, file: path });
    else {
      const model = guarded(path, outside, () => readOne(path, document, settings));
      if (model !== null) models.push(model);
    }
  }
  const product = joinDocuments(models, settings.configuration, settings.units);
  const analysis = analyse(product);
  const texts = new Map([...documents].map(([path, { text }]) => [path, text]));
  texts.set(CONFIGURATION_FILE, settings.text);
  return {
    analysis,
    findings: collectFindings(analysis, models, outside),
    texts,
    badConfiguration: settings.problems.length > 0,
  };
}

function readOne(
  path: string,
  { text, cache }: OpenDocument,
  { units, configuration }: Settings,
): DocumentModel | null {
  const modes = new Set(configuration.modes.map((mode) => mode.text));
  return readDocument(path, text, { units: units.table, modes }, cache);
}

/** A mistake of ours in one document is confessed there, and the rest is read. */
function guarded<Result>(file: string, problems: PlacedProblem[], work: () => Result): Result | null {
  try {
    return work();
  } catch (error) {
    const message = `this file could not be read because of a mistake in the program: ${error instanceof Error ? error.message : String(error)}`;
    problems.push({ code: 'internal', message, span: spanOf(0, 0), file });
    return null;
  }
}

/** The configuration of a product: plimsoll.yaml, read key by key, with the default for each key that is not given. */
import { type Problem, spanOf } from '../syntax/span';
import { parseYaml } from '../syntax/yaml';
import type { YamlEntry, YamlNode } from '../syntax/yaml-node';
import { CONFIGURATION_PROBLEM, problem, problemsOfEntry, unknownKey } from './configuration-problems';
import { CONFIGURATION_SHAPE, type ConfigurationKey, type ConfigurationValue } from './configuration-schema';

export type { ConfigurationText } from './configuration-reading';
export type { OptionChoice } from './configuration-schema';

/** The name of the configuration file; the folder that holds it is a product. */
export const CONFIGURATION_FILE = 'plimsoll.yaml';

type Values = { readonly [K in ConfigurationKey]: ConfigurationValue<K> };

/** All keys with a value; `product` is null when no name is given. */
export type Configuration = Omit<Values, 'product'> & { readonly product: string | null };

export interface ReadConfiguration {
  readonly configuration: Configuration;
  readonly problems: readonly Problem[];
}

const DEFAULTS: Configuration = {
  product: null,
  phase: 'design',
  include: ['**/*.md'],
  exclude: [],
  baseline: 'HEAD',
  headroom: { text: '100 %', scalar: null },
  severity: new Map(),
  units: new Map(),
  modes: [],
  scales: new Map(),
  choose: new Map(),
  totals: new Map(),
  interfaces: new Map(),
};

/** The configuration of a product without plimsoll.yaml. */
export function defaultConfiguration(): Configuration {
  return DEFAULTS;
}

/** Reads the text of plimsoll.yaml; whatever is wrong in it, the YAML included, is a `bad-configuration` problem. */
export function parseConfiguration(text: string): ReadConfiguration {
  const { root, problems } = parseYaml(text, spanOf(0, text.length));
  const read = readConfiguration(root);
  const ofYaml = problems.map((each) => ({ ...each, code: CONFIGURATION_PROBLEM }));
  return { ...read, problems: [...ofYaml, ...read.problems].sort((a, b) => a.span.start - b.span.start) };
}

/**
 * Reads the tree of plimsoll.yaml (null or an empty scalar: an empty file). A key with a mistake keeps its default, and
 * each mistake is a `bad-configuration` problem at its key or value, in text order.
 */
export function readConfiguration(root: YamlNode | null): ReadConfiguration {
  if (root === null || (root.type === 'scalar' && root.style === 'empty'))
    return { configuration: DEFAULTS, problems: [] };
  if (root.type !== 'map') {
    return { configuration: DEFAULTS, problems: [problem('the configuration is a mapping: key: value', root.span)] };
  }
  const values: Partial<Record<ConfigurationKey, unknown>> = {};
  const problems: Problem[] = [];
  for (const entry of root.entries) {
    const read = readEntry(entry);
    problems.push(...read.problems);
    if (read.key !== null && values[read.key] === undefined) values[read.key] = read.value;
  }
  problems.sort((a, b) => a.span.start - b.span.start);
  // The schema of each key has just been applied to its value.
  return { configuration: { ...DEFAULTS, ...(values as Partial<Configuration>) }, problems };
}

interface ReadEntry {
  /** Null when nothing could be read. */
  readonly key: ConfigurationKey | null;
  readonly value: unknown;
  readonly problems: readonly Problem[];
}

function readEntry(entry: YamlEntry): ReadEntry {
  const { key } = entry;
  if (!isConfigurationKey(key)) return { key: null, value: null, problems: [unknownKey(entry, KEYS, '')] };
  const result = CONFIGURATION_SHAPE[key].safeParse(entry.value, { reportInput: false });
  if (result.success) return { key, value: result.data, problems: [] };
  return { key: null, value: null, problems: problemsOfEntry(entry, result.error.issues) };
}

const KEYS = Object.keys(CONFIGURATION_SHAPE) as readonly ConfigurationKey[];

function isConfigurationKey(key: string): key is ConfigurationKey {
  return KEYS.some((known) => known === key);
}

/** A run appended to a record of verification: what it proved and what it was held against are filled in, and nothing else of the text changes. */
import type { Analysis, RequirementResult } from '../engine/analysis';
import { factNamed, fits } from '../engine/evidence/measured';
import { outwardText } from '../engine/evidence/rounding';
import { statementDigest } from '../engine/evidence/text-digest';
import { atRoot } from '../engine/lowering/environment';
import { nearestNames } from '../engine/lowering/names';
import { SHOWN_DIGITS } from '../model/digest';
import type { Content } from '../model/fact';
import { nearestWords } from '../model/nearest';
import type { RunResult, Verification } from '../model/verification';
import { methodsOf } from '../model/verify-methods';
import { type NamedText, readWrittenValue } from '../model/written-value';
import { formatValue } from '../quantity/format';
import type { SimpleValue } from '../quantity/value';
import { type YamlPairs, yamlText } from './run-yaml';

/** What a person says of a run. */
export interface RunRequest {
  readonly id: string;
  readonly result: RunResult;
  /** ISO 8601. */
  readonly date: string;
  readonly article: string | null;
  readonly measured: readonly NamedText[];
  readonly at: readonly NamedText[];
}

/** A run as it is written: keys in their order, each with a value in YAML or with pairs of them. */
export interface FilledRun {
  readonly record: Verification;
  readonly entries: readonly RunEntry[];
  /** What its author should know: requirements of which nothing could be recorded. */
  readonly notes: readonly string[];
}

export type RunEntry =
  | { readonly key: string; readonly text: string }
  | { readonly key: string; readonly pairs: YamlPairs };

/** The run with all that the tool knows of it; or why it cannot be recorded. */
export function filledRun(analysis: Analysis, request: RunRequest): FilledRun | { readonly mistake: string } {
  const record = analysis.product.verifications.get(request.id);
  if (record === undefined) return { mistake: noSuchRecord(analysis, request.id) };
  if (analysis.product.duplicateVerifications.has(record.id))
    return { mistake: `${record.id} is recorded more than once; which one is meant?` };
  const measured = readValues(analysis, request.measured, record.file);
  const at = readValues(analysis, request.at, record.file);
  if ('mistake' in measured) return measured;
  if ('mistake' in at) return at;
  const results = verifiedBy(analysis, record);
  const documents = documentsOf(analysis, results);
  if ('mistake' in documents) return documents;
  const decided = results.filter(({ verdict }) => verdict !== 'undecided');
  const all: readonly RunEntry[] = [
    { key: 'date', text: request.date },
    { key: 'result', text: request.result },
    ...(request.article === null ? [] : [{ key: 'article', text: yamlText(request.article) }]),
    { key: 'measured', pairs: measured.pairs },
    { key: 'at', pairs: at.pairs },
    { key: 'proved', pairs: provedBy(decided) },
    { key: 'against', pairs: againstOf(analysis, decided) },
    { key: 'evidence', pairs: documents.pairs },
  ];
  const entries = all.filter((entry) => 'text' in entry || entry.pairs.length > 0);
  return { record, entries, notes: notesOf(record, results) };
}

function noSuchRecord({ product }: Analysis, id: string): string {
  const [nearest] = nearestWords(id, product.verifications.keys());
  const known = [...product.verifications.keys()].slice(0, 6).join(', ');
  const hint = nearest !== undefined ? `; the nearest is ${nearest}` : known === '' ? '' : `; there are ${known}`;
  return `there is no record ${id} in the product${hint}`;
}

type ReadPairs = { readonly pairs: YamlPairs } | { readonly mistake: string };

function readValues(analysis: Analysis, given: readonly NamedText[], file: string): ReadPairs {
  const pairs: (readonly [string, string])[] = [];
  for (const { name, value } of given) {
    const named = factNamed(analysis.product, name);
    if (named === null) return { mistake: noSuchFact(analysis, name, file) };
    const read = readWrittenValue(analysis.product, value);
    if ('mistake' in read) return { mistake: `${name}: ${read.mistake}` };
    if (!fits(analysis.lowering, named, read.value))
      return { mistake: `${name} cannot be ${value}: it has another unit or is another kind of value in the design` };
    if (pairs.some(([known]) => known === name)) return { mistake: `${name} is given twice` };
    pairs.push([name, valueYaml(read.value)]);
  }
  return { pairs };
}

function noSuchFact({ lowering }: Analysis, name: string, file: string): string {
  const [nearest] = nearestNames(lowering, name, atRoot(file, null));
  return `${name} is no fact of the design${nearest === undefined ? '' : `; the nearest is ${nearest}`}`;
}

/** Linked from either side. */
function verifiedBy({ product, requirements }: Analysis, record: Verification): readonly RequirementResult[] {
  const named = new Set(record.verifies.map(({ text }) => text));
  return requirements.filter(({ requirement, verdict }) => {
    if (verdict === 'not applicable') return false;
    const { methods } = methodsOf(requirement, (word) => product.verifications.has(word));
    return named.has(requirement.id) || methods.some(({ records }) => records.includes(record.id));
  });
}

function provedBy(results: readonly RequirementResult[]): YamlPairs {
  const pairs = new Map<string, string>();
  const digests: string[] = [];
  for (const { requirement, basis, criteria } of results) {
    if (basis === 'evidence') digests.push(yamlText(statementDigest(requirement).slice(0, SHOWN_DIGITS)));
    for (const { criterion, figures, verdict } of criteria) {
      const text = figures === null ? (verdict === 'met' ? 'yes' : 'no') : outwardText(figures.value, figures.unit);
      pairs.set(criterion.text, text);
    }
  }
  const [only] = digests;
  if (only !== undefined) pairs.set('statement', digests.length === 1 ? only : `[${digests.join(', ')}]`);
  return [...pairs];
}

/** The given figures that the criteria rest on, in the order of their names in the design. */
function againstOf({ product }: Analysis, results: readonly RequirementResult[]): YamlPairs {
  const used = new Set(results.flatMap(({ criteria }) => criteria.flatMap(({ uses }) => [...uses])));
  return [...product.facts.values()].flatMap(({ name, content }) => (used.has(name) ? givenPairs(name, content) : []));
}

function givenPairs(name: string, content: Content): YamlPairs {
  if (content.type === 'value') return [[name, valueYaml(content.value)]];
  if (content.type !== 'modes') return [];
  return [...content.modes].flatMap(([mode, value]) => givenPairs(`${name}.${mode}`, value));
}

function valueYaml(value: SimpleValue): string {
  switch (value.type) {
    case 'quantity':
      return formatValue(value);
    case 'text':
      return JSON.stringify(value.text);
    case 'boolean':
      return value.boolean ? 'yes' : 'no';
    case 'set':
      return `[${value.items.map(valueYaml).join(', ')}]`;
  }
}

function documentsOf({ product }: Analysis, results: readonly RequirementResult[]): ReadPairs {
  const ids = new Set(results.map(({ requirement }) => requirement.id));
  const pairs = new Map<string, string>();
  for (const { requirement, path, destination } of product.evidenceFiles) {
    if (path === null || !ids.has(requirement)) continue;
    const digest = product.surroundings.digests.get(path) ?? null;
    if (digest === null)
      return { mistake: `${requirement} points at ${destination} as evidence, and there is no such file` };
    pairs.set(path, digest);
  }
  return { pairs: [...pairs].map(([path, digest]) => [path, yamlText(digest)]) };
}

function notesOf({ id }: Verification, results: readonly RequirementResult[]): readonly string[] {
  if (results.length === 0) return [`${id} verifies no requirement of the product, so that the run proves nothing yet`];
  const undecided = results.flatMap(({ requirement, verdict }) => (verdict === 'undecided' ? [requirement.id] : []));
  if (undecided.length === 0) return [];
  const are = undecided.length === 1 ? 'is' : 'are';
  return [
    `${undecided.join(', ')} ${are} undecided: recorded without what the run proved of ${undecided.length === 1 ? 'it' : 'them'}`,
  ];
}

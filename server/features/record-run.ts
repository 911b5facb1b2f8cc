/** A run appended to a record of verification: what it proved and what it was held against are filled in, and nothing else of the text changes. */
import type { Analysis, RequirementResult } from '../engine/analysis';
import { factNamed, fits } from '../engine/evidence/measured';
import { atRoot } from '../engine/lowering/environment';
import { nearestNames } from '../engine/lowering/names';
import { whyNoDigest } from '../model/evidence-file';
import { nearestWords } from '../model/nearest';
import type { RunResult, Verification } from '../model/verification';
import { methodsOf } from '../model/verify-methods';
import { type NamedText, readWrittenValue } from '../model/written-value';
import { againstOf, provedBy, valueYaml } from './run-proof';
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
  const proved = provedBy(decided);
  const all: readonly RunEntry[] = [
    { key: 'date', text: request.date },
    { key: 'result', text: request.result },
    ...(request.article === null ? [] : [{ key: 'article', text: yamlText(request.article) }]),
    { key: 'measured', pairs: measured.pairs },
    { key: 'at', pairs: at.pairs },
    { key: 'proved', pairs: proved.pairs },
    { key: 'against', pairs: againstOf(analysis, decided) },
    { key: 'evidence', pairs: documents.pairs },
  ];
  const entries = all.filter((entry) => 'text' in entry || entry.pairs.length > 0);
  return { record, entries, notes: [...notesOf(record, request, results), ...proved.notes] };
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

function documentsOf({ product }: Analysis, results: readonly RequirementResult[]): ReadPairs {
  const ids = new Set(results.map(({ requirement }) => requirement.id));
  const pairs = new Map<string, string>();
  for (const { requirement, path, destination } of product.evidenceFiles) {
    if (path === null || !ids.has(requirement)) continue;
    const digest = product.surroundings.digests.get(path) ?? null;
    if (typeof digest !== 'string')
      return { mistake: `${requirement} points at ${destination} as evidence, ${whyNoDigest(digest)}` };
    pairs.set(path, digest);
  }
  return { pairs: [...pairs].map(([path, digest]) => [path, JSON.stringify(digest)]) };
}

function notesOf(
  { id, runs }: Verification,
  { date }: RunRequest,
  results: readonly RequirementResult[],
): readonly string[] {
  const notes: string[] = [];
  if (runs.some((run) => run.date === date))
    notes.push(`${id} has another run of ${date}; of runs on one day the last in the file counts`);
  if (runs.some((run) => run.date > date))
    notes.push(`${id} has a run later than ${date}, which is the one that counts`);
  if (results.length === 0)
    notes.push(`${id} verifies no requirement of the product, so that the run proves nothing yet`);
  const undecided = results.flatMap(({ requirement, verdict }) => (verdict === 'undecided' ? [requirement.id] : []));
  const [are, them] = undecided.length === 1 ? ['is', 'it'] : ['are', 'them'];
  if (undecided.length > 0)
    notes.push(`${undecided.join(', ')} ${are} undecided: recorded without what the run proved of ${them}`);
  return notes;
}

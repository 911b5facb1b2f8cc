/** What the schema of plimsoll.yaml has against it, as problems that point at the key or value concerned. */
import type * as z from 'zod';
import { type Problem, type Span, spanOf } from '../syntax/span';
import type { YamlEntry, YamlMap, YamlNode } from '../syntax/yaml-node';
import { type IssueDetails, KEY_SEPARATOR } from './configuration-reading';
import { nearestWords } from './nearest';

/** The finding that every problem of plimsoll.yaml is. */
export const CONFIGURATION_PROBLEM = 'bad-configuration';

type Issue = z.core.$ZodIssue;
type Path = readonly PropertyKey[];

/** The problems of the value of one top-level key. `entry` is the key as written. */
export function problemsOfEntry(entry: YamlEntry, issues: readonly Issue[]): readonly Problem[] {
  return problemsBelow(entry, [], issues);
}

/** A key that means nothing where it stands. */
export function unknownKey(entry: YamlEntry, known: readonly string[], where: string): Problem {
  const meant = nearestWords(entry.key, known)[0] ?? null;
  const advice = meant === null ? `the keys are ${known.join(', ')}` : `did you mean “${meant}”?`;
  return problem(`${where}unknown key “${entry.key}”: ${advice}`, entry.keySpan, meant);
}

/** A problem of the configuration; `replacement` is the text that would be right at the span. */
export function problem(message: string, span: Span, replacement: string | null = null): Problem {
  if (replacement === null) return { code: CONFIGURATION_PROBLEM, message, span };
  const fix = { title: `Write ${replacement}`, edits: [{ span, text: replacement }] };
  return { code: CONFIGURATION_PROBLEM, message, span, fix };
}

function problemsBelow(entry: YamlEntry, above: Path, issues: readonly Issue[]): readonly Problem[] {
  const misspelt = new Set(issues.filter(({ code }) => code === 'unrecognized_keys').map(({ path }) => keyOf(path)));
  // A key that is missing because it is misspelt is one mistake, not two.
  const isEcho = ({ path }: Issue) =>
    misspelt.has(keyOf(path.slice(0, -1))) && nodeAt(entry, [...above, ...path]) === undefined;
  return issues.filter((issue) => !isEcho(issue)).flatMap((issue) => problemsOf(entry, above, issue));
}

function problemsOf(entry: YamlEntry, above: Path, issue: Issue): readonly Problem[] {
  const path = [...above, ...issue.path];
  if (issue.code === 'invalid_union') return problemsBelow(entry, path, branchOf(entry, path, issue));
  if (issue.code === 'unrecognized_keys') return unknownKeys(entry, path, issue);
  if (issue.code === 'invalid_type') return [wrongShape(entry, path, issue.expected)];
  const details = issue.code === 'custom' ? (issue.params as IssueDetails | undefined) : undefined;
  const { key, span } = placeOf(entry, path);
  const where = details?.onKey && key !== null ? key : span;
  const message = `${nameOf(entry, details?.onKey ? path.slice(0, -1) : path)}: ${issue.message}`;
  return [problem(message, where, details?.replacement ?? null)];
}

/** Of a value that may be a text or a mapping, the complaints about the form that was written. */
function branchOf(entry: YamlEntry, path: Path, issue: z.core.$ZodIssueInvalidUnion): readonly Issue[] {
  const node = nodeAt(entry, path);
  return (node?.type === 'map' ? issue.errors.at(-1) : issue.errors[0]) ?? [];
}

function unknownKeys(entry: YamlEntry, path: Path, issue: z.core.$ZodIssueUnrecognizedKeys): readonly Problem[] {
  const node = nodeAt(entry, path);
  if (node?.type !== 'map') return [];
  const written = node.entries.filter(({ key }) => issue.keys.includes(key));
  return written.map((unknown) => unknownKey(unknown, issue.message.split(KEY_SEPARATOR), `${nameOf(entry, path)}: `));
}

function wrongShape(entry: YamlEntry, path: Path, expected: string): Problem {
  const { span } = placeOf(entry, path);
  if (nodeAt(entry, path) === undefined) return problem(`${nameOf(entry, path)}: is missing`, span);
  const shape = expected === 'array' ? 'a list: [ …, … ]' : 'a mapping: {key: value, …}';
  return problem(`${nameOf(entry, path)}: takes ${shape}`, span);
}

/** `severity.untested`, `modes[2]`: the value as a reader would name it, items counted from 1. */
function nameOf(entry: YamlEntry, path: Path): string {
  const steps = path.map((step) => (typeof step === 'number' ? `[${step + 1}]` : `.${String(step)}`));
  return entry.key + steps.join('');
}

/** Where the value at the path stands, or the nearest thing above it that is written; `key` is its key's place. */
function placeOf(entry: YamlEntry, path: Path): { readonly key: Span | null; readonly span: Span } {
  let key: Span | null = entry.keySpan;
  let node = entry.value;
  for (const step of path) {
    const below: YamlEntry | undefined = node.type === 'map' ? entryOf(node, String(step)) : undefined;
    const next = below?.value ?? (node.type === 'list' ? node.items[Number(step)] : undefined);
    if (next === undefined) break;
    key = below?.keySpan ?? null;
    node = next;
  }
  const isEmpty = node.type === 'scalar' && node.style === 'empty';
  return { key, span: isEmpty && key !== null ? key : spanOf(node.span.start, node.span.end) };
}

function nodeAt(entry: YamlEntry, path: Path): YamlNode | undefined {
  return path.reduce<YamlNode | undefined>((node, step) => {
    if (node?.type === 'map') return entryOf(node, String(step))?.value;
    return node?.type === 'list' ? node.items[Number(step)] : undefined;
  }, entry.value);
}

function keyOf(path: Path): string {
  return JSON.stringify(path.map(String));
}

function entryOf(map: YamlMap, key: string): YamlEntry | undefined {
  return map.entries.find((entry) => entry.key === key);
}

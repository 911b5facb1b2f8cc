/** Zod building blocks over YAML nodes: scalars, lists, mappings with fixed keys, mappings with free keys. */
import * as z from 'zod';
import type { YamlNode, YamlScalar } from '../syntax/yaml-node';
import { nearestWords } from './nearest';

/** A text of the configuration and where it is written; `scalar` is null for a default, which stands nowhere. */
export interface ConfigurationText {
  readonly text: string;
  readonly scalar: YamlScalar | null;
}

/** Why a value cannot be read. `replacement` is the text that would be right, where there is one. */
export interface Complaint {
  readonly complaint: string;
  readonly replacement: string | null;
}

export function complain(complaint: string, replacement: string | null = null): Complaint {
  return { complaint, replacement };
}

/** What an issue of ours carries beside its message. */
export interface IssueDetails {
  readonly replacement: string | null;
  /** The issue is about the key of the entry, not its value. */
  readonly onKey: boolean;
}

/** Parts the known keys in the message of an `unrecognized_keys` issue, which has no other place for them. */
export const KEY_SEPARATOR = ', ';

/** Of the JSON Schemas that are made: the one that editors' YAML support reads in full. */
export const DIALECT = 'http://json-schema.org/draft-07/schema#';

type JsonSchema = Readonly<Record<string, unknown>>;

/** A scalar that is not empty, read by `read`; `jsonSchema` says the same to an editor's YAML support. */
export function scalar<T>(jsonSchema: JsonSchema, read: (node: YamlScalar) => T | Complaint) {
  return z
    .custom<YamlNode | undefined>()
    .transform((node, context): T => {
      const result = readScalar(node, read);
      if (!isComplaint(result)) return result;
      context.addIssue({ code: 'custom', message: result.complaint, params: details(result.replacement, false) });
      return z.NEVER;
    })
    .meta(jsonSchema);
}

/** Any text. */
export function text() {
  return scalar({ type: ['string', 'number'] }, (node) => node.text);
}

/** Any text, with its place. */
export function placedText() {
  return scalar({ type: ['string', 'number'] }, (node): ConfigurationText => ({ text: node.text, scalar: node }));
}

/** One of a few words. */
export function choice<const T extends string>(values: readonly T[]) {
  return scalar({ enum: values }, (node): T | Complaint => {
    const value = values.find((candidate) => candidate === node.text);
    return (
      value ?? complain(`“${node.text}” is not one of ${values.join(', ')}`, nearestWords(node.text, values)[0] ?? null)
    );
  });
}

/** A list; two items for which `nameOf` gives one text are a mistake. */
export function list<T>(item: z.ZodType<T>, nameOf: (value: T) => string) {
  return z.preprocess(
    (node) => (isNode(node) && node.type === 'list' ? node.items : node),
    z
      .array(item)
      .superRefine((values, context) => {
        const seen = new Set<string>();
        values.forEach((value, index) => {
          const name = nameOf(value);
          if (seen.has(name)) context.addIssue({ code: 'custom', message: `“${name}” is listed twice`, path: [index] });
          seen.add(name);
        });
      })
      .transform((values): readonly T[] => values),
  );
}

/** A mapping with these keys and no others. */
export function fixedKeys<const S extends z.ZodRawShape>(shape: S) {
  return z.preprocess(
    (node) => {
      // A node is an object itself, which must not be taken for the mapping.
      if (!isNode(node) || node.type !== 'map') return null;
      // No prototype: a key of the file may be called `constructor` or `__proto__`.
      const entries: Record<string, YamlNode> = Object.create(null);
      for (const entry of node.entries) entries[entry.key] ??= entry.value;
      return entries;
    },
    z.strictObject(shape, { error: (issue) => knownKeys(issue, shape) }),
  );
}

/** A mapping with free keys; `judgeKey` may refuse some. */
export function freeKeys<T, K extends string = string>(
  value: z.ZodType<T>,
  judgeKey: (key: string) => Complaint | null = () => null,
) {
  return z.preprocess(
    (node) => (isNode(node) && node.type === 'map' ? entriesOf(node) : node),
    z
      .map(z.custom<K>(), value)
      .check(keyCheck(judgeKey))
      .transform((entries): ReadonlyMap<K, T> => entries),
  );
}

/** The JSON Schema of a schema built from these blocks, as an editor's YAML support reads it. */
export function jsonSchemaOf(schema: z.ZodType): JsonSchema {
  return z.toJSONSchema(schema, {
    target: 'draft-7',
    io: 'input',
    unrepresentable: 'any',
    override: ({ zodSchema, jsonSchema }) => {
      const { def } = zodSchema._zod;
      if (def.type !== 'map') return;
      const { $schema: _, ...valueSchema } = jsonSchemaOf(def.valueType as z.ZodType);
      Object.assign(jsonSchema, { type: 'object', additionalProperties: valueSchema });
    },
  });
}

function keyCheck<K extends string, T>(judgeKey: (key: string) => Complaint | null) {
  const check = z.check<ReadonlyMap<K, T>>(({ value: entries, issues }) => {
    for (const key of entries.keys()) {
      const complaint = judgeKey(key);
      if (complaint === null) continue;
      const params = details(complaint.replacement, true);
      issues.push({ code: 'custom', message: complaint.complaint, path: [key], params, input: key });
    }
  });
  // Keys are judged even where a value is wrong, so that all mistakes are seen at once.
  check._zod.def.when = ({ value }) => value instanceof Map;
  return check;
}

function knownKeys(issue: { readonly code: string }, shape: z.ZodRawShape): string | undefined {
  return issue.code === 'unrecognized_keys' ? Object.keys(shape).join(KEY_SEPARATOR) : undefined;
}

function readScalar<T>(node: YamlNode | undefined, read: (node: YamlScalar) => T | Complaint): T | Complaint {
  if (node === undefined) return complain('is missing');
  if (node.type !== 'scalar') return complain(`takes one value, not a ${node.type === 'map' ? 'mapping' : 'list'}`);
  if (node.text.trim() === '') return complain('has no value: write one or remove the key');
  return read(node);
}

function entriesOf(node: YamlNode & { type: 'map' }): Map<string, YamlNode> {
  const entries = new Map<string, YamlNode>();
  for (const { key, value } of node.entries) if (!entries.has(key)) entries.set(key, value);
  return entries;
}

function details(replacement: string | null, onKey: boolean): Record<string, unknown> & IssueDetails {
  return { replacement, onKey };
}

function isComplaint(value: unknown): value is Complaint {
  return typeof value === 'object' && value !== null && 'complaint' in value;
}

function isNode(value: unknown): value is YamlNode {
  return typeof value === 'object' && value !== null && 'type' in value && 'span' in value;
}

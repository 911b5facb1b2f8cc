/** Runs as YAML, in the style of the record that they are added to: in lines where it has lines, within braces where it has braces. */
import { findFrontMatter } from '../syntax/front-matter';
import { type Edit, spanOf } from '../syntax/span';
import { parseYaml } from '../syntax/yaml';
import type { YamlEntry, YamlMap, YamlNode } from '../syntax/yaml-node';
import type { RunEntry } from './record-run';

/** Keys and values; values are YAML already. */
export type YamlPairs = readonly (readonly [key: string, value: string])[];

/** More pairs than this stand on a line each, so that they can be read. */
const MOST_IN_LINE = 12;

/** A text that no reader of YAML takes for anything else. */
export function yamlText(text: string): string {
  return /^[A-Za-z][A-Za-z ]*$/.test(text) && !WORDS.has(text.toLowerCase()) ? text : JSON.stringify(text);
}

const WORDS: ReadonlySet<string> = new Set(['yes', 'no', 'true', 'false', 'null', 'on', 'off', 'tbd']);

/** The one edit that adds a run to the record `id` of a document; null where the record cannot be found in it. */
export function runEdit(text: string, id: string, run: readonly RunEntry[]): Edit | null {
  const frontMatter = findFrontMatter(text);
  const root = frontMatter === null ? null : parseYaml(text, frontMatter.content).root;
  if (root?.type !== 'map') return null;
  const place = recordIn(root, id);
  if (place === null) return null;
  const newline = text.includes('\r\n') ? '\r\n' : '\n';
  return editAt({ text, newline, run, ...place });
}

interface Target {
  readonly record: YamlMap;
  readonly runs: YamlEntry | null;
}

interface Splice extends Target {
  readonly text: string;
  readonly newline: string;
  readonly run: readonly RunEntry[];
}

function recordIn(root: YamlMap, id: string): Target | null {
  for (const { key, value } of root.entries) {
    if (key === 'verification' && value.type === 'scalar' && value.text === id)
      return { record: root, runs: entryOf(root, 'runs') };
    const candidates =
      key === 'verifications' && value.type === 'list' ? value.items : key === 'verification' ? [value] : [];
    for (const record of candidates) {
      if (record.type !== 'map') continue;
      const own = entryOf(record, 'id')?.value;
      if (own?.type === 'scalar' && own.text === id) return { record, runs: entryOf(record, 'runs') };
    }
  }
  return null;
}

function editAt(splice: Splice): Edit | null {
  const { record, runs, text } = splice;
  const list = runs?.value ?? null;
  if (list?.type === 'list' && list.items.length > 0)
    return list.flow ? inBrackets(splice, list) : afterLastItem(splice, list.items.at(-1) as YamlNode);
  if (list !== null && list.type !== 'list' && !(list.type === 'scalar' && list.style === 'empty')) return null;
  if (record.flow) return inBraces(splice, list);
  const last = runs ?? lastEntry(record);
  if (last === null) return null;
  const indent = columnOf(text, last.keySpan.start);
  const lines = runLines(splice, indent + 2);
  // An empty list in brackets gives way to lines.
  if (runs !== null && list?.type === 'list')
    return { span: list.span, text: lines.map((line) => splice.newline + line).join('') };
  const head = runs === null ? [`${' '.repeat(indent)}runs:`] : [];
  return afterLine(splice, runs === null ? lastOffset(last) : last.keySpan.end, [...head, ...lines]);
}

/** `runs: [{…}]` */
function inBrackets({ text, run }: Splice, list: YamlNode): Edit | null {
  const end = list.span.end - 1;
  if (text[end] !== ']') return null;
  const before = text.slice(0, end).trimEnd();
  const comma = before.endsWith(',') ? ' ' : ', ';
  return { span: spanOf(before.length, before.length), text: `${comma}${flowRun(run)}` };
}

/** `{id: TP-03, method: test}` */
function inBraces({ text, run, record }: Splice, runs: YamlNode | null): Edit | null {
  if (runs?.type === 'list') return { span: runs.span, text: `[${flowRun(run)}]` };
  if (runs !== null) return { span: spanOf(runs.span.start, runs.span.start), text: ` [${flowRun(run)}]` };
  const end = record.span.end - 1;
  if (text[end] !== '}') return null;
  const before = text.slice(0, end).trimEnd();
  const comma = before.endsWith(',') ? ' ' : ', ';
  return { span: spanOf(before.length, before.length), text: `${comma}runs: [${flowRun(run)}]` };
}

function afterLastItem(splice: Splice, item: YamlNode): Edit | null {
  const { text } = splice;
  const dash = text.lastIndexOf('-', item.span.start);
  if (dash < 0 || text.slice(dash + 1, item.span.start).trim() !== '') return null;
  return afterLine(splice, item.span.end, runLines(splice, columnOf(text, dash)));
}

/** New lines below the line in which something ends. */
function afterLine({ text, newline }: Splice, end: number, lines: readonly string[]): Edit {
  const written = text.slice(0, end).trimEnd().length;
  const found = text.indexOf('\n', written);
  const at = found < 0 ? text.length : text[found - 1] === '\r' ? found - 1 : found;
  return { span: spanOf(at, at), text: lines.map((line) => newline + line).join('') };
}

function runLines({ run }: Splice, indent: number): readonly string[] {
  const space = ' '.repeat(indent);
  const lines = run.flatMap((entry) => entryLines(entry));
  return lines.map((line, index) => `${space}${index === 0 ? '- ' : '  '}${line}`);
}

function entryLines(entry: RunEntry): readonly string[] {
  if ('text' in entry) return [`${entry.key}: ${entry.text}`];
  if (entry.pairs.length <= MOST_IN_LINE) return [`${entry.key}: ${flowPairs(entry.pairs)}`];
  return [`${entry.key}:`, ...entry.pairs.map(([key, value]) => `  ${keyText(key)}: ${value}`)];
}

function flowRun(run: readonly RunEntry[]): string {
  return `{${run.map((entry) => `${entry.key}: ${'text' in entry ? entry.text : flowPairs(entry.pairs)}`).join(', ')}}`;
}

function flowPairs(pairs: YamlPairs): string {
  return `{${pairs.map(([key, value]) => `${keyText(key)}: ${value}`).join(', ')}}`;
}

function keyText(key: string): string {
  return /^[\p{L}_][\p{L}\p{N}_.-]*$/u.test(key) ? key : JSON.stringify(key);
}

function entryOf({ entries }: YamlMap, key: string): YamlEntry | null {
  return entries.find((entry) => entry.key === key) ?? null;
}

function lastEntry({ entries }: YamlMap): YamlEntry | null {
  return entries.reduce<YamlEntry | null>(
    (last, entry) => (last === null || entry.keySpan.start > last.keySpan.start ? entry : last),
    null,
  );
}

function lastOffset({ value, keySpan }: YamlEntry): number {
  return Math.max(value.span.end, keySpan.end);
}

function columnOf(text: string, offset: number): number {
  return offset - (text.lastIndexOf('\n', offset - 1) + 1);
}

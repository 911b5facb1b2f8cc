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
  return /^[A-Za-z](?:[A-Za-z0-9 -]*[A-Za-z0-9])?$/.test(text) && !WORDS.has(text.toLowerCase())
    ? text
    : JSON.stringify(text);
}

const WORDS: ReadonlySet<string> = new Set(['y', 'n', 'yes', 'no', 'true', 'false', 'null', 'on', 'off', 'tbd']);

/** The one edit that adds a run to the record `id` of a document; null where it cannot be added without touching more. */
export function runEdit(text: string, id: string, run: readonly RunEntry[]): Edit | null {
  const target = targetIn(text, id);
  if (target === null) return null;
  const newline = text.includes('\r\n') ? '\r\n' : '\n';
  const edit = editAt({ text, newline, run, ...target });
  return edit !== null && isAdded(target, targetIn(applied(text, edit), id)) ? edit : null;
}

export function applied(text: string, { span, text: added }: Edit): string {
  return text.slice(0, span.start) + added + text.slice(span.end);
}

interface Target {
  readonly root: YamlMap;
  readonly record: YamlMap;
  readonly runs: YamlEntry | null;
}

function targetIn(text: string, id: string): Target | null {
  const frontMatter = findFrontMatter(text);
  const root = frontMatter === null ? null : parseYaml(text, frontMatter.content).root;
  return root?.type === 'map' ? recordIn(root, id) : null;
}

/** Read again, the record has one run more, and all else is what it was. */
function isAdded(before: Target, after: Target | null): boolean {
  const runs = itemsOf(before);
  const renewed = after === null ? [] : itemsOf(after);
  if (after === null || renewed.length !== runs.length + 1) return false;
  const isSame = runs.every((run, index) => shapeOf(run, null) === shapeOf(renewed[index] as YamlNode, null));
  return isSame && shapeOf(before.root, before.runs) === shapeOf(after.root, after.runs);
}

function itemsOf({ runs }: Target): readonly YamlNode[] {
  return runs?.value.type === 'list' ? runs.value.items : [];
}

/** What a node says, wherever it stands. @param without an entry that is passed over */
function shapeOf(node: YamlNode, without: YamlEntry | null): string {
  if (node.type === 'scalar') return JSON.stringify([node.style, node.text]);
  if (node.type === 'list') return `[${node.items.map((item) => shapeOf(item, without)).join()}]`;
  const entries = node.entries.filter((entry) => entry !== without);
  return `{${entries.map(({ key, value }) => `${JSON.stringify(key)}:${shapeOf(value, without)}`).join()}}`;
}

interface Splice extends Target {
  readonly text: string;
  readonly newline: string;
  readonly run: readonly RunEntry[];
}

function recordIn(root: YamlMap, id: string): Target | null {
  for (const { key, value } of root.entries) {
    if (key === 'verification' && value.type === 'scalar' && value.text === id)
      return { root, record: root, runs: entryOf(root, 'runs') };
    const candidates =
      key === 'verifications' && value.type === 'list' ? value.items : key === 'verification' ? [value] : [];
    for (const record of candidates) {
      if (record.type !== 'map') continue;
      const own = entryOf(record, 'id')?.value;
      if (own?.type === 'scalar' && own.text === id) return { root, record, runs: entryOf(record, 'runs') };
    }
  }
  return null;
}

function editAt(splice: Splice): Edit | null {
  const { record, runs, text } = splice;
  const list = runs?.value ?? null;
  if (list?.type === 'list' && list.items.length > 0)
    return list.flow ? inBrackets(splice, list.items) : afterLastItem(splice, list.items.at(-1) as YamlNode);
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

/** `runs: [{…}]`: directly after the last run, since a comment may stand before the bracket. */
function inBrackets(splice: Splice, items: readonly YamlNode[]): Edit {
  const { end } = (items.at(-1) as YamlNode).span;
  return { span: spanOf(end, end), text: `, ${flowRun(splice)}` };
}

/** `{id: TP-3, method: test}` */
function inBraces(splice: Splice, runs: YamlNode | null): Edit | null {
  if (runs?.type === 'list') return { span: runs.span, text: `[${flowRun(splice)}]` };
  if (runs !== null) return { span: spanOf(runs.span.start, runs.span.start), text: ` [${flowRun(splice)}]` };
  const last = lastEntry(splice.record);
  if (last === null) return null;
  const end = lastOffset(last);
  return { span: spanOf(end, end), text: `, runs: [${flowRun(splice)}]` };
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

/** Within braces many pairs stand on a line each as well, deeper than the line that the record begins in. */
function flowRun({ run, newline, text, record }: Splice): string {
  const start = text.lastIndexOf('\n', record.span.start - 1) + 1;
  const indent = `${newline}${' '.repeat(text.slice(start).search(/[^ ]/) + 4)}`;
  const entries = run.map((entry) => {
    if ('text' in entry) return `${entry.key}: ${entry.text}`;
    const isLong = entry.pairs.length > MOST_IN_LINE;
    const pairs = entry.pairs.map(([key, value]) => `${isLong ? indent : ''}${keyText(key)}: ${value}`);
    return `${entry.key}: {${pairs.join(isLong ? ',' : ', ')}}`;
  });
  return `{${entries.join(', ')}}`;
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

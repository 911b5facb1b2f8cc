/** Where one more entry of a document's front matter is written: a fact, or a record of verification. */
import { findFrontMatter } from '../../syntax/front-matter';
import { type Edit, spanOf } from '../../syntax/span';
import { parseYaml } from '../../syntax/yaml';
import type { YamlEntry, YamlMap, YamlNode } from '../../syntax/yaml-node';

/** @param line `supply.draw: TBD`; null where there is no front matter that can be read */
export function factEntry(text: string, line: string): Edit | null {
  const map = frontMatterMap(text);
  if (map === null) return null;
  const facts = map.entries.find(({ key }) => key === 'facts');
  if (facts === undefined) return atEnd(text, `facts:\n  ${line}\n`);
  const { value } = facts;
  if (value.type === 'map') return beforeFirst(text, value, line);
  return isEmpty(value) ? behindKey(text, facts, `  ${line}`) : null;
}

/** @param record a flow mapping; null where the front matter holds a single record, or cannot be read */
export function recordEntry(text: string, record: string): Edit | null {
  const map = frontMatterMap(text);
  if (map === null || map.entries.some(({ key }) => key === 'verification')) return null;
  const records = map.entries.find(({ key }) => key === 'verifications');
  if (records === undefined) return atEnd(text, `verifications:\n  - ${record}\n`);
  const { value } = records;
  if (value.type !== 'list') return isEmpty(value) ? behindKey(text, records, `  - ${record}`) : null;
  if (value.flow) return { span: spanOf(value.span.start + 1, value.span.start + 1), text: `${record}, ` };
  return behindKey(text, records, `${indentAt(text, dashBefore(text, value.span.start))}- ${record}`);
}

function frontMatterMap(text: string): YamlMap | null {
  const found = findFrontMatter(text);
  const root = found === null ? null : parseYaml(text, found.content).root;
  return root?.type === 'map' && !root.flow ? root : null;
}

function isEmpty(node: YamlNode): boolean {
  return node.type === 'scalar' && node.style === 'empty';
}

function atEnd(text: string, lines: string): Edit | null {
  const found = findFrontMatter(text);
  return found && insertion(text, found.content.end, lines);
}

function beforeFirst(text: string, { flow, span, entries }: YamlMap, line: string): Edit {
  const [first] = entries;
  if (flow) return insertion(text, span.start + 1, first === undefined ? line : `${line}, `);
  const at = first?.keySpan.start ?? span.start;
  return insertion(text, at, `${line}\n${indentAt(text, at)}`);
}

function behindKey(text: string, { keySpan }: YamlEntry, line: string): Edit {
  const end = text.slice(keySpan.end).search(/\r?\n/);
  return insertion(text, keySpan.end + Math.max(end, 0), `\n${line}`);
}

/** A list begins at its first dash or behind it, as its reader has it. */
function dashBefore(text: string, start: number): number {
  return text[start] === '-' ? start : text.lastIndexOf('-', start);
}

function indentAt(text: string, offset: number): string {
  const lineStart = text.lastIndexOf('\n', offset - 1) + 1;
  return /^[ ]*/.exec(text.slice(lineStart, offset))?.[0] ?? '';
}

/** With the line ends that the document has. */
function insertion(text: string, at: number, inserted: string): Edit {
  return { span: spanOf(at, at), text: text.includes('\r\n') ? inserted.replaceAll('\n', '\r\n') : inserted };
}

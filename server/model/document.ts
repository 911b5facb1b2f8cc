/** One document of a product, read: what its front matter and its Markdown say, nothing resolved yet. */
import { findFrontMatter } from '../syntax/front-matter';
import { parseMarkdown, type SectionCache } from '../syntax/markdown/parse';
import type { Problem, Span } from '../syntax/span';
import { parseYaml } from '../syntax/yaml';
import type { YamlMap, YamlNode } from '../syntax/yaml-node';
import type { Fact, TablePart } from './fact';
import type { ReadingContext } from './read-content';
import { readFacts } from './read-facts';
import { readRequirements } from './read-requirements';
import type { Requirement } from './requirement';

export interface DocumentModel {
  readonly file: string;
  /** What `requirements:` calls the product; null without it. */
  readonly title: string | null;
  /** One alternative of an option group, or null. */
  readonly option: OptionReference | null;
  readonly facts: readonly Fact[];
  readonly tables: readonly TablePart[];
  readonly requirements: readonly Requirement[];
  /** Paragraphs with *shall* or *must* outside every requirement. */
  readonly withoutId: readonly Span[];
  /** The first requirement-like heading of a document that takes no part because its front matter does not say so. */
  readonly unread: Span | null;
  readonly problems: readonly Problem[];
}

export interface OptionReference {
  readonly group: string;
  readonly alternative: string;
  readonly span: Span;
}

/** Front-matter keys by which a file takes part in a product. */
const ROLES = ['requirements', 'facts', 'parts', 'connections', 'rails', 'option', 'verification', 'verifications'];
/** A quick look before Markdown is parsed: no obligation, no requirement. */
const OBLIGATION_WORD = /\b(?:shall|must)\b/iu;

/** Reads one document. Null when the file takes no part and nothing in it looks like a requirement. */
export function readDocument(
  file: string,
  text: string,
  context: ReadingContext,
  cache: SectionCache,
): DocumentModel | null {
  const frontMatter = findFrontMatter(text);
  const { root, problems } = frontMatter === null ? { root: null, problems: [] } : parseYaml(text, frontMatter.content);
  const map = root?.type === 'map' ? root : null;
  if (map === null || !map.entries.some(({ key }) => ROLES.includes(key))) {
    return takesNoPart(file, text, cache, frontMatter !== null && root === null ? problems : []);
  }
  return takesPart(file, text, map, problems, context, cache);
}

function takesPart(
  file: string,
  text: string,
  map: YamlMap,
  yamlProblems: readonly Problem[],
  context: ReadingContext,
  cache: SectionCache,
): DocumentModel {
  const design = readFacts(map, file, context);
  const hasRequirements = map.entries.some(({ key }) => key === 'requirements');
  const markdown = hasRequirements ? parseMarkdown(text, { cache }) : { sections: [], problems: [] };
  const blocks = markdown.sections.flatMap((section) => section.blocks);
  const read = readRequirements(blocks, file, prefixesOf(map));
  return {
    file,
    title: titleOf(map),
    option: optionOf(map),
    facts: design.facts,
    tables: design.tables,
    requirements: read.requirements,
    withoutId: read.withoutId,
    unread: null,
    problems: [...yamlProblems, ...design.problems, ...markdown.problems, ...read.problems],
  };
}

/** A document without a role is left alone, but said once when it holds what looks like requirements. */
function takesNoPart(
  file: string,
  text: string,
  cache: SectionCache,
  problems: readonly Problem[],
): DocumentModel | null {
  const unread = OBLIGATION_WORD.test(text) ? firstRequirementLike(text, file, cache) : null;
  if (unread === null && problems.length === 0) return null;
  return { file, title: null, option: null, facts: [], tables: [], requirements: [], withoutId: [], unread, problems };
}

function firstRequirementLike(text: string, file: string, cache: SectionCache): Span | null {
  const blocks = parseMarkdown(text, { cache }).sections.flatMap((section) => section.blocks);
  const { requirements } = readRequirements(blocks, file, null);
  const binding = requirements.find(({ obligation, obligationWritten }) => obligationWritten && obligation === 'shall');
  return binding?.idSpan ?? null;
}

function titleOf(map: YamlMap): string | null {
  const title = map.entries.find(({ key }) => key === 'requirements')?.value;
  return title?.type === 'scalar' && title.text.trim() !== '' ? title.text.trim() : null;
}

function prefixesOf(map: YamlMap): readonly string[] | null {
  const ids = map.entries.find(({ key }) => key === 'ids')?.value;
  if (ids === undefined) return null;
  const items: readonly YamlNode[] = ids.type === 'list' ? ids.items : [ids];
  const prefixes = items.flatMap((item) => (item.type === 'scalar' ? [item.text.trim()] : []));
  return prefixes.filter((prefix) => prefix !== '');
}

function optionOf(map: YamlMap): OptionReference | null {
  const scalar = (name: string) => {
    const value = map.entries.find(({ key }) => key === name)?.value;
    return value?.type === 'scalar' && value.text.trim() !== '' ? value : null;
  };
  const alternative = scalar('option');
  const group = scalar('of');
  if (alternative === null || group === null) return null;
  return { group: group.text.trim(), alternative: alternative.text.trim(), span: alternative.span };
}

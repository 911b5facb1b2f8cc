/** One document of a product, read: what its front matter and its Markdown say, nothing resolved yet. */
import { findFrontMatter } from '../syntax/front-matter';
import { parseMarkdown, type SectionCache } from '../syntax/markdown/parse';
import type { Problem, Span } from '../syntax/span';
import { parseYaml } from '../syntax/yaml';
import type { YamlMap, YamlNode } from '../syntax/yaml-node';
import { type EvidenceFile, evidenceFilesOf } from './evidence-file';
import type { Fact, TablePart } from './fact';
import type { ReadingContext } from './read-content';
import { type DataFile, type ReadFacts, readFacts } from './read-facts';
import { type PassedOver, readRequirements } from './read-requirements';
import { type ReadVerifications, readVerifications } from './read-verifications';
import type { Requirement } from './requirement';
import type { Verification } from './verification';

export interface DocumentModel {
  readonly file: string;
  /** What `requirements:` calls the product; null without it. */
  readonly title: string | null;
  /** One alternative of an option group, or null. */
  readonly option: OptionReference | null;
  readonly facts: readonly Fact[];
  readonly tables: readonly TablePart[];
  readonly requirements: readonly Requirement[];
  readonly verifications: readonly Verification[];
  /** Documents that requirements point at as evidence. */
  readonly evidenceFiles: readonly EvidenceFile[];
  /** Paragraphs with *shall* or *must* outside every requirement. */
  readonly withoutId: readonly Span[];
  /** Headings with an id that begin no requirement. */
  readonly passedOver: readonly PassedOver[];
  /** The first requirement-like heading of a document that takes no part because its front matter does not say so. */
  readonly unread: Span | null;
  /** CSV files that its tables read. */
  readonly dataFiles: readonly DataFile[];
  /** Without a file: in this document. */
  readonly problems: readonly (Problem & { readonly file?: string })[];
  /** Its front matter cannot be read now, and its facts are those that were last read. */
  readonly held?: boolean;
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

const NO_FACTS: ReadFacts = { dataFiles: [], facts: [], tables: [], problems: [] };
const NO_RECORDS: ReadVerifications = { verifications: [], problems: [] };

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
  const { option, problems: optionProblems } = readOption(map);
  const split = yamlProblems.filter(({ code }) => code === 'split-value');
  const design = optionProblems.length > 0 ? NO_FACTS : readFacts(map, file, context, split);
  const hasRequirements = map.entries.some(({ key }) => key === 'requirements');
  const markdown = hasRequirements ? parseMarkdown(text, { cache }) : { sections: [], problems: [] };
  const blocks = markdown.sections.flatMap((section) => section.blocks);
  const read = readRequirements(blocks, file, prefixesOf(map), text);
  const records = optionProblems.length > 0 ? NO_RECORDS : readVerifications(map, file, context);
  return {
    file,
    title: titleOf(map),
    option,
    facts: design.facts,
    tables: design.tables,
    requirements: read.requirements,
    verifications: records.verifications,
    evidenceFiles: evidenceFilesOf(read.requirements, text),
    withoutId: read.withoutId,
    passedOver: read.passedOver,
    unread: null,
    dataFiles: design.dataFiles,
    problems: [
      ...yamlProblems,
      ...optionProblems,
      ...design.problems,
      ...records.problems,
      ...markdown.problems,
      ...read.problems,
    ],
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
  return {
    file,
    title: null,
    option: null,
    facts: [],
    tables: [],
    requirements: [],
    verifications: [],
    evidenceFiles: [],
    withoutId: [],
    passedOver: [],
    unread,
    dataFiles: [],
    problems,
  };
}

function firstRequirementLike(text: string, file: string, cache: SectionCache): Span | null {
  const blocks = parseMarkdown(text, { cache }).sections.flatMap((section) => section.blocks);
  const { requirements } = readRequirements(blocks, file, null, text);
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

interface ReadOption {
  readonly option: OptionReference | null;
  readonly problems: readonly Problem[];
}

function readOption(map: YamlMap): ReadOption {
  const alternative = map.entries.find(({ key }) => key === 'option');
  if (alternative === undefined) return { option: null, problems: [] };
  const [name, group] = [
    filledScalar(alternative.value),
    filledScalar(map.entries.find(({ key }) => key === 'of')?.value),
  ];
  const { value, keySpan } = alternative;
  const span = value.span.end > value.span.start ? value.span : keySpan;
  if (name !== null && group !== null) return { option: { group, alternative: name, span }, problems: [] };
  const message =
    name === null
      ? 'an option is called by one word: option: birch'
      : `“${name}” is an alternative of nothing, so the file does not count; say of what: of: processor`;
  return { option: null, problems: [{ code: 'bad-value', message, span }] };
}

function filledScalar(node: YamlNode | undefined): string | null {
  return node?.type === 'scalar' && node.text.trim() !== '' ? node.text.trim() : null;
}

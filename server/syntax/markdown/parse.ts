/** Markdown text to blocks with places, section by section, so that an edit costs the section it touches. */
import { contentStart, findFrontMatter } from '../front-matter';
import type { Problem, Span } from '../span';
import { spanOf } from '../span';
import type { Block } from './block';
import { blocksOf } from './blocks';
import { MAXIMUM_DELIMITERS } from './delimiter-counter';
import { DEFINITION_SIGN, indexLabels, type LabelIndex, type Labels, labelsUsed, NO_LABELS } from './label';
import { moveBlocks, moveSpan } from './move';
import { plainBlocks } from './plain-blocks';
import { type Piece, splitSections } from './split';
import { FIRST_OFFSET, type Following, parseSyntaxTree } from './syntax-tree';

/** A document's Markdown, read. */
export interface ParsedMarkdown {
  /** In text order; they cover the text after the front matter without gaps. */
  readonly sections: readonly Section[];
  /** Code: `too-large`, for a section that is not read. */
  readonly problems: readonly Problem[];
}

/** The text before the first column-0 heading, or from one such heading to the next. */
export interface Section {
  readonly span: Span;
  readonly blocks: readonly Block[];
}

export interface MarkdownOptions {
  /** Makes sections that have not changed since the last parse with it free. One cache a document. */
  readonly cache?: SectionCache;
  /** Sections for which it is false have no blocks; looked at before any of them is parsed. */
  readonly isRelevant?: (sectionText: string) => boolean;
}

/** The sections of one document's last parse; holds no more than that. */
export interface SectionCache {
  sections: ReadonlyMap<string, CachedSection>;
}

interface CachedSection {
  /** Offsets of these two are those of the section's tree. */
  readonly blocks: readonly Block[];
  readonly problem: Problem | null;
  /** What it defines itself, known when it was parsed with no other labels. */
  readonly defined: Labels;
  /** Where it stood last: an unmoved section keeps its identity. */
  placed: Section | null;
}

export function createSectionCache(): SectionCache {
  return { sections: new Map() };
}

/** Reads the Markdown of a whole document's text; front matter is passed over. Never throws; linear in its length. */
export function parseMarkdown(text: string, options: MarkdownOptions = {}): ParsedMarkdown {
  const start = findFrontMatter(text)?.outer.end ?? contentStart(text);
  const pieces = splitSections(text, start);
  const reading: Reading = { text, earlier: options.cache?.sections ?? new Map(), used: new Map() };
  const labels = labelsOfFile(pieces, reading);
  const isRelevant = options.isRelevant ?? (() => true);
  const problems: Problem[] = [];
  const sections = pieces.map((piece) => {
    const sectionText = text.slice(piece.span.start, piece.span.end);
    if (piece.tooLarge) problems.push(piece.tooLarge);
    if (piece.tooLarge || !isRelevant(sectionText)) return { span: piece.span, blocks: [] };
    const cached = cachedSection(piece.span, labelsUsed(sectionText, labels), reading);
    if (cached.problem) problems.push(moveProblem(cached.problem, piece.span.start - FIRST_OFFSET));
    return placed(cached, piece.span);
  });
  if (options.cache) options.cache.sections = reading.used;
  return { sections, problems };
}

interface Reading {
  readonly text: string;
  readonly earlier: ReadonlyMap<string, CachedSection>;
  readonly used: Map<string, CachedSection>;
}

/** What a section defines does not depend on what others define, so that each is asked alone. */
function labelsOfFile(pieces: readonly Piece[], reading: Reading): LabelIndex {
  const all = pieces.map(({ span, tooLarge }) => {
    const sectionText = reading.text.slice(span.start, span.end);
    const mayDefine = tooLarge === null && sectionText.includes(DEFINITION_SIGN);
    return mayDefine ? cachedSection(span, NO_LABELS, reading).defined : NO_LABELS;
  });
  return indexLabels(all);
}

/** Keyed by all that the result depends on. */
function cachedSection(span: Span, labels: Labels, reading: Reading): CachedSection {
  const sectionText = reading.text.slice(span.start, span.end);
  const following = span.end < reading.text.length ? 'heading' : 'end of file';
  const key = JSON.stringify([following, labels.links, labels.footnotes]) + sectionText;
  const cached = reading.used.get(key) ?? reading.earlier.get(key) ?? parseSection(sectionText, following, labels);
  reading.used.set(key, cached);
  return cached;
}

function parseSection(sectionText: string, following: Following, labels: Labels): CachedSection {
  const plain = plainBlocks(sectionText, FIRST_OFFSET);
  if (plain !== null) return { blocks: plain, problem: null, defined: NO_LABELS, placed: null };
  const tree = parseSyntaxTree(sectionText, following, labels);
  return tree.root === null
    ? { blocks: [], problem: tooManyDelimiters(tree.tooManyAt), defined: NO_LABELS, placed: null }
    : { blocks: blocksOf(tree.root.children, tree.source), problem: null, defined: tree.defined, placed: null };
}

function tooManyDelimiters(at: number): Problem {
  const message =
    `this section is not read: a paragraph with more than ${MAXIMUM_DELIMITERS.toLocaleString('en')} ` +
    'delimiters ([ ] * _ ` <); split it with a blank line';
  return { code: 'too-large', message, span: spanOf(at, at + 1) };
}

function placed(cached: CachedSection, span: Span): Section {
  if (cached.placed?.span.start === span.start) return cached.placed;
  const section: Section = { span, blocks: moveBlocks(cached.blocks, span.start - FIRST_OFFSET) };
  cached.placed = section;
  return section;
}

function moveProblem(problem: Problem, by: number): Problem {
  return { ...problem, span: moveSpan(problem.span, by) };
}

/** Markdown of a document as markup of a page: the few elements that sentences have, and safe links. */
import type { Element, ElementContent, Nodes } from 'hast';
import { type Schema, sanitize } from 'hast-util-sanitize';
import type { Root as MarkdownRoot, Paragraph, Table } from 'mdast';
import { fromMarkdown } from 'mdast-util-from-markdown';
import { gfmFromMarkdown } from 'mdast-util-gfm';
import { toHast } from 'mdast-util-to-hast';
import { gfm } from 'micromark-extension-gfm';
import { type ComponentChildren, createElement, Fragment } from 'preact';
import { documentLink, type Links } from './links';
import { plainParts } from './plain-markdown';

/** A text of a document. */
export interface MarkdownText {
  readonly markdown: readonly string[];
  /** The text stands in this column of the table's first row; null for blocks. */
  readonly column: number | null;
  /** The document, which its links are relative to. */
  readonly file: string;
}

/** Paragraphs lose their own element, so that the text may stand in one of the page. */
export function Markdown({ text, links }: { readonly text: MarkdownText; readonly links: Links }) {
  const parts = text.markdown.map((markdown) => {
    const plain = text.column === null ? plainParts(markdown) : null;
    if (plain !== null)
      return plain.map((part, index) => (part.type === 'text' ? part.text : <code key={index}>{part.text}</code>));
    const tree = fromMarkdown(markdown, SYNTAX);
    return elementsOf(text.column === null ? tree : cellOf(tree, text.column), text.file, links);
  });
  return <>{parts.map((part, index) => (index === 0 ? part : [' ', <br key="break" />, part]))}</>;
}

const SYNTAX = { extensions: [gfm()], mdastExtensions: [gfmFromMarkdown()] };

const SENTENCE: Schema = {
  tagNames: ['p', 'em', 'strong', 'del', 'code', 'a', 'br', 'ul', 'ol', 'li', 'blockquote'],
  attributes: { a: ['href'] },
};

function elementsOf(tree: MarkdownRoot | Paragraph, file: string, links: Links): ComponentChildren {
  const made = toHast(tree, { handlers: { html: asText, image: asAlternative, imageReference: asAlternative } });
  const safe = sanitize(made, SENTENCE);
  return rendered(safe.type === 'root' ? safe.children : [safe], file, links);
}

/** The cell as a paragraph: blocks would be set apart by line ends. */
function cellOf({ children }: MarkdownRoot, column: number): Paragraph {
  const table = children.find((node): node is Table => node.type === 'table');
  return { type: 'paragraph', children: table?.children[1]?.children[column]?.children ?? [] };
}

/** HTML in a sentence is shown, not run. */
function asText(_: unknown, node: { readonly value: string }): ElementContent {
  return { type: 'text', value: node.value };
}

function asAlternative(_: unknown, node: { readonly alt?: string | null }): ElementContent {
  return { type: 'text', value: node.alt ?? '' };
}

function rendered(nodes: readonly Nodes[], file: string, links: Links) {
  return nodes.map((node, index): ComponentChildren => {
    if (node.type === 'text') return node.value;
    return node.type === 'element' ? elementOf(node, index, file, links) : null;
  });
}

function elementOf(element: Element, index: number, file: string, links: Links): ComponentChildren {
  const children = rendered(element.children, file, links);
  if (element.tagName === 'p') return <Fragment key={index}>{children}</Fragment>;
  if (element.tagName !== 'a') return createElement(element.tagName, { key: index }, children);
  const { href } = element.properties;
  const target = typeof href === 'string' ? documentLink(links, file, href) : null;
  if (target === null) return <Fragment key={index}>{children}</Fragment>;
  return (
    <a key={index} href={target} rel="noreferrer">
      {children}
    </a>
  );
}

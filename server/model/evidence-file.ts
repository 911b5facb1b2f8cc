/** `Evidence: [report](reports/ingress.pdf)`: the documents that a requirement points at. */
import { type Span, spanOf } from '../syntax/span';
import { pathBeside } from './paths';
import { attributesOf, type Requirement } from './requirement';

export interface EvidenceFile {
  /** The requirement that it speaks for. */
  readonly requirement: string;
  readonly file: string;
  /** The attribute that names it. */
  readonly attribute: Span;
  /** Where the document is named. */
  readonly span: Span;
  /** Below the product's folder; null for an address elsewhere, whose content is not looked at. */
  readonly path: string | null;
  /** As written. */
  readonly destination: string;
}

/** SHA-256 of a document in hexadecimal; null: there is no such file; else why it cannot be read, in words. */
export type FileDigest = string | null | { readonly unread: string };

/** Of a document that is pointed at, what is wrong with it, as a sentence goes on. */
export function whyNoDigest(digest: Exclude<FileDigest, string>): string {
  return digest === null ? 'and there is no such file' : `which cannot be read: ${digest.unread}`;
}

/** An inline link of CommonMark (0.31, 6.3), with or without angle brackets; labels without brackets of their own. */
const LINK = /\[([^[\]]*)\]\((?:<([^<>\n]*)>|([^\s()<>]+))[^()\n]*\)/g;
/** A scheme and a colon (RFC 3986, 3.1), or an address of this page or of the server. */
const ELSEWHERE = /^(?:[a-z][a-z0-9+.-]*:|\/|#)/i;

/** @param text the document's, in which the links stand */
export function evidenceFilesOf(requirements: readonly Requirement[], text: string): readonly EvidenceFile[] {
  return requirements.flatMap((requirement) =>
    attributesOf(requirement, 'Evidence').flatMap((attribute) => {
      const { span } = attribute;
      return [...text.slice(span.start, span.end).matchAll(LINK)]
        .filter(([, label = '']) => attribute.text.includes(label.trim()))
        .map((match): EvidenceFile => {
          const destination = match[2] ?? match[3] ?? '';
          const start = span.start + match.index;
          return {
            requirement: requirement.id,
            file: requirement.file,
            attribute: span,
            span: spanOf(start, start + match[0].length),
            path: pathOf(requirement.file, destination),
            destination,
          };
        });
    }),
  );
}

function pathOf(file: string, destination: string): string | null {
  if (ELSEWHERE.test(destination)) return null;
  const path = destination.replace(/[?#].*$/, '');
  return pathBeside(file, decoded(path));
}

function decoded(path: string): string {
  try {
    return decodeURIComponent(path);
  } catch {
    return path;
  }
}

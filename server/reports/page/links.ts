/** Where links of a page may lead: `http(s)`, `mailto`, and documents beside the page; nothing else is a link. */
import { pathReference } from '../well-formed';

/** Where the documents of the product are, seen from the page. */
export interface Links {
  /** The product's folder as a relative reference with `/` at its end, empty for the page's own; null: out of reach. */
  readonly base: string | null;
}

/** A line of a document; null where it cannot be reached. */
export function placeLink({ base }: Links, file: string, line: number): string | null {
  return base === null ? null : `${base}${pathReference(file)}#L${line}`;
}

const SCHEMES = ['http', 'https', 'mailto'];

/**
 * A link as a document has it, from the page; null where it may not be one. Browsers drop tabs, line ends and what stands
 * before a scheme (URL Living Standard, 4.4), so these are dropped before anything is looked at.
 */
export function documentLink(links: Links, file: string, href: string): string | null {
  // biome-ignore lint/suspicious/noControlCharactersInRegex: these are the characters meant
  const target = href.replace(/[\t\n\r]/g, '').replace(/^[\u0000- ]+|[\u0000- ]+$/g, '');
  const scheme = /^([a-z][a-z\d+.-]*):/i.exec(target)?.[1]?.toLowerCase();
  if (scheme !== undefined) return SCHEMES.includes(scheme) ? target : null;
  // `//host` leads to another machine, and `/` to the top of a disk.
  if (target === '' || /^[\\/]/.test(target) || links.base === null) return null;
  if (target.startsWith('#')) return links.base + pathReference(file) + target;
  return links.base + resolved(folderOf(file), target);
}

function folderOf(file: string): readonly string[] {
  return pathReference(file).split('/').slice(0, -1);
}

/** RFC 3986, 5.2.4, where the top may be left by `..`. */
function resolved(folder: readonly string[], target: string): string {
  const [, path = '', rest = ''] = /^([^?#]*)(.*)$/s.exec(target) ?? [];
  const parts = [...folder];
  for (const part of path.replaceAll('\\', '/').split('/')) {
    if (part === '.') continue;
    if (part === '..' && parts.length > 0 && parts.at(-1) !== '..') parts.pop();
    else parts.push(part);
  }
  const joined = parts.join('/');
  // A colon in the first part would begin a scheme.
  return `${/^[^/]*:/.test(joined) ? './' : ''}${joined}${rest}`;
}

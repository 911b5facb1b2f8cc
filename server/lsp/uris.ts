/** URIs of the protocol ↔ document keys: the one place where two spellings of a file become one. */

/** Documents of other schemes (old sides of differences, output) define no names. */
const SCHEMES = ['file', 'untitled'];

const SCHEME = /^([a-z][a-z0-9+.-]*):/i;
const DRIVE = /^\/?([a-z]):(?=\/|$)/i;

/** How documents are called inside: by one key a file, whatever spelling the client used. */
export interface Uris {
  /** Null: a document that takes no part. Keys of files are absolute paths with `/`, as the host has them. */
  keyOf(uri: string): string | null;
  /** The client's own spelling where it has used one, else the usual one. */
  uriOf(key: string): string;
  /** Remembers how the client spells a document or folder. */
  learn(uri: string): void;
  /** Another number whenever a spelling was learned, so that what was spelled before may be spelled otherwise now. */
  readonly learned: number;
  /** Takes part as well: the scheme of a folder that is no file. */
  allow(scheme: string): void;
}

export function createUris(): Uris {
  const schemes = new Set(SCHEMES);
  const spelled = new Map<string, string>();
  /** Every document is asked for after each edit. */
  const written = new Map<string, string>();
  let learned = 0;
  const keyOf = (uri: string) => (schemes.has(schemeOf(uri)) ? canonicalKey(uri) : null);
  return {
    keyOf,
    uriOf: (key) => {
      const known = written.get(key) ?? spelledAs(key, spelled);
      written.set(key, known);
      return known;
    },
    learn: (uri) => {
      const key = keyOf(uri);
      if (key === null) return;
      // The slash of a top is no end of a name: `memory:/`.
      spelled.set(key, key.endsWith('/') ? uri : uri.replace(/\/+$/, ''));
      written.clear();
      learned += 1;
    },
    get learned() {
      return learned;
    },
    allow: (scheme) => {
      schemes.add(scheme);
    },
  };
}

/** The scheme, in small letters; empty where there is none. */
export function schemeOf(uri: string): string {
  return SCHEME.exec(uri)?.[1]?.toLowerCase() ?? '';
}

/** A file's path (`C:/a b` of `file:///c%3A/a%20b`); of other schemes the URI, decoded. */
function canonicalKey(uri: string): string {
  const decoded = decode(uri);
  if (schemeOf(uri) !== 'file') return trimmed(decoded);
  const path = decoded.replace(/^file:\/\/(?:localhost(?=\/))?/i, '').replace(/^file:/i, '');
  const onDrive = DRIVE.exec(path);
  if (onDrive !== null) return trimmed(`${onDrive[1]?.toUpperCase()}:${path.slice(onDrive[0].length) || '/'}`);
  // file://server/share is a network path: //server/share
  return trimmed(path.startsWith('/') ? path : `//${path}`);
}

function trimmed(key: string): string {
  return key.length > 1 && !/^[A-Z]:\/$/.test(key) ? key.replace(/(?<=[^/:])\/+$/, '') : key;
}

/** Parts that are no valid encoding stand for themselves. */
function decode(uri: string): string {
  const withoutQuery = schemeOf(uri) === 'file' ? uri.replace(/[?#].*$/, '') : uri;
  return withoutQuery.replace(/(?:%[0-9a-f]{2})+/gi, (encoded) => {
    try {
      return decodeURIComponent(encoded);
    } catch {
      return encoded;
    }
  });
}

/** The client's spelling of the key or of the nearest folder above it, and the rest as the usual spelling has it. */
function spelledAs(key: string, spelled: ReadonlyMap<string, string>): string {
  for (let end = key.length; end > 0; end = key.lastIndexOf('/', end - 1)) {
    const known = spelled.get(key.slice(0, end));
    if (known !== undefined) return known + encodePath(key.slice(end));
  }
  if (schemeOf(key) !== '' && !DRIVE.test(key)) return key.replace(/[^/:]+/g, encodeURIComponent);
  if (key.startsWith('//')) return `file:${encodePath(key)}`;
  const onDrive = DRIVE.exec(key);
  if (onDrive === null) return `file://${encodePath(key)}`;
  return `file:///${onDrive[1]?.toLowerCase()}%3A${encodePath(key.slice(onDrive[0].length))}`;
}

function encodePath(path: string): string {
  return path.split('/').map(encodeURIComponent).join('/');
}

/** The rules of who may import what and call what, as data, and what breaks them. */
import { posix } from 'node:path';
import { blanked, lineAt, type SourceFile } from './source';

/** Rooms in the order in which imports may point: a room imports from those before it. */
const ORDER: readonly (readonly [room: string, files: RegExp])[] = [
  ['grammar', /^grammar\//],
  ['quantity', /^server\/quantity\//],
  ['syntax', /^server\/syntax\//],
  ['model', /^server\/model\//],
  ['engine', /^server\/engine\//],
  ['findings', /^server\/findings\//],
  ['features', /^server\/features\//],
  ['scripts', /^server\/reports\/scripts\//],
  ['reports', /^server\/reports\//],
  ['host', /^server\/host(?:-files|-ignore|-text|-walk)?\.ts$/],
  ['workspace', /^server\/workspace[\w-]*\.ts$/],
  ['hosts', /^server\/host-(?:node|memory|web)[\w-]*\.ts$/],
  ['lsp', /^server\/lsp\//],
  ['cli', /^server\/cli\//],
  ['client', /^client\//],
];

/** Rooms side by side: neither imports the other. */
const BESIDE: readonly (readonly [string, string])[] = [
  ['features', 'reports'],
  ['lsp', 'cli'],
];

/** Rooms that touch the outside: files, processes, clocks, editors, browsers. */
const OUTSIDE = ['scripts', 'hosts', 'lsp', 'cli', 'client'];

/** What they work out outlives the text that it was worked out from. */
const KEPT = ['engine', 'findings'];

/** All that the editor's end may know of the server. */
const SHARED_MESSAGES = 'server/lsp/messages.ts';

/** Packages that belong to one place. */
const PACKAGES: readonly (readonly [name: RegExp, files: RegExp, reason: string])[] = [
  [/^vscode-languageserver/, /^server\/lsp\//, 'the protocol is a skin: offsets and plain records everywhere else'],
  [/^vscode(?:-languageclient|$)/, /^client\//, 'the server runs in any editor'],
  [/^commander$/, /^server\/cli\//, 'only the command line reads arguments'],
  [/^preact(?:\/|$|-render)/, /^server\/reports\/|^client\//, 'pages are reports'],
  [/^ignore$/, /^server\/host-ignore\.ts$/, 'files are listed through host.listFiles'],
];

/** Calls that reach outside or differ from run to run, and what to use instead. */
const CALLS: readonly (readonly [call: RegExp, instead: string])[] = [
  [/\bprocess\s*[.[]/g, 'a value handed in from server/cli or server/lsp'],
  [/\bDate\.now\b|\bnew Date\(\s*\)|\bperformance\.now\b/g, 'host.now()'],
  [/\bMath\.random\b|\bcrypto\./g, 'nothing: equal input gives equal output'],
  [/\bfetch\s*\(/g, 'nothing: the product needs no network'],
  [/\bset(?:Timeout|Interval|Immediate)\b/g, 'a step budget; waiting is for server/lsp and server/cli'],
  [
    /\bdocument\.(?:querySelector|getElement|create|body)|\bwindow\.|\blocalStorage\b/g,
    'nothing: scripts of pages stand in server/reports/scripts',
  ],
  [/\bconsole\./g, 'a value handed back; printing is for server/cli'],
  [
    /\.localeCompare\b|\.toLocale\w+\(\s*\)|\bIntl\./g,
    'comparePaths of server/host.ts or < on code units: the order is the same on every machine',
  ],
];

export interface Import {
  readonly specifier: string;
  readonly statement: string;
  readonly line: number;
}

/** The imports and re-exports of a module, types included. */
export function importsOf(text: string): readonly Import[] {
  const source = blanked(text, 'comments');
  return [...source.matchAll(IMPORTS)].map((match) => ({
    specifier: match[1] ?? match[2] ?? '',
    statement: match[0].trim().replace(/\s+/g, ' '),
    line: lineAt(source, match.index + match[0].length),
  }));
}

/** What a module breaks, one line each with the reason. `exists` tells modules of the repository. */
export function brokenRules(file: SourceFile, exists: (path: string) => boolean): readonly string[] {
  const room = roomOf(file.path);
  if (room === null) return [`${file.path}: stands in no room; DEVELOPERS.md lists them`];
  const imports = importsOf(file.text).map((edge) => [edge, brokenImport(file.path, room, edge, exists)] as const);
  return [
    ...imports.flatMap(([{ line }, reason]) => (reason === null ? [] : [`${file.path}:${line}: ${reason}`])),
    ...(OUTSIDE.includes(room) ? [] : bannedCalls(file)),
  ];
}

const IMPORTS = /^\s*(?:import|export)\s(?:[^;'"]*?\sfrom\s+)?['"]([^'"]+)['"]|\bimport\(\s*['"]([^'"]+)['"]\s*\)/gm;

function brokenImport(from: string, room: string, edge: Import, exists: (path: string) => boolean): string | null {
  if (edge.specifier.endsWith('/syntax/span') && KEPT.includes(room) && /\bspanOf\b/.test(edge.statement))
    return `imports spanOf: what ${room} works out is kept while its text moves; use spanBeside of server/syntax/anchor.ts`;
  if (edge.specifier.startsWith('.')) return brokenEdge(from, room, edge, exists);
  if (edge.specifier.startsWith('node:') && !OUTSIDE.includes(room)) {
    return `imports ${edge.specifier}: ${room} is pure and runs in a browser; use server/host.ts`;
  }
  if (edge.specifier === 'zod' && !/^import (?:type )?\* as z from/.test(edge.statement)) {
    return `${edge.statement}: write import * as z from 'zod', which bundles to a fifth of the size`;
  }
  const rule = PACKAGES.find(([name, files]) => name.test(edge.specifier) && !files.test(from));
  return rule ? `imports ${edge.specifier}: ${rule[2]}` : null;
}

function brokenEdge(from: string, room: string, edge: Import, exists: (path: string) => boolean): string | null {
  // A script or a style as the text that a page carries.
  const path = posix.join(posix.dirname(from), edge.specifier.replace(/\?text$/, ''));
  const target = [`${path}.ts`, `${path}.tsx`, path].find(exists);
  if (target === undefined) return `imports ${edge.specifier}: there is no such module (imports have no extension)`;
  const targetRoom = roomOf(target);
  if (targetRoom === null || targetRoom === room)
    return targetRoom === null ? `imports ${target}: it stands in no room` : null;
  if (room === 'client') return brokenClientEdge(target, edge);
  if (BESIDE.some((pair) => pair.includes(room) && pair.includes(targetRoom))) {
    return `imports ${target}: ${room} and ${targetRoom} stand side by side; what both need belongs before them`;
  }
  const isUp = placeOf(targetRoom) < placeOf(room);
  return isUp ? null : `imports ${target}: ${room} comes before ${targetRoom}, and imports point one way only`;
}

function brokenClientEdge(target: string, { statement }: Import): string | null {
  if (target === SHARED_MESSAGES && /^(?:import|export) type /.test(statement)) return null;
  return `imports ${target}: the client holds no domain logic; it takes types of ${SHARED_MESSAGES} and asks the server`;
}

function bannedCalls({ path, text }: SourceFile): readonly string[] {
  const source = blanked(text, 'strings');
  return CALLS.flatMap(([call, instead]) =>
    [...source.matchAll(call)].map(({ 0: found, index }) => {
      return `${path}:${lineAt(source, index)}: ${found.trim()} reaches outside or differs from run to run; use ${instead}`;
    }),
  );
}

function roomOf(path: string): string | null {
  return ORDER.find(([, files]) => files.test(path))?.[0] ?? null;
}

function placeOf(room: string): number {
  return ORDER.findIndex(([name]) => name === room);
}

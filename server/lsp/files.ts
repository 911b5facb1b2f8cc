/** Files and folders that change outside the editor's documents: watched, created, renamed, deleted, added. */
import { DidChangeWatchedFilesNotification, type WorkspaceFolder } from 'vscode-languageserver';
import { CONFIGURATION_FILE } from '../model/configuration';
import type { LiveProduct } from './products';
import type { ServerState } from './state';
import type { Turns } from './turn';
import { schemeOf } from './uris';

/** Work on files, in one queue; edits do not wait for it. */
export interface FileWork {
  /** Finds products and reads everything. */
  rescan(): Promise<void>;
  setFolders(folders: readonly WorkspaceFolder[]): Promise<void>;
  /** By key: files or folders that may be other than they were, or gone. */
  changed(keys: readonly string[]): void;
  /** A document that was opened and may be of no product yet. */
  opened(key: string): void;
  /** Asks the client to tell of changes. */
  watch(): Promise<void>;
}

/** What decides which files and products there are. */
const DECIDES = /(?:^|\/)(?:\.gitignore|\.?plimsoll\.(?:ya?ml|json))$/;
const WATCHED = ['**/*.md', '**/*.csv', '**/{plimsoll,.plimsoll}.{yaml,yml,json}', '**/.gitignore'];

export function createFileWork(state: ServerState, turns: Turns): FileWork {
  const { products, uris, connection, client, reading } = state;
  const rescan = () => reading.enqueue(() => scan(state, turns));
  return {
    rescan,
    setFolders: (folders) => {
      for (const { uri } of folders) {
        uris.allow(schemeOf(uri));
        uris.learn(uri);
      }
      products.setFolders(folders.flatMap(({ uri }) => uris.keyOf(uri) ?? []));
      return rescan();
    },
    changed: (keys) => {
      if (keys.some((key) => DECIDES.test(key))) void rescan();
      else if (keys.length > 0) void reading.enqueue(() => readChanged(state, turns, keys));
    },
    opened: (key) => {
      void reading.enqueue(async () => {
        if (!state.isScanned) return;
        const found = products.at(key);
        if (found === null) await products.adopt(key);
        else if (!found.live.open.files.has(found.path) && found.path !== CONFIGURATION_FILE)
          await products.readFiles(found.live, new Set([found.path]));
        const live = products.at(key)?.live;
        if (live !== undefined && live.result === null) turns.note(live);
      });
    },
    watch: async () => {
      if (!client.workspace?.didChangeWatchedFiles?.dynamicRegistration) return;
      await connection.client.register(DidChangeWatchedFilesNotification.type, {
        watchers: WATCHED.map((globPattern) => ({ globPattern })),
      });
    },
  };
}

async function scan(state: ServerState, turns: Turns): Promise<void> {
  const { products } = state;
  const progress = state.isScanned ? NO_PROGRESS : firstProgress(state);
  try {
    const gone = await products.scan((what) => progress.report(`reading ${what}`));
    for (const live of gone) turns.drop(live);
    state.isScanned = true;
    for (const live of products.all()) turns.note(live);
    turns.flush();
  } finally {
    state.isScanned = true;
    progress.done();
  }
}

interface Progress {
  report(what: string): void;
  done(): void;
}

const NO_PROGRESS: Progress = { report: () => undefined, done: () => undefined };

/** Shown once the client agrees; nothing waits for a client that does not. */
function firstProgress({ connection, client }: ServerState): Progress {
  if (!client.window?.workDoneProgress) return NO_PROGRESS;
  let isDone = false;
  let shown: Progress = NO_PROGRESS;
  connection.window.createWorkDoneProgress().then(
    (progress) => {
      if (isDone) return;
      progress.begin('Plimsoll', undefined, 'reading', false);
      shown = progress;
    },
    () => undefined,
  );
  return {
    report: (what) => shown.report(what),
    done: () => {
      isDone = true;
      shown.done();
    },
  };
}

/** One batch a notification: a change of branch is one reading, not one a file. */
async function readChanged(state: ServerState, turns: Turns, keys: readonly string[]): Promise<void> {
  if (!state.isScanned) return;
  const { products } = state;
  const paths = new Map<LiveProduct, Set<string>>();
  for (const key of keys) {
    const found = products.at(key);
    if (found === null) continue;
    const known = paths.get(found.live) ?? new Set();
    paths.set(found.live, known);
    for (const path of withFilesBelow(found.live, found.path)) known.add(path);
  }
  for (const [live, changed] of paths) {
    if (await products.readFiles(live, changed.has('') ? null : changed)) turns.note(live);
  }
}

/** A folder stands for all that was read in it. */
function withFilesBelow({ open }: LiveProduct, path: string): readonly string[] {
  return [path, ...[...open.files].filter((file) => file.startsWith(`${path}/`))];
}

/** Changes of files below a folder, gathered until they settle: one batch for a burst. */
import { type Stats, statSync } from 'node:fs';
import { watch } from 'chokidar';
import { pathBelow } from '../host';
import { isSkippedFolder } from '../host-walk';

export interface FileChanges {
  /** Paths below the folder that changed since the last batch ({@link ROOT}: the folder itself); null once stopped. */
  next(): Promise<ReadonlySet<string> | null>;
  close(): Promise<void>;
}

/** How the folder itself is called in a batch. */
export const ROOT = '';

/** A burst of changes is over after so many milliseconds without one. */
const SETTLES_AFTER = 100;

/**
 * Watches a folder; resolves once no later change can be missed.
 * @param root absolute, with `/`
 * @param matters which paths below the folder are worth waking up for
 * @param stop ends the waiting
 */
export async function watchFiles(
  root: string,
  matters: (path: string) => boolean,
  stop: AbortSignal,
): Promise<FileChanges> {
  const batches = new Batches();
  const watcher = watch(root, {
    ignoreInitial: true,
    ignored: (path, stats) => isSkipped(root, path.replaceAll('\\', '/'), stats),
  });
  const onStop = () => batches.stop();
  stop.addEventListener('abort', onStop);
  if (stop.aborted) onStop();
  watcher.on('all', (_, changed) => {
    const path = pathBelow(root, changed.replaceAll('\\', '/'));
    if (path === ROOT || matters(path)) batches.add(path);
  });
  // A folder that cannot be watched can be read all the same; the report says what cannot.
  watcher.on('error', (error) => process.stderr.write(`plimsoll: watching: ${messageOf(error)}\n`));
  await new Promise<void>((resolve) => {
    watcher.once('ready', resolve);
    stop.addEventListener('abort', () => resolve(), { once: true });
    if (stop.aborted) resolve();
  });
  return {
    next: () => batches.next(),
    close: async () => {
      stop.removeEventListener('abort', onStop);
      batches.stop();
      await watcher.close();
    },
  };
}

/** What a listing leaves out whatever is ignored: links to folders, which may lead round in a circle, among them. */
function isSkipped(root: string, path: string, stats: Stats | undefined): boolean {
  if (path === root) return false;
  const name = path.slice(path.lastIndexOf('/') + 1);
  if (name === '.git' || name === 'node_modules') return true;
  return stats?.isSymbolicLink() ? leadsToFolder(path) : stats?.isDirectory() === true && isSkippedFolder(name);
}

function leadsToFolder(link: string): boolean {
  try {
    return statSync(link).isDirectory();
  } catch {
    return false;
  }
}

function messageOf(error: unknown): string {
  return error instanceof Error ? error.message : String(error);
}

/** Gathers paths; whoever waits is woken once nothing was added for a while. */
class Batches {
  private gathered = new Set<string>();
  private timer: NodeJS.Timeout | null = null;
  private isSettled = false;
  private isStopped = false;
  private wake: (() => void) | null = null;

  add(path: string): void {
    if (this.isStopped) return;
    this.gathered.add(path);
    this.isSettled = false;
    if (this.timer !== null) clearTimeout(this.timer);
    this.timer = setTimeout(() => {
      this.isSettled = true;
      this.wake?.();
    }, SETTLES_AFTER);
  }

  stop(): void {
    this.isStopped = true;
    if (this.timer !== null) clearTimeout(this.timer);
    this.wake?.();
  }

  async next(): Promise<ReadonlySet<string> | null> {
    while (!this.isSettled && !this.isStopped)
      await new Promise<void>((resolve) => {
        this.wake = resolve;
      });
    if (this.isStopped) return null;
    const batch = this.gathered;
    this.gathered = new Set();
    this.isSettled = false;
    return batch;
  }
}

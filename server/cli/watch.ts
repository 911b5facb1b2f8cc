/** `plimsoll check --watch`: a new report after each change that settles, until it is interrupted. */
import { setTimeout as pause } from 'node:timers/promises';
import type { Host } from '../host';
import { fileFilter, findProduct } from '../host-files';
import { hostPath } from '../host-node';
import { CONFIGURATION_FILE } from '../model/configuration';
import { type CheckOptions, dayOf, reportOn } from './check';
import type { ExitStatus } from './exit-status';
import { ROOT, watchFiles } from './file-changes';
import { judge, type NotedProduct, openProduct, readAgain } from './product';

/** How often a folder that is gone is looked for, in milliseconds. */
const LOOKS_EVERY = 200;

/** @returns the status of the last check, once `stop` is signalled */
export async function runWatch(host: Host, dir: string, options: CheckOptions, stop: AbortSignal): Promise<ExitStatus> {
  const state: WatchState = { host, dir, options, stop, status: 2 };
  let product = await openProduct(host, dir);
  if (product === null) process.stderr.write(`plimsoll: ${dir}: there is no such folder\n`);
  while (product !== null) {
    await watchProduct(state, product);
    product = stop.aborted ? null : await openedAgain(state);
  }
  return state.status;
}

interface WatchState {
  readonly host: Host;
  readonly dir: string;
  readonly stop: AbortSignal;
  options: CheckOptions;
  /** Of the last check. */
  status: ExitStatus;
}

/** Until it is stopped, or another folder becomes the product's. */
async function watchProduct(state: WatchState, product: NotedProduct): Promise<void> {
  const { root } = product.place;
  const changes = await watchFiles(root, (path) => matters(product, path), state.stop);
  try {
    await readAgain(state.host, product, null);
    await report(state, product);
    process.stderr.write(`plimsoll: watching ${root}\n`);
    for (let batch = await changes.next(); batch !== null; batch = await changes.next()) {
      const place = await findProduct(state.host, hostPath(state.dir));
      if (place?.root !== root || batch.has(ROOT)) return;
      if (await readAgain(state.host, product, batch)) await report(state, product);
    }
  } finally {
    await changes.close();
  }
}

async function report(state: WatchState, product: NotedProduct): Promise<void> {
  const { status, isWritten } = await reportOn(
    state.host,
    judge(product, dayOf(state.host, state.options)),
    state.options,
  );
  state.status = status;
  // The next report replaces the one that was written, which is ours.
  if (isWritten) state.options = { ...state.options, force: true };
}

/** Documents, what they read, and files that say which documents there are. */
function matters({ workspace, data }: NotedProduct, path: string): boolean {
  const name = path.slice(path.lastIndexOf('/') + 1);
  if (name === CONFIGURATION_FILE || name === '.gitignore' || data.has(path)) return true;
  return fileFilter(workspace.configuration)(path);
}

/** The product of the folder, as soon as there is such a folder; null when stopped before. */
async function openedAgain({ host, dir, stop }: WatchState): Promise<NotedProduct | null> {
  let isSaid = false;
  for (;;) {
    const product = await openProduct(host, dir);
    if (product !== null || stop.aborted) return product;
    if (!isSaid) process.stderr.write(`plimsoll: ${dir}: the folder is gone; waiting for it to come back\n`);
    isSaid = true;
    await pause(LOOKS_EVERY);
  }
}

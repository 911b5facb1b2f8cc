/** Replaces a file with another, whole or not at all, whatever the disk does meanwhile. */
import { randomBytes } from 'node:crypto';
import type { Stats } from 'node:fs';
import { type FileHandle, open, realpath, rename, stat, unlink } from 'node:fs/promises';

/**
 * Writes beside the file, and takes its place once all bytes are on the disk. A link is written through; mode and owner
 * are kept. Rejects with the error of the file system, and the file is as it was.
 */
export async function replaceFile(path: string, bytes: Uint8Array): Promise<void> {
  const target = await realpath(path).catch(() => path);
  const before = await stat(target).catch(() => null);
  const temporary = `${target}.${randomBytes(6).toString('hex')}.tmp`;
  const handle = await open(temporary, 'wx', before?.mode);
  try {
    await fill(handle, bytes, before);
    await rename(temporary, target);
  } catch (error) {
    await unlink(temporary).catch(() => undefined);
    throw error;
  }
}

async function fill(handle: FileHandle, bytes: Uint8Array, before: Stats | null): Promise<void> {
  try {
    // Goes on after a short write, which is how a full disk begins, until all is written or an error tells of it.
    await handle.writeFile(bytes);
    if (before !== null) await keepOwner(handle, before);
    await handle.sync();
  } finally {
    await handle.close();
  }
}

/** Only a superuser may give a file away (chown(2)); who may not, keeps it. */
async function keepOwner(handle: FileHandle, { uid, gid, mode }: Stats): Promise<void> {
  if (process.platform === 'win32') return;
  await handle.chown(uid, gid).catch(() => undefined);
  // The mask of the process may have taken bits away, and so may a change of owner.
  await handle.chmod(mode & PERMISSIONS).catch(() => undefined);
}

const PERMISSIONS = 0o7777;

/** Temporary folders on the real disk, gone after the test that made them. */
import { execFileSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, realpathSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { onTestFinished } from 'vitest';

/** A new folder that holds these files, by path. Tests that run side by side say when each of them is finished. */
export function temporaryFolder(
  files: Readonly<Record<string, string | Uint8Array>> = {},
  whenFinished: typeof onTestFinished = onTestFinished,
): string {
  const folder = realpathSync(mkdtempSync(join(tmpdir(), 'plimsoll-')));
  whenFinished(() => rmSync(folder, { recursive: true, force: true }));
  addFiles(folder, files);
  return folder;
}

export function addFiles(folder: string, files: Readonly<Record<string, string | Uint8Array>>): void {
  for (const [path, content] of Object.entries(files)) {
    mkdirSync(dirname(join(folder, path)), { recursive: true });
    writeFileSync(join(folder, path), content);
  }
}

/** Runs git in a folder, with nothing of the machine's or the user's configuration. */
export function git(folder: string, ...command: readonly string[]): string {
  return execFileSync('git', ['-c', 'user.name=A. Person', '-c', 'user.email=person@example.org', ...command], {
    cwd: folder,
    encoding: 'utf8',
    stdio: ['ignore', 'pipe', 'ignore'],
    env: { ...process.env, GIT_CONFIG_GLOBAL: '/dev/null', GIT_CONFIG_SYSTEM: '/dev/null' },
  });
}

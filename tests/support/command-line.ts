/** Runs the built command line as a user does: another process, real files. */
import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';

const CLI = join(import.meta.dirname, '..', '..', 'dist', 'cli.js');

export interface Run {
  readonly status: number | null;
  readonly out: string;
  readonly errors: string;
}

export function plimsoll(
  args: readonly string[],
  options: { readonly environment?: NodeJS.ProcessEnv; readonly cwd?: string } = {},
): Run {
  if (!existsSync(CLI)) throw new Error('dist/cli.js is missing: npm run build');
  const { status, stdout, stderr } = spawnSync(process.execPath, [CLI, ...args], {
    encoding: 'utf8',
    cwd: options.cwd,
    env: { ...process.env, ...options.environment },
    maxBuffer: 2 ** 28,
  });
  return { status, out: stdout, errors: stderr };
}

/** A folder with these files that is gone after the work. */
export function inFolder<Result>(
  files: Readonly<Record<string, string | Uint8Array>>,
  work: (folder: string) => Result,
): Result {
  const folder = mkdtempSync(join(tmpdir(), 'plimsoll-'));
  try {
    for (const [path, content] of Object.entries(files)) {
      mkdirSync(dirname(join(folder, path)), { recursive: true });
      writeFileSync(join(folder, path), content);
    }
    return work(folder);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

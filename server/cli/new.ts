/** `plimsoll new`: writes the five-minute file. */
import { mkdir } from 'node:fs/promises';
import { resolve } from 'node:path';
import { type Host, pathIn } from '../host';
import { STARTER_FILE, STARTER_TEXT } from '../reports/starter';
import type { ExitStatus } from './exit-status';

export async function runNew(host: Host, dir: string): Promise<ExitStatus> {
  const folder = resolve(dir).replaceAll('\\', '/');
  try {
    await mkdir(folder, { recursive: true });
  } catch (error) {
    process.stderr.write(
      `plimsoll: ${dir}: cannot be made: ${error instanceof Error ? error.message : String(error)}\n`,
    );
    return 2;
  }
  const written = await host.writeFile(pathIn(folder, STARTER_FILE), STARTER_TEXT, { type: 'absent' });
  if (written.type !== 'written') {
    process.stderr.write(`plimsoll: ${STARTER_FILE}: not written: ${written.reason}\n`);
    return 2;
  }
  process.stdout.write(
    `Wrote ${pathIn(dir, STARTER_FILE)}. Now: plimsoll check ${dir}\nThen change 45 W to 65 W in it and check again.\n`,
  );
  return 0;
}

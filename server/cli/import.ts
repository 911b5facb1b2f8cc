/** `plimsoll import`: requirements of a spreadsheet's CSV as a document, once; nothing that stands there is overwritten. */
import { basename, resolve } from 'node:path';
import { importedCsv } from '../features/import-csv';
import type { Host } from '../host';
import { decodeText } from '../host-text';
import { deliver } from './deliver';
import type { ExitStatus } from './exit-status';

export async function runImport(
  host: Host,
  file: string,
  { output }: { readonly output?: string },
): Promise<ExitStatus> {
  const read = await host.readFile(resolve(file).replaceAll('\\', '/'));
  if (read.type !== 'bytes')
    return stop(
      `${file}: ${read.type === 'unreadable' ? read.reason : read.type === 'missing' ? 'there is no such file' : 'it is too large'}`,
    );
  const { text, problem } = decodeText(read.bytes);
  if (problem !== null) return stop(`${file}: ${problem.message}; save it as CSV UTF-8`);
  const imported = importedCsv(text, basename(file).replace(/\.[^.]*$/, ''));
  if ('mistake' in imported) return stop(`${file}: ${imported.mistake}`);
  const written = await put(host, imported.text, output);
  for (const note of imported.notes) process.stderr.write(`plimsoll: ${note}\n`);
  if (written)
    process.stderr.write(`plimsoll: ${imported.count} requirement${imported.count === 1 ? '' : 's'} taken over\n`);
  return written ? 0 : 2;
}

/** Never over anything that stands there. */
async function put(host: Host, text: string, output: string | undefined): Promise<boolean> {
  if (output === undefined) return deliver(host, text, {});
  const path = resolve(output).replaceAll('\\', '/');
  const written = await host.writeFile(path, text, { type: 'absent' });
  if (written.type !== 'written') process.stderr.write(`plimsoll: ${output}: not written: ${written.reason}\n`);
  return written.type === 'written';
}

function stop(reason: string): ExitStatus {
  process.stderr.write(`plimsoll: ${reason}\n`);
  return 2;
}

/** Where a command's output goes: a file, or standard output with colour where that is a terminal. */
import { resolve } from 'node:path';
import type { Host } from '../host';
import type { Mark, TextStyle } from '../reports/text-style';
import { padEnd, padStart, painterFor, type Style, writeAll } from './output';

export interface Delivery {
  readonly output?: string;
  readonly force?: boolean;
}

const STYLES: Readonly<Record<Mark, Style>> = {
  heading: 'bold',
  good: 'green',
  doubtful: 'yellow',
  bad: 'red',
  quiet: 'dim',
};

/** Colour for a terminal, none for files and pipes. */
export function styleFor({ output }: Delivery): TextStyle {
  const paint = output === undefined ? painterFor(process.stdout, process.env) : (_: Style, text: string) => text;
  return { paint: (mark: Mark, text: string) => paint(STYLES[mark], text), pad: padEnd, padStart };
}

/** A text, bytes, or a text in pieces that are made as they are written. */
export type Content = string | Uint8Array | Pieces;

export interface Pieces {
  readonly pieces: Iterable<string>;
}

/**
 * Writes a text, or the bytes of a file that is none, to the file asked for or to standard output. False, with a line on
 * standard error, where that fails.
 */
export async function deliver(host: Host, content: Content, { output, force }: Delivery): Promise<boolean> {
  if (output === undefined) {
    if (content instanceof Uint8Array && process.stdout.isTTY) {
      process.stderr.write(
        'plimsoll: this format is no text and is not written to a terminal; name a file with -o FILE\n',
      );
      return false;
    }
    const pieces = isPieces(content) ? content.pieces : [content];
    for (const piece of pieces) await writeAll(process.stdout, piece);
    return true;
  }
  const path = resolve(output).replaceAll('\\', '/');
  const whole = isPieces(content) ? [...content.pieces].join('') : content;
  const written = await host.writeFile(path, whole, { type: force ? 'always' : 'absent' });
  if (written.type === 'written') return true;
  const hint = written.type === 'refused' ? '; --force overwrites it' : '';
  process.stderr.write(`plimsoll: ${output}: not written: ${written.reason}${hint}\n`);
  return false;
}

function isPieces(content: Content): content is Pieces {
  return typeof content === 'object' && 'pieces' in content;
}

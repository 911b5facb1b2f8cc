/** Text for people on a terminal: colour, width, progress, and pipes that close early. */
import { styleText } from 'node:util';
import stringWidth from 'string-width';

export type Style = Parameters<typeof styleText>[0];

/** Writes a text in a style, or plainly where there is no colour. */
export type Painter = (style: Style, text: string) => string;

/** The little that is asked of a stream, so that tests can stand in for one. */
export interface OutputStream {
  readonly isTTY?: boolean | undefined;
  write(content: string | Uint8Array, done?: (error?: Error | null) => void): boolean;
}

/** Work that takes longer than this says so, in milliseconds. */
const PROGRESS_DELAY = 500;

/** Moves to the start of the line and erases it (ECMA-48, 8.3.41 EL). */
const ERASE_LINE = '\r\u001b[K';

/** Colour only on a terminal, and not where `NO_COLOR` holds anything (no-color.org). */
export function painterFor(stream: OutputStream, environment: NodeJS.ProcessEnv): Painter {
  if (!stream.isTTY || environment.NO_COLOR) return (_, text) => text;
  return (style, text) => styleText(style, text, { validateStream: false });
}

/** How many columns a text takes on a terminal: wide characters take two, marks and colours none. */
export function columnsOf(text: string): number {
  return stringWidth(text);
}

/** The text with spaces after it until it takes so many columns. */
export function padEnd(text: string, columns: number): string {
  return text + ' '.repeat(Math.max(0, columns - columnsOf(text)));
}

/** The text with spaces before it until it takes so many columns. */
export function padStart(text: string, columns: number): string {
  return ' '.repeat(Math.max(0, columns - columnsOf(text))) + text;
}

/**
 * Does the work, and says on the stream (standard error) what is being done once it has taken half a second. A
 * terminal shows the latest `report` and is clean again at the end; elsewhere one line is written.
 */
export async function withProgress<T>(
  stream: OutputStream,
  doing: string,
  work: (report: (doing: string) => void) => Promise<T>,
): Promise<T> {
  const started = performance.now();
  let latest = doing;
  let isShown = false;
  const show = () => {
    if (isShown && !stream.isTTY) return;
    isShown = true;
    stream.write(stream.isTTY ? `${ERASE_LINE}${latest} …` : `${latest} …\n`);
  };
  const timer = setTimeout(show, PROGRESS_DELAY);
  try {
    return await work((now) => {
      latest = now;
      // Work that does not pause lets no timer run.
      if (performance.now() - started >= PROGRESS_DELAY) show();
    });
  } finally {
    clearTimeout(timer);
    if (isShown && stream.isTTY) stream.write(ERASE_LINE);
  }
}

/** Writes all of it and waits until it is out, so that a process may end. Rejects for all but a closed pipe. */
export function writeAll(stream: OutputStream, content: string | Uint8Array): Promise<void> {
  return new Promise((resolve, reject) => {
    stream.write(content, (error) => (error && !isClosedPipe(error) ? reject(error) : resolve()));
  });
}

/**
 * Lets a reader go away early (`… | head`): that is no error of ours, so the stream's own error event, which would end
 * the process with a stack trace, is taken.
 */
export function allowClosedPipe(stream: NodeJS.WritableStream): void {
  stream.on('error', (error: Error) => {
    if (!isClosedPipe(error)) throw error;
  });
}

/** EPIPE on POSIX; Windows says EOF. */
function isClosedPipe(error: Error): boolean {
  return 'code' in error && (error.code === 'EPIPE' || error.code === 'EOF' || error.code === 'ERR_STREAM_DESTROYED');
}

/** One line on standard error, and the exit status of usage or input that cannot be used. */
export function refuse(message: string): 2 {
  process.stderr.write(`plimsoll: ${message}\n`);
  return 2;
}

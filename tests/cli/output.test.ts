/** Text for people: colour, width, progress, closed pipes. */
import { PassThrough } from 'node:stream';
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { fileNotes } from '../../server/cli/files';
import {
  allowClosedPipe,
  columnsOf,
  type OutputStream,
  padEnd,
  padStart,
  painterFor,
  withProgress,
  writeAll,
} from '../../server/cli/output';

function recorder(isTTY: boolean, error: Error | null = null): OutputStream & { readonly written: string[] } {
  const written: string[] = [];
  const write: OutputStream['write'] = (content, done) => {
    written.push(String(content));
    done?.(error);
    return true;
  };
  return { isTTY, written, write };
}

describe('colour', () => {
  test('on a terminal only, and not where NO_COLOR says no', () => {
    expect(painterFor(recorder(true), {})('red', 'x')).toBe('\u001b[31mx\u001b[39m');
    expect(painterFor(recorder(true), { NO_COLOR: '' })('red', 'x')).toBe('\u001b[31mx\u001b[39m');
    expect(painterFor(recorder(true), { NO_COLOR: '1' })('red', 'x')).toBe('x');
    expect(painterFor(recorder(false), {})('red', 'x')).toBe('x');
  });
});

test('columns are those of a terminal', () => {
  expect(columnsOf('\u001b[31m漢e\u0301\u001b[39m')).toBe(3);
  expect(padEnd('漢', 4)).toBe('漢  ');
  expect(padStart('漢', 4)).toBe('  漢');
  expect(padEnd('long', 2)).toBe('long');
});

describe('progress', () => {
  beforeEach(() => void vi.useFakeTimers());
  afterEach(() => void vi.useRealTimers());
  const wait = (milliseconds: number) => new Promise((resolve) => setTimeout(resolve, milliseconds));

  test('quick work says nothing', async () => {
    const stream = recorder(true);
    const work = withProgress(stream, 'Reading', async () => wait(400));
    await vi.advanceTimersByTimeAsync(600);
    await work;
    expect(stream.written).toEqual([]);
  });

  test('a terminal shows the latest and is clean again, also after a failure', async () => {
    const stream = recorder(true);
    const work = withProgress(stream, 'Reading', async (report) => {
      await wait(600);
      report('Checking');
      throw new Error('no');
    });
    const outcome = expect(work).rejects.toThrow('no');
    await vi.advanceTimersByTimeAsync(700);
    await outcome;
    expect(stream.written).toEqual(['\r\u001b[KReading …', '\r\u001b[KChecking …', '\r\u001b[K']);
  });

  test('elsewhere one line is written', async () => {
    const stream = recorder(false);
    const work = withProgress(stream, 'Reading', async (report) => {
      await wait(600);
      report('Checking');
    });
    await vi.advanceTimersByTimeAsync(700);
    await work;
    expect(stream.written).toEqual(['Reading …\n']);
  });

  test('work that never pauses shows it when it reports', async () => {
    const stream = recorder(false);
    await withProgress(stream, 'Reading', async (report) => {
      report('Early');
      vi.spyOn(performance, 'now').mockReturnValueOnce(performance.now() + 600);
      report('Checking');
    });
    expect(stream.written).toEqual(['Checking …\n']);
  });
});

describe('a pipe that closes early', () => {
  const closed = Object.assign(new Error('write EPIPE'), { code: 'EPIPE' });

  test('is no error of a write; another failure is', async () => {
    await writeAll(recorder(false, closed), 'text');
    await expect(writeAll(recorder(false, new Error('disk full')), 'text')).rejects.toThrow('disk full');
  });

  test('is no error event; another failure is', () => {
    const stream = new PassThrough();
    allowClosedPipe(stream);
    stream.emit('error', closed);
    expect(() => stream.emit('error', new Error('disk full'))).toThrow('disk full');
  });
});

test('what was not read is said', () => {
  const place = { root: '/w', hasConfiguration: false, misnamed: '/w/plimsoll.yml' };
  const texts = { nested: ['in'], unreadable: [{ path: 'a.md', reason: 'permission denied' }] };
  expect(fileNotes(place, texts)).toEqual({
    lines: [
      'a.md: cannot be read: permission denied',
      'in: a product of its own (it has a plimsoll.yaml), not checked here',
      '/w/plimsoll.yml: not read, since the configuration is called plimsoll.yaml',
    ],
    isIncomplete: true,
  });
  expect(fileNotes({ ...place, misnamed: null }, { nested: [], unreadable: [] })).toEqual({
    lines: [],
    isIncomplete: false,
  });
});

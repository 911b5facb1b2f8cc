/** `record` and `import` on real files: whole files, nothing lost, clear errors. */

import { spawn, spawnSync } from 'node:child_process';
import {
  chmodSync,
  existsSync,
  readdirSync,
  readFileSync,
  truncateSync,
  utimesSync,
  watch,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test, vi } from 'vitest';
import { runRecord } from '../../server/cli/record';
import type { Host } from '../../server/host';
import { createMemoryHost } from '../../server/host-memory';
import { findFrontMatter } from '../../server/syntax/front-matter';
import { spanOf } from '../../server/syntax/span';
import { parseYaml } from '../../server/syntax/yaml';
import { inFolder, plimsoll } from '../support/command-line';
import { temporaryFolder } from '../support/folder';

const CLI = join(import.meta.dirname, '..', '..', 'dist', 'cli.js');
const PRODUCT =
  '---\nrequirements: Test\nfacts: {draw: 45 W}\nverification: TP-1\nmethod: test\nverifies: [P-1]\n---\n## P-1\nThe box shall draw at most 60 W (`draw`).\n';

test('a run is recorded, and check takes it', () => {
  inFolder({ 'product.md': PRODUCT }, (folder) => {
    const run = plimsoll([
      'record',
      'TP-1',
      '--result',
      'pass',
      '--measured',
      'draw=44 W ± 2 W',
      '--date',
      '2026-10-02',
      '--dir',
      folder,
    ]);
    expect(run).toMatchObject({ status: 0, errors: '' });
    expect(readFileSync(join(folder, 'product.md'), 'utf8')).toContain(
      '- date: 2026-10-02\n    result: pass\n    measured: {draw: 44 W ± 2 W}',
    );
    expect(JSON.parse(plimsoll(['check', folder, '--format', 'json']).out).requirements[0].evidence).toBe('verified');
    expect(readdirSync(folder)).toEqual(['product.md']);
  });
});

test.each([
  [['TP-2', '--result', 'pass'], 'there is no record TP-2'],
  [['TP-1'], '--result'],
  [['TP-1', '--result', 'passed'], 'pass, fail, inconclusive'],
  [['TP-1', '--result', 'pass', '--date', '2026-02-30'], 'no day of the calendar'],
  [['TP-1', '--result', 'pass', '--measured', 'draw'], 'Write a name and its value'],
  [['TP-1', '--result', 'pass', '--measured', 'drew=1 W'], 'the nearest is draw'],
])('%j stops with status 2 and leaves the file', (args, message) => {
  inFolder({ 'product.md': PRODUCT }, (folder) => {
    const run = plimsoll(['record', ...args, '--dir', folder]);
    expect(run.status).toBe(2);
    expect(run.errors).toContain(message);
    expect(readFileSync(join(folder, 'product.md'), 'utf8')).toBe(PRODUCT);
  });
});

test('a run whose day is yet to come is recorded as it is asked for, and said to prove nothing yet', () => {
  inFolder({ 'product.md': PRODUCT }, (folder) => {
    const run = plimsoll(['record', 'TP-1', '--result', 'pass', '--date', '2999-10-02', '--dir', folder]);
    expect(run).toMatchObject({ status: 0, errors: expect.stringContaining('a run of 2999-10-02 counts as one that') });
    const check = (date: string) => JSON.parse(plimsoll(['check', folder, '--format', 'json', '--date', date]).out);
    expect(check('2026-11-15').requirements[0].evidence).toBe('planned');
    expect(check('2999-10-02').requirements[0].evidence).toBe('verified');
  });
});

test('a document of evidence that is too large to be read is not called missing', () => {
  const product = `${PRODUCT}\n- Evidence: [film](film.mp4)\n`;
  inFolder({ 'product.md': product, 'film.mp4': '' }, (folder) => {
    truncateSync(join(folder, 'film.mp4'), 100_000_001);
    const why =
      'P-1 points at film.mp4 as evidence, which cannot be read: it has 100.1 MB, more than the 100 MB that are';
    expect(plimsoll(['check', folder]).out).toContain(why);
    const run = plimsoll(['record', 'TP-1', '--result', 'pass', '--dir', folder]);
    expect(run).toMatchObject({ status: 2, errors: expect.stringContaining(why) });
    truncateSync(join(folder, 'film.mp4'), 1000);
    expect(plimsoll(['record', 'TP-1', '--result', 'pass', '--date', '2026-10-02', '--dir', folder]).status).toBe(0);
    truncateSync(join(folder, 'film.mp4'), 100_000_001);
    expect(plimsoll(['check', folder]).out).toContain(why);
    expect(plimsoll(['check', folder]).out).not.toContain('there any more');
  });
});

test('a file that may not be written is left, and so is one that somebody else is writing', () => {
  inFolder({ 'product.md': PRODUCT }, (folder) => {
    const file = join(folder, 'product.md');
    chmodSync(file, 0o444);
    const refused = plimsoll(['record', 'TP-1', '--result', 'pass', '--dir', folder]);
    expect(refused).toMatchObject({ status: 2, errors: expect.stringContaining('permission denied') });
    chmodSync(file, 0o644);
    writeFileSync(`${file}.lock`, '');
    const busy = plimsoll(['record', 'TP-1', '--result', 'pass', '--dir', folder]);
    expect(busy).toMatchObject({ status: 2, errors: expect.stringContaining('being written by another program') });
    expect(readFileSync(file, 'utf8')).toBe(PRODUCT);
    // What a killed program left behind stands in nobody's way for long.
    utimesSync(`${file}.lock`, 0, 0);
    expect(plimsoll(['record', 'TP-1', '--result', 'pass', '--dir', folder]).status).toBe(0);
    expect(existsSync(`${file}.lock`)).toBe(false);
  });
});

test('a document of evidence that is not there is named', () => {
  inFolder({ 'product.md': `${PRODUCT}\n- Evidence: [report](report.pdf)\n` }, (folder) => {
    const missing = plimsoll(['record', 'TP-1', '--result', 'pass', '--dir', folder]);
    expect(missing).toMatchObject({ status: 2, errors: expect.stringContaining('report.pdf') });
    writeFileSync(join(folder, 'report.pdf'), 'abc');
    expect(plimsoll(['record', 'TP-1', '--result', 'pass', '--dir', folder]).status).toBe(0);
    expect(readFileSync(join(folder, 'product.md'), 'utf8')).toContain('evidence: {report.pdf: "ba7816bf8f01cfea');
    writeFileSync(join(folder, 'report.pdf'), 'abd');
    expect(plimsoll(['check', folder]).out).toContain('report.pdf has been changed since');
  });
});

test('of several records at once none is lost', async () => {
  const folder = temporaryFolder({ 'product.md': PRODUCT });
  const ended = await Promise.all([1, 2, 3].map((day) => started(folder, `2026-10-0${day}`).ended));
  expect(ended).toEqual([0, 0, 0]);
  expect(datesIn(folder)).toEqual(['2026-10-01', '2026-10-02', '2026-10-03']);
}, 30_000);

/** Killed at whatever the folder sees of it: lock, temporary file, rename. */
test('a program that is killed at any step leaves the old file or the new one', async () => {
  const folder = temporaryFolder({ 'product.md': PRODUCT });
  const file = join(folder, 'product.md');
  let before = PRODUCT;
  let killed = 0;
  for (const steps of [1, 2, 3, 4, 5, 6, 7]) {
    const { kill, ended } = started(folder, '2026-10-01');
    let seen = 0;
    const watcher = watch(folder, () => {
      seen += 1;
      if (seen === steps) kill();
    });
    if ((await ended) === null) killed += 1;
    watcher.close();
    const after = readFileSync(file, 'utf8');
    expect([before, added(before)]).toContain(after);
    // What it left behind is no document, and stands in nobody's way for long.
    expect(plimsoll(['check', folder, '--format', 'json']).errors).toBe('');
    if (existsSync(`${file}.lock`)) utimesSync(`${file}.lock`, 0, 0);
    before = after;
  }
  expect(killed).toBeGreaterThan(0);
}, 60_000);

/** The text with one more run. */
function added(text: string): string {
  const run = '  - date: 2026-10-01\n    result: pass\n    proved: {"draw <= 60 W": 45 W}\n    against: {draw: 45 W}\n';
  const end = text.indexOf('---\n## P-1');
  return `${text.slice(0, end)}${text.includes('runs:') ? '' : 'runs:\n'}${run}${text.slice(end)}`;
}

test.runIf(process.platform === 'linux')('a file that may not grow so large is left as it was', () => {
  const long = `${PRODUCT}\n${'It is grey. '.repeat(4000)}\n`;
  inFolder({ 'product.md': long }, (folder) => {
    // Blocks of 512 bytes; whoever writes more gets EFBIG, or is killed by SIGXFSZ (POSIX.1-2024, ulimit -f).
    const command = `ulimit -f 32; exec "${process.execPath}" "${CLI}" record TP-1 --result pass --dir "${folder}"`;
    const { status, signal, stderr } = spawnSync('sh', ['-c', command], { encoding: 'utf8' });
    expect(status === 2 ? stderr : signal).toMatch(/not written: the file would be larger|^SIGXFSZ$/);
    expect(readFileSync(join(folder, 'product.md'), 'utf8')).toBe(long);
  });
});

/** A small disk of its own, where the system lets a test have one (unshare(1), mount(8)). */
function onSmallDisk(folder: string, commands: string) {
  const script = `mount -t tmpfs -o size=64k tmpfs "${folder}" && ${commands}`;
  return spawnSync('unshare', ['-rm', 'sh', '-c', script], { encoding: 'utf8' });
}

const HAS_SMALL_DISK = process.platform === 'linux' && onSmallDisk(tmpdir(), 'true').status === 0;

test.runIf(HAS_SMALL_DISK)('on a full disk the file is left as it was, and nothing beside it', () => {
  const folder = temporaryFolder();
  const long = temporaryFolder({ 'product.md': `${PRODUCT}\n${'It is grey. '.repeat(3000)}\n` });
  const [source, target] = [join(long, 'product.md'), join(folder, 'product.md')];
  const record = `"${process.execPath}" "${CLI}" record TP-1 --result pass --dir "${folder}"`;
  const after = `echo $?; ls "${folder}"; cmp "${source}" "${target}" && echo same`;
  const { stdout, stderr } = onSmallDisk(folder, `cp "${source}" "${target}" && { ${record}; ${after}; }`);
  expect(stderr).toContain('product.md: not written: the disk is full');
  expect(stdout.trim().split('\n')).toEqual(['2', 'product.md', 'same']);
});

test.each(['the disk is full', 'the disk is read-only', 'permission denied'])(
  '%s: said so, with status 2',
  async (reason) => {
    const host = createMemoryHost({ '/p/product.md': new TextEncoder().encode(PRODUCT) });
    const full: Host = { ...host, writeFile: async () => ({ type: 'failed', reason }) };
    const errors = vi.spyOn(process.stderr, 'write').mockReturnValue(true);
    const options = { dir: '/p', result: 'pass', measured: [], at: [] } as const;
    expect(await runRecord(full, 'TP-1', options, '2026-10-02')).toBe(2);
    expect(errors).toHaveBeenCalledExactlyOnceWith(`plimsoll: product.md: not written: ${reason}\n`);
    errors.mockRestore();
  },
);

test('a byte order mark, CRLF, comments, order and quotes stay', () => {
  const text = `\uFEFF---\r\nrequirements: 'Test' # ours\r\nverification: "TP-1"\r\nverifies: [ P-1 ]\r\nmethod: test\r\n# facts last\r\nfacts: {draw:   45 W}\r\n---\r\n## P-1\r\nThe box shall draw at most 60 W (\`draw\`).\r\n`;
  inFolder({ 'product.md': text }, (folder) => {
    expect(plimsoll(['record', 'TP-1', '--result', 'fail', '--date', '2026-10-02', '--dir', folder]).status).toBe(0);
    const run =
      'runs:\r\n  - date: 2026-10-02\r\n    result: fail\r\n    proved: {"draw <= 60 W": 45 W}\r\n    against: {draw: 45 W}\r\n';
    expect(readFileSync(join(folder, 'product.md'), 'utf8')).toBe(text.replace('---\r\n##', `${run}---\r\n##`));
  });
});

test.each([
  ['method: test', 'method: tset', 'no record TP-1 in the product; product.md:5 cannot be read: '],
  ['verifies: [P-1]', 'verifies: [P-1', 'product.md:'],
])('%s written as %s is named, and the file is left', (right, wrong, message) => {
  const text = PRODUCT.replace(right, wrong);
  inFolder({ 'product.md': text }, (folder) => {
    const run = plimsoll(['record', 'TP-1', '--result', 'pass', '--dir', folder]);
    expect(run).toMatchObject({ status: 2, errors: expect.stringContaining(message) });
    expect(readFileSync(join(folder, 'product.md'), 'utf8')).toBe(text);
  });
});

test('another run of one day, and one before the last, are recorded and said', () => {
  inFolder({ 'product.md': PRODUCT }, (folder) => {
    const record = (date: string) => plimsoll(['record', 'TP-1', '--result', 'pass', '--date', date, '--dir', folder]);
    expect(record('2026-10-02').errors).toBe('');
    expect(record('2026-10-02').errors).toContain(
      'another run of 2026-10-02; of runs on one day the last in the file counts',
    );
    expect(record('2026-10-01').errors).toContain('a run later than 2026-10-01, which is the one that counts');
    expect(datesIn(folder)).toEqual(['2026-10-01', '2026-10-02', '2026-10-02']);
  });
});

function started(folder: string, date: string) {
  const child = spawn(process.execPath, [CLI, 'record', 'TP-1', '--result', 'pass', '--date', date, '--dir', folder], {
    stdio: 'ignore',
  });
  return { kill: () => child.kill('SIGKILL'), ended: new Promise<number | null>((done) => child.once('exit', done)) };
}

function datesIn(folder: string): readonly string[] {
  const text = readFileSync(join(folder, 'product.md'), 'utf8');
  const { root, problems } = parseYaml(text, findFrontMatter(text)?.content ?? spanOf(0, 0));
  expect(problems).toEqual([]);
  const runs = root?.type === 'map' ? root.entries.find(({ key }) => key === 'runs')?.value : undefined;
  const dates =
    runs?.type === 'list' ? runs.items.map((run) => (run.type === 'map' ? run.entries[0]?.value : undefined)) : [];
  return dates.map((date) => (date?.type === 'scalar' ? date.text : '')).sort();
}

test('requirements of a spreadsheet become a document, and nothing is overwritten', () => {
  const csv =
    'ID,Title,Requirement,Verify,Colour\nABC-7,Power,"The box shall draw\nat most 60 W.",test,red\n,Mass,# shall be light,,\n';
  inFolder({ 'list.csv': csv }, (folder) => {
    const out = join(folder, 'list.md');
    const run = plimsoll(['import', join(folder, 'list.csv'), '-o', out]);
    expect(run.status).toBe(0);
    expect(run.errors).toContain('Colour');
    expect(run.errors).toContain('row 3 had no id and is ABC-8');
    expect(readFileSync(out, 'utf8')).toContain(
      '## ABC-7 Power\n\nThe box shall draw at most 60 W.\n\n- Verify: test\n',
    );
    writeFileSync(out, 'mine');
    expect(plimsoll(['import', join(folder, 'list.csv'), '-o', out]).status).toBe(2);
    expect(readFileSync(out, 'utf8')).toBe('mine');
    expect(plimsoll(['import', join(folder, 'none.csv')]).errors).toContain('there is no such file');
  });
});

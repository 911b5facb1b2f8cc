/** `record` and `import` on real files: whole files, nothing lost, clear errors. */
import { spawn } from 'node:child_process';
import { chmodSync, existsSync, readdirSync, readFileSync, utimesSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { findFrontMatter } from '../../server/syntax/front-matter';
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

test('a program that is killed leaves the old file or the new one', async () => {
  const folder = temporaryFolder({ 'product.md': PRODUCT });
  const file = join(folder, 'product.md');
  let before = PRODUCT;
  for (const milliseconds of [120, 200, 260, 320, 400]) {
    const { kill, ended } = started(folder, '2026-10-01');
    setTimeout(kill, milliseconds);
    await ended;
    const after = readFileSync(file, 'utf8');
    if (after !== before) expect(after.length).toBeGreaterThan(before.length);
    expect(after.startsWith('---\n') && after.endsWith('(`draw`).\n')).toBe(true);
    if (existsSync(`${file}.lock`)) utimesSync(`${file}.lock`, 0, 0);
    before = after;
  }
  expect(datesIn(folder).every((date) => date === '2026-10-01')).toBe(true);
}, 30_000);

function started(folder: string, date: string) {
  const child = spawn(process.execPath, [CLI, 'record', 'TP-1', '--result', 'pass', '--date', date, '--dir', folder], {
    stdio: 'ignore',
  });
  return { kill: () => child.kill('SIGKILL'), ended: new Promise<number | null>((done) => child.once('exit', done)) };
}

function datesIn(folder: string): readonly string[] {
  const text = readFileSync(join(folder, 'product.md'), 'utf8');
  const { root, problems } = parseYaml(text, findFrontMatter(text)?.content ?? { start: 0, end: 0 });
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

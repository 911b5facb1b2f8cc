/**
 * `plimsoll check --watch` as a process: what it prints after which change, and how it ends. The processes mostly wait,
 * so these tests run side by side.
 */
import { spawn } from 'node:child_process';
import { existsSync, mkdirSync, renameSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { describe, expect, type TestContext, test } from 'vitest';
import { plimsoll } from '../support/command-line';
import { temporaryFolder } from '../support/folder';

const CLI = join(import.meta.dirname, '..', '..', 'dist', 'cli.js');
/** Longer than any change takes on a busy machine. */
const PATIENCE = 20_000;

function fileWith(draw: string): string {
  return `---\nrequirements: My product\nfacts:\n  supply: {draw: ${draw}}\n---\n## P-1 Power\nThe product shall draw no more than 60 W (\`supply.draw\`).\n`;
}

interface Watched {
  /** The last line of each report so far. */
  summaries(): readonly string[];
  errors(): string;
  /** Waits for so many reports, and a while longer for one too many; the summary of the last one. */
  report(count: number): Promise<string>;
  says(words: string): Promise<void>;
  interrupt(): Promise<number | null>;
}

async function watching({ onTestFinished }: TestContext, folder: string, ...more: readonly string[]): Promise<Watched> {
  if (!existsSync(CLI)) throw new Error('dist/cli.js is missing: npm run build');
  const child = spawn(process.execPath, [CLI, 'check', folder, '--watch', ...more], {
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  let [out, errors] = ['', ''];
  child.stdout.setEncoding('utf8').on('data', (text: string) => {
    out += text;
  });
  child.stderr.setEncoding('utf8').on('data', (text: string) => {
    errors += text;
  });
  const ended = new Promise<number | null>((resolve) => child.once('exit', resolve));
  const summaries = () => out.match(/^\d+ requirements?[:.].*$/gm) ?? [];
  let asked = 0;
  onTestFinished(() => {
    child.kill('SIGKILL');
    expect(summaries()).toHaveLength(asked);
  });
  const until = async (isSo: () => boolean) => {
    for (const start = Date.now(); !isSo(); await pause(20))
      if (Date.now() - start > PATIENCE) throw new Error(`waited in vain; printed so far:\n${out}\n${errors}`);
  };
  const watched: Watched = {
    summaries,
    errors: () => errors,
    report: async (count) => {
      asked = count;
      await until(() => summaries().length >= count);
      await pause(250);
      expect(summaries()).toHaveLength(count);
      return summaries()[count - 1] ?? '';
    },
    says: (words) => until(() => errors.includes(words)),
    interrupt: () => {
      child.kill('SIGINT');
      return ended;
    },
  };
  await watched.says('watching');
  return watched;
}

describe.concurrent('a change', () => {
  test('is checked once it settles, and the last status is the exit status', async (context) => {
    const folder = temporaryFolder({ 'a.md': fileWith('45 W') }, context.onTestFinished);
    const watched = await watching(context, folder);
    expect(await watched.report(1)).toContain('1 met');
    writeFileSync(join(folder, 'a.md'), fileWith('65 W'));
    expect(await watched.report(2)).toContain('1 unmet');
    expect(await watched.interrupt()).toBe(1);
  });

  test('a burst is one batch, and what changes nothing is none', async (context) => {
    const folder = temporaryFolder({ 'a.md': fileWith('45 W') }, context.onTestFinished);
    const watched = await watching(context, folder);
    await watched.report(1);
    for (const draw of ['46 W', '47 W', '48 W', '66 W']) {
      writeFileSync(join(folder, 'a.md'), fileWith(draw));
      writeFileSync(join(folder, `${draw[1]}.md`), 'No requirements here.\n');
      await pause(10);
    }
    expect(await watched.report(2)).toContain('1 unmet');
    writeFileSync(join(folder, 'a.md'), fileWith('66 W'));
    writeFileSync(join(folder, 'a.txt'), 'none of ours');
    mkdirSync(join(folder, 'node_modules'));
    writeFileSync(join(folder, 'node_modules', 'b.md'), fileWith('1 W'));
    expect(await watched.report(2)).toContain('1 unmet');
    writeFileSync(join(folder, 'a.md'), fileWith('59 W'));
    expect(await watched.report(3)).toContain('1 met');
    expect(await watched.interrupt()).toBe(0);
  });

  test('a file that is replaced by another of its name, as editors save', async (context) => {
    const folder = temporaryFolder({ 'a.md': fileWith('45 W') }, context.onTestFinished);
    const watched = await watching(context, folder);
    await watched.report(1);
    for (const [index, draw] of ['65 W', '44 W'].entries()) {
      writeFileSync(join(folder, 'a.md~'), fileWith(draw));
      renameSync(join(folder, 'a.md~'), join(folder, 'a.md'));
      expect(await watched.report(index + 2)).toContain(draw === '65 W' ? '1 unmet' : '1 met');
    }
  });

  test('of plimsoll.yaml, its coming and going', async (context) => {
    const folder = temporaryFolder(
      {
        'a.md': fileWith('45 W'),
        'drafts/b.md': fileWith('65 W').replace('P-1', 'P-2'),
      },
      context.onTestFinished,
    );
    const watched = await watching(context, folder);
    await watched.report(1);
    writeFileSync(join(folder, 'plimsoll.yaml'), 'exclude: ["drafts/**"]\n');
    expect(await watched.report(2)).toMatch(/^1 requirement: 1 met/);
    writeFileSync(join(folder, 'plimsoll.yaml'), 'exclud: ["drafts/**"]\n');
    await watched.report(3);
    expect(watched.errors()).toContain('plimsoll.yaml has mistakes');
    rmSync(join(folder, 'plimsoll.yaml'));
    expect(await watched.report(4)).toMatch(/^2 requirements/);
  });

  test('of a CSV file that a table reads', async (context) => {
    const table =
      '---\nrequirements: My product\nparts: {from: bom.csv, id: Name, fields: {power: Power}}\n---\n## P-1\n- Check: `sum(power over parts) <= 60 W`\n';
    const folder = temporaryFolder({ 'a.md': table, 'bom.csv': 'Name,Power\nsoc,12 W\n' }, context.onTestFinished);
    const watched = await watching(context, folder);
    expect(await watched.report(1)).toContain('1 met');
    writeFileSync(join(folder, 'bom.csv'), 'Name,Power\nsoc,72 W\n');
    expect(await watched.report(2)).toContain('1 unmet');
  });
});

test.concurrent('of a file behind a link is seen, and a link that leads round in a circle is not followed', async (context) => {
  const folder = temporaryFolder({ 'x/y.txt': '' }, context.onTestFinished);
  const target = join(temporaryFolder({ 'real.md': fileWith('45 W') }, context.onTestFinished), 'real.md');
  symlinkSync(target, join(folder, 'a.md'));
  symlinkSync('..', join(folder, 'x', 'up'));
  const watched = await watching(context, folder);
  expect(await watched.report(1)).toContain('1 met');
  writeFileSync(target, fileWith('65 W'));
  expect(await watched.report(2)).toContain('1 unmet');
  expect(watched.errors()).not.toContain('ELOOP');
});

describe.concurrent('what is deleted and comes back', () => {
  test('a file', async (context) => {
    const folder = temporaryFolder({ 'a.md': fileWith('45 W'), 'b.md': 'Nothing.\n' }, context.onTestFinished);
    const watched = await watching(context, folder);
    await watched.report(1);
    rmSync(join(folder, 'a.md'));
    await watched.report(2);
    writeFileSync(join(folder, 'a.md'), fileWith('65 W'));
    expect(await watched.report(3)).toContain('1 unmet');
  });

  test('a folder of the product, twice, with another text each time', async (context) => {
    const folder = temporaryFolder({ 'x/y/a.md': fileWith('45 W') }, context.onTestFinished);
    const watched = await watching(context, folder);
    let count = 1;
    await watched.report(count);
    for (const draw of ['65 W', '44 W']) {
      rmSync(join(folder, 'x'), { recursive: true });
      await watched.report(++count);
      mkdirSync(join(folder, 'x', 'y'), { recursive: true });
      writeFileSync(join(folder, 'x', 'y', 'a.md'), fileWith(draw));
      expect(await watched.report(++count)).toContain(draw === '65 W' ? '1 unmet' : '1 met');
      writeFileSync(join(folder, 'x', 'y', 'a.md'), fileWith('61 W'));
      expect(await watched.report(++count)).toContain('1 unmet');
    }
  });

  test('the folder itself', async (context) => {
    const above = temporaryFolder({ 'product/a.md': fileWith('45 W') }, context.onTestFinished);
    const folder = join(above, 'product');
    const watched = await watching(context, folder);
    await watched.report(1);
    rmSync(folder, { recursive: true });
    await watched.says('the folder is gone');
    mkdirSync(folder);
    writeFileSync(join(folder, 'a.md'), fileWith('65 W'));
    expect(await watched.report(2)).toContain('1 unmet');
    writeFileSync(join(folder, 'a.md'), fileWith('45 W'));
    expect(await watched.report(3)).toContain('1 met');
    expect(await watched.interrupt()).toBe(0);
  });
});

test.concurrent('-o replaces its own file after each change, and refuses one that stood there before', async (context) => {
  const folder = temporaryFolder({ 'a.md': fileWith('45 W') }, context.onTestFinished);
  const file = join(temporaryFolder({}, context.onTestFinished), 'out.txt');
  const watched = await watching(context, folder, '-o', file, '--format', 'json');
  writeFileSync(join(folder, 'a.md'), fileWith('65 W'));
  await pause(1000);
  expect(watched.errors()).not.toContain('not written');
  expect(await watched.interrupt()).toBe(1);
  const again = await watching(context, folder, '-o', file);
  expect(again.errors()).toContain('not written');
  expect(await again.interrupt()).toBe(2);
});

test('a folder that is not there ends at once with 2', () => {
  expect(plimsoll(['check', '/nowhere/at/all', '--watch']).status).toBe(2);
});

describe('--date', () => {
  test.each(['2026-02-30', 'today', '2026-1-1'])('%s is no day', (date) => {
    const run = plimsoll(['check', '--date', date]);
    expect(run.status).toBe(2);
    expect(run.errors).toContain('year-month-day');
  });

  test('a day of the calendar is taken', () => {
    const folder = temporaryFolder({ 'a.md': fileWith('45 W') });
    expect(plimsoll(['check', folder, '--date', '2028-02-29']).status).toBe(0);
  });
});

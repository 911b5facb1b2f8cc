/** Benchmarks: one JSON line a figure, each a ratio against something measured in the same run. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { generateParts, generateProduct, generateRequirementTable } from './generate.mjs';

const root = join(import.meta.dirname, '..', '..');
const FILES = Number(process.env.BENCH_FILES ?? 1000);
/** The most rows that a table may have. */
const ROWS = 10_000;
const RUNS = 3;

const folder = mkdtempSync(join(tmpdir(), 'plimsoll-bench-'));
try {
  const product = join(folder, 'product');
  generateProduct(product, FILES);
  const size = { requirements: FILES * 10, facts: FILES * 50, files: FILES };
  reportCheck('check over parse-only', product, size);
  reportCheck('check --format json over parse-only', product, size, ['--format', 'json']);
  reportMatrix(product, join(folder, 'matrix.html'));
  generateParts(join(folder, 'parts'), ROWS);
  reportCheck('check over parse-only, one table of parts', join(folder, 'parts'), { rows: ROWS });
  generateRequirementTable(join(folder, 'table'), ROWS);
  reportCheck('check over parse-only, one table of requirements', join(folder, 'table'), { rows: ROWS });
  const { ratio, ...details } = JSON.parse(
    spawnSync(process.execPath, [join(import.meta.dirname, 'ranges.mjs'), product], { encoding: 'utf8' }).stdout,
  );
  report('allowed and needed ranges over evaluation', ratio, details);
  reportKeystrokes();
} finally {
  rmSync(folder, { recursive: true });
}

/** The command line against the Markdown parser alone, in pairs, so that a busy machine slows both down. */
function reportCheck(figure, folderOfProduct, size, format = []) {
  const pairs = Array.from({ length: RUNS }, () => ({
    check: timed([join(root, 'dist', 'cli.js'), 'check', folderOfProduct, ...format]),
    parse: timed([join(import.meta.dirname, 'parse-only.mjs'), folderOfProduct]),
  }));
  report(figure, median(pairs.map(({ check, parse }) => check.seconds / parse.seconds)), {
    ...size,
    seconds: {
      check: median(pairs.map(({ check }) => check.seconds)),
      parseOnly: median(pairs.map(({ parse }) => parse.seconds)),
    },
    peakMegabytes: median(pairs.map(({ check }) => check.megabytes)),
  });
}

/** The page of the matrix against the check of the same product, and what filtering it in a browser takes. */
function reportMatrix(folderOfProduct, page) {
  const pairs = Array.from({ length: RUNS }, () => ({
    matrix: timed([join(root, 'dist', 'cli.js'), 'matrix', folderOfProduct, '-o', page, '--force']),
    check: timed([join(root, 'dist', 'cli.js'), 'check', folderOfProduct, '--format', 'json']),
  }));
  report('matrix over check', median(pairs.map(({ matrix, check }) => matrix.seconds / check.seconds)), {
    seconds: {
      matrix: median(pairs.map(({ matrix }) => matrix.seconds)),
      check: median(pairs.map(({ check }) => check.seconds)),
    },
    peakMegabytes: median(pairs.map(({ matrix }) => matrix.megabytes)),
  });
  const { stdout } = spawnSync(process.execPath, [join(import.meta.dirname, 'filter.mjs'), page], { encoding: 'utf8' });
  const figures = JSON.parse(stdout || '{}');
  process.stdout.write(`${JSON.stringify({ figure: 'filtering the matrix, milliseconds', ...figures })}\n`);
}

/** The language server, as a client on standard input and output sees it; ten times the size takes many minutes: `node tests/bench/keystroke.mjs 10000`. */
function reportKeystrokes() {
  const sizes = [FILES / 10, FILES].map(String);
  spawnSync(process.execPath, [join(import.meta.dirname, 'keystroke.mjs'), ...sizes], {
    stdio: ['ignore', 'inherit', 'inherit'],
  });
}

/** A whole process: its wall time and, where the system can tell, its greatest resident memory. */
function timed(args) {
  const before = performance.now();
  const script = `process.on('exit', () => require('node:fs').writeSync(2, '\\nPEAK ' + process.resourceUsage().maxRSS + '\\n'))`;
  const preload = `data:text/javascript,import{createRequire}from'node:module';const require=createRequire('/');${encodeURIComponent(script)}`;
  const result = spawnSync(process.execPath, ['--import', preload, ...args], { encoding: 'utf8', maxBuffer: 2 ** 30 });
  const seconds = (performance.now() - before) / 1000;
  if (result.status === null || result.status > 1) throw new Error(`${args.join(' ')}: ${result.stderr}`);
  // A second thread says it as well when it ends, before the process does.
  const peak = [...result.stderr.matchAll(/PEAK (\d+)/g)].at(-1);
  return { seconds, megabytes: peak ? Number(peak[1]) / 1024 : null };
}

function median(values) {
  return [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)];
}

function report(figure, ratio, details) {
  process.stdout.write(`${JSON.stringify({ figure, ratio: Number(ratio.toFixed(3)), ...details })}\n`);
}

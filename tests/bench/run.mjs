/** Benchmarks: one JSON line a figure, each a ratio against something measured in the same run. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { generateProduct } from './generate.mjs';

const root = join(import.meta.dirname, '..', '..');
const FILES = Number(process.env.BENCH_FILES ?? 1000);
const RUNS = 3;

const folder = mkdtempSync(join(tmpdir(), 'plimsoll-bench-'));
try {
  generateProduct(folder, FILES);
  const check = [];
  const parse = [];
  for (let run = 0; run < RUNS; run += 1) {
    check.push(timed([join(root, 'dist', 'cli.js'), 'check', folder, '--format', 'json']));
    parse.push(timed([join(import.meta.dirname, 'parse-only.mjs'), folder]));
  }
  report(
    'check over parse-only',
    median(check.map(({ seconds }) => seconds)) / median(parse.map(({ seconds }) => seconds)),
    {
      requirements: FILES * 10,
      facts: FILES * 50,
      files: FILES,
      seconds: {
        check: median(check.map(({ seconds }) => seconds)),
        parseOnly: median(parse.map(({ seconds }) => seconds)),
      },
      peakMegabytes: median(check.map(({ megabytes }) => megabytes)),
    },
  );
  const { ratio, ...details } = JSON.parse(
    spawnSync(process.execPath, [join(import.meta.dirname, 'ranges.mjs'), folder], { encoding: 'utf8' }).stdout,
  );
  report('allowed and needed ranges over evaluation', ratio, details);
} finally {
  rmSync(folder, { recursive: true });
}

/** A whole process: its wall time and, where the system can tell, its greatest resident memory. */
function timed(args) {
  const before = performance.now();
  const script = `process.on('exit', () => require('node:fs').writeSync(2, '\\nPEAK ' + process.resourceUsage().maxRSS + '\\n'))`;
  const preload = `data:text/javascript,import{createRequire}from'node:module';const require=createRequire('/');${encodeURIComponent(script)}`;
  const result = spawnSync(process.execPath, ['--import', preload, ...args], { encoding: 'utf8', maxBuffer: 2 ** 30 });
  const seconds = (performance.now() - before) / 1000;
  if (result.status === null || result.status > 1) throw new Error(`${args.join(' ')}: ${result.stderr}`);
  const peak = /PEAK (\d+)/.exec(result.stderr);
  return { seconds, megabytes: peak ? Number(peak[1]) / 1024 : null };
}

function median(values) {
  return [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)];
}

function report(figure, ratio, details) {
  process.stdout.write(`${JSON.stringify({ figure, ratio: Number(ratio.toFixed(3)), ...details })}\n`);
}

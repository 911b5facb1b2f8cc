/** What the ranges of all given figures take beside one full evaluation, in one process: the median of a few runs. */
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { build } from 'esbuild';

const RUNS = 3;
const root = dirname(dirname(import.meta.dirname));
const folder = process.argv[2];

const bundle = join(mkdtempSync(join(tmpdir(), 'plimsoll-bench-')), 'bundle.cjs');
await build({
  stdin: {
    contents: `export { createProductWorkspace } from './server/workspace';
      export { analyse } from './server/engine/analysis';
      export { rangesOf } from './server/engine/ranges/ranges';`,
    resolveDir: root,
  },
  outfile: bundle,
  bundle: true,
  platform: 'node',
  format: 'cjs',
  logLevel: 'error',
});
const { createProductWorkspace, analyse, rangesOf } = createRequire(import.meta.url)(bundle);
rmSync(dirname(bundle), { recursive: true });

const workspace = createProductWorkspace();
for (const name of readdirSync(folder)) workspace.setDocument(name, readFileSync(join(folder, name), 'utf8'));
const { product } = workspace.analysis().analysis;
const evaluation = [];
const ranges = [];
let figures = 0;
for (let run = 0; run < RUNS; run += 1) {
  const [analysis, seconds] = timed(() => analyse(product));
  evaluation.push(seconds);
  const [found, more] = timed(() => rangesOf(analysis));
  ranges.push(more);
  figures = found.figures.length;
}
const seconds = { evaluation: median(evaluation), ranges: median(ranges) };
process.stdout.write(`${JSON.stringify({ ratio: seconds.ranges / seconds.evaluation, figures, seconds })}\n`);

function timed(work) {
  const before = performance.now();
  const result = work();
  return [result, (performance.now() - before) / 1000];
}

function median(values) {
  return [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)];
}

/** Checks the sample workspace with the command line just built, and says where to look next. */
import { spawnSync } from 'node:child_process';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = dirname(dirname(fileURLToPath(import.meta.url)));
const check = ['node', 'dist/cli.js', 'check', 'sample-workspace'];

console.log(`$ ${check.join(' ')}\n`);
const { status } = spawnSync(process.execPath, [join(root, 'dist', 'cli.js'), ...check.slice(2)], {
  cwd: root,
  stdio: 'inherit',
});

// The sample has a few honest problems, so 1 (findings) is what a healthy run says.
if (status !== 0 && status !== 1) {
  console.error(`\nThe demo failed: exit status ${status ?? 'none (the program was stopped)'}.`);
  process.exit(1);
}

const page = join('dist', 'tern-matrix.html');
const matrix = ['matrix', 'sample-workspace', '-o', page, '--force'];
console.log(`\n$ node dist/cli.js ${matrix.join(' ')}`);
const written = spawnSync(process.execPath, [join(root, 'dist', 'cli.js'), ...matrix], { cwd: root, stdio: 'inherit' });
if (written.status !== 0) {
  console.error(`\nThe demo failed: exit status ${written.status ?? 'none (the program was stopped)'}.`);
  process.exit(1);
}

console.log(`
Look next:
  ${page.padEnd(38)}  the matrix for a review, one page that opens in any browser and prints
  sample-workspace/                       requirements, design and records: change a figure and run the line above again
  node dist/cli.js --help                 every command, with an example each
  node dist/cli.js new my-product         a starter workspace of your own
`);

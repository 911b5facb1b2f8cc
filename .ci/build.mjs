/** Bundles the command line into one file that Node runs as it is: server/cli/main.ts to dist/cli.js. */
import { chmod } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

const root = dirname(dirname(fileURLToPath(import.meta.url)));
const output = join(root, 'dist', 'cli.js');

await build({
  absWorkingDir: root,
  entryPoints: ['server/cli/main.ts'],
  outfile: output,
  bundle: true,
  platform: 'node',
  target: 'node20',
  format: 'cjs',
  // Names stay readable, so that a stack trace in a report still says where it was.
  minifySyntax: true,
  sourcemap: false,
  legalComments: 'eof',
  banner: { js: '#!/usr/bin/env node' },
  logLevel: 'warning',
});
await chmod(output, 0o755);

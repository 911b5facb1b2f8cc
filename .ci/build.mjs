/** Bundles the command line, the language server and the editor's extension, one file each that runs as it is. */
import { chmod } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';
import { textImports } from './text-imports.mjs';

const root = dirname(dirname(fileURLToPath(import.meta.url)));
const output = join(root, 'dist', 'cli.js');

/** What every bundle has in common. */
const common = {
  absWorkingDir: root,
  bundle: true,
  format: 'cjs',
  // Names stay readable, so that a stack trace in a report still says where it was.
  minifySyntax: true,
  // Else a pattern with \p{…} is compiled anew wherever it is used.
  supported: { 'regexp-unicode-property-escapes': true },
  sourcemap: false,
  legalComments: 'eof',
  plugins: [textImports],
  logLevel: 'warning',
};
const forNode = { ...common, platform: 'node', target: 'node20' };

await build({
  ...forNode,
  entryPoints: ['server/cli/main.ts'],
  outfile: output,
  banner: { js: '#!/usr/bin/env node' },
});
await chmod(output, 0o755);
await build({ ...forNode, entryPoints: ['server/lsp/main-node.ts'], outfile: join(root, 'dist', 'server.js') });

/** What runs in a browser has nothing of Node's: the build fails where a module asks for it. */
const forBrowser = {
  ...common,
  platform: 'browser',
  target: ['chrome114', 'firefox115', 'safari16.4'],
  minify: true,
  // A worker has no document: some packages have a build of their own for it.
  conditions: ['worker', 'module'],
  // The same code with the one thing of Node's that it uses, Buffer, brought along.
  alias: { 'csv-parse/sync': 'csv-parse/browser/esm/sync' },
};
await build({
  ...forBrowser,
  format: 'iife',
  entryPoints: ['server/lsp/main-web.ts'],
  outfile: join(root, 'dist', 'server-web.js'),
});

// The editor gives its own module, and stops at nothing newer than its oldest version's Node and browser.
const forEditor = { ...common, minify: true, external: ['vscode'] };
await build({
  ...forEditor,
  platform: 'node',
  target: 'node20',
  entryPoints: ['client/extension.ts'],
  outfile: join(root, 'dist', 'client.js'),
});
await build({
  ...forBrowser,
  external: ['vscode'],
  entryPoints: ['client/extension-web.ts'],
  outfile: join(root, 'dist', 'client-web.js'),
});

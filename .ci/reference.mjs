/** Renews the generated tables of grammar/README.md and the JSON Schemas; `npm test` fails while what is committed is stale. */
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

const root = dirname(dirname(fileURLToPath(import.meta.url)));
const file = join(root, 'grammar', 'README.md');

const { outputFiles } = await build({
  absWorkingDir: root,
  entryPoints: ['.ci/reference-tables.ts'],
  bundle: true,
  write: false,
  platform: 'node',
  target: 'node20',
  format: 'esm',
  logLevel: 'warning',
});
const { withTables, schemaFiles } = await import(
  `data:text/javascript;base64,${Buffer.from(outputFiles[0].contents).toString('base64')}`
);

const before = readFileSync(file, 'utf8');
const after = withTables(before);
if (after === before) console.log('grammar/README.md is up to date');
else {
  writeFileSync(file, after);
  console.log('grammar/README.md has new tables: read the difference before you keep it');
}
for (const [path, text] of Object.entries(schemaFiles())) {
  mkdirSync(dirname(join(root, path)), { recursive: true });
  writeFileSync(join(root, path), text);
}

/** Packs the editor's extension: gathers its files in dist/extension, and nothing else, and makes plimsoll.vsix of them. */
import { spawnSync } from 'node:child_process';
import { cpSync, mkdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

const LARGEST = 3_000_000;
const root = dirname(dirname(fileURLToPath(import.meta.url)));
const folder = join(root, 'dist', 'extension');
const output = join(root, 'plimsoll.vsix');

/** What goes in, and from where. */
const FILES = [
  ['dist/client.js', 'client.js'],
  ['dist/server.js', 'server.js'],
  ['dist/client-web.js', 'client-web.js'],
  ['dist/server-web.js', 'server-web.js'],
  ['client/icons/plimsoll.png', 'icons/plimsoll.png'],
  ['client/icons/activity.svg', 'icons/activity.svg'],
  ['client/walkthrough', 'walkthrough'],
  ['client/README.md', 'README.md'],
  ['CHANGELOG.md', 'CHANGELOG.md'],
  ['LICENSE', 'LICENSE'],
];

rmSync(folder, { recursive: true, force: true });
mkdirSync(folder, { recursive: true });
for (const [from, to] of FILES) cpSync(join(root, from), join(folder, to), { recursive: true });
writeJson('package.json', manifest());
await writeGenerated();
// Everything gathered goes in, so that nothing is left out but this list itself.
writeFileSync(join(folder, '.vscodeignore'), '.vscodeignore\n');
pack();

/** What both manifests say stands in package.json alone. */
function manifest() {
  const { name, displayName, version, description, license } = readJson('package.json');
  return { name, displayName, version, description, license, ...readJson('client/manifest.json') };
}

/** The colouring and the schemas, from the same data as the program. */
async function writeGenerated() {
  const { outputFiles } = await build({
    absWorkingDir: root,
    entryPoints: ['.ci/extension-data.ts'],
    bundle: true,
    write: false,
    platform: 'node',
    target: 'node20',
    format: 'esm',
    logLevel: 'warning',
  });
  const encoded = Buffer.from(outputFiles[0].contents).toString('base64');
  const { extensionData } = await import(`data:text/javascript;base64,${encoded}`);
  for (const [path, data] of Object.entries(extensionData())) writeJson(path, data);
}

function pack() {
  const vsce = join(root, 'node_modules', '@vscode', 'vsce', 'vsce');
  const args = ['package', '--no-dependencies', '--allow-missing-repository', '-o', output];
  const { status, stdout, stderr } = spawnSync(process.execPath, [vsce, ...args], { cwd: folder, encoding: 'utf8' });
  const said = `${stdout}${stderr}`;
  if (status !== 0 || /warning/i.test(said)) fail(said);
  const { size } = statSync(output);
  if (size > LARGEST) fail(`plimsoll.vsix has ${size} bytes, more than ${LARGEST}`);
  console.log(`plimsoll.vsix: ${Math.round(size / 1000)} kB`);
}

function fail(why) {
  console.error(why);
  process.exit(1);
}

function readJson(path) {
  return JSON.parse(readFileSync(join(root, path), 'utf8'));
}

function writeJson(path, data) {
  mkdirSync(dirname(join(folder, path)), { recursive: true });
  writeFileSync(join(folder, path), `${JSON.stringify(data, null, 2)}\n`);
}

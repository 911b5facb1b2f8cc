/** `import text from './x?text'`: a script, bundled for browsers, or a style, as one text; for esbuild and for vitest. */
import { existsSync } from 'node:fs';
import { dirname, resolve } from 'node:path';
import { build } from 'esbuild';

const TEXT = /\?text$/;
const MODULE = '.text.js';

/** For esbuild's `plugins`. */
export const textImports = {
  name: 'text imports',
  setup({ onResolve, onLoad }) {
    onResolve({ filter: TEXT }, ({ path, resolveDir }) => ({ path: fileOf(path, resolveDir), namespace: 'text' }));
    onLoad({ filter: /.*/, namespace: 'text' }, async ({ path }) => {
      const { text, inputs } = await bundled(path);
      return { contents: text, loader: 'text', watchFiles: inputs };
    });
  },
};

/** For vitest's `plugins`. */
export const textImportsOfTests = {
  name: 'text imports',
  enforce: 'pre',
  resolveId(source, importer) {
    // Under a name of its own: what ends in .css is emptied in tests.
    return TEXT.test(source) ? `\0${fileOf(source, dirname(importer))}${MODULE}` : null;
  },
  async load(id) {
    if (!id.endsWith(MODULE)) return null;
    const { text } = await bundled(id.slice(1, -MODULE.length));
    return `export default ${JSON.stringify(text)};`;
  },
};

function fileOf(specifier, folder) {
  const path = resolve(folder, specifier.replace(TEXT, ''));
  return [`${path}.ts`, path].find(existsSync);
}

async function bundled(path) {
  const { outputFiles, metafile } = await build({
    entryPoints: [path],
    bundle: true,
    write: false,
    minify: true,
    metafile: true,
    platform: 'browser',
    target: ['chrome110', 'firefox115', 'safari16'],
    format: 'iife',
    legalComments: 'none',
    logLevel: 'warning',
  });
  return { text: outputFiles[0].text.trim(), inputs: Object.keys(metafile.inputs).map((input) => resolve(input)) };
}

/** A second real client: Neovim's own, configured as README.md says, on a copy of Tern. */
import { spawn } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { delimiter, join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';

const ROOT = join(import.meta.dirname, '..', '..');
/** Milliseconds, on a slow machine. */
const PATIENCE = 60_000;

/** What drive.lua prints. */
interface Found {
  readonly diagnostics: readonly string[];
  readonly hover: string;
  readonly hints: readonly { readonly label: string | readonly { readonly value: string }[] }[];
  readonly completion:
    | readonly { readonly label: string }[]
    | { readonly items: readonly { readonly label: string }[] };
  readonly definition: { readonly file: string; readonly line: number };
  readonly afterEdit: readonly string[];
  readonly renamedDesign: readonly string[];
  readonly renamedRequirements: readonly string[];
}

/** The configuration in README.md, as somebody copies it. */
function configuration(): string {
  const readme = readFileSync(join(ROOT, 'README.md'), 'utf8');
  const [, block] = /^```lua\n([\s\S]*?)^```$/m.exec(readme) ?? [];
  if (block === undefined) throw new Error('README.md has no configuration for Neovim');
  return block;
}

/** Runs Neovim in a home of its own, with `plimsoll` on the path. */
function drive(home: string): Promise<Found> {
  const product = join(home, 'tern');
  cpSync(join(ROOT, 'sample-workspace'), product, { recursive: true });
  mkdirSync(join(home, 'bin'));
  symlinkSync(join(ROOT, 'dist', 'cli.js'), join(home, 'bin', 'plimsoll'));
  writeFileSync(join(home, 'init.lua'), configuration());
  const script = join(import.meta.dirname, 'drive.lua');
  const args = ['--headless', '-u', join(home, 'init.lua'), '-i', 'NONE', '-n', '-c', `luafile ${script}`];
  const folders = Object.fromEntries(['CONFIG', 'DATA', 'STATE', 'CACHE'].map((name) => [`XDG_${name}_HOME`, home]));
  const path = `${join(home, 'bin')}${delimiter}${process.env.PATH}`;
  const neovim = spawn('nvim', args, { cwd: product, env: { ...process.env, ...folders, HOME: home, PATH: path } });
  let [output, errors] = ['', ''];
  neovim.stdout.on('data', (data) => {
    output += data;
  });
  neovim.stderr.on('data', (data) => {
    errors += data;
  });
  return new Promise((resolve, reject) => {
    neovim.on('error', reject);
    neovim.on('close', (code) => {
      if (code === 0) resolve(JSON.parse(output.slice(output.indexOf('{'))) as Found);
      else reject(new Error(`Neovim ended with ${code}: ${errors}${output}`));
    });
  });
}

describe('Tern in Neovim', () => {
  const home = mkdtempSync(join(tmpdir(), 'plimsoll-neovim-'));
  let found: Found;
  beforeAll(async () => {
    found = await drive(home);
  }, PATIENCE);
  afterAll(() => rmSync(home, { recursive: true, force: true, maxRetries: 5 }));

  test('diagnostics come when a document is opened', () => {
    expect(found.diagnostics).toContainEqual(expect.stringMatching(/^TRN-031: supply\.draw in mode record holds at/));
  });

  test('hovering says what was read', () => {
    expect(found.hover).toContain('TRN-031');
  });

  test('the definition is gone to, in another document', () => {
    expect(found.definition).toEqual({ file: 'design/power.md', line: 7 });
  });

  test('names are completed', () => {
    const items = 'items' in found.completion ? found.completion.items : found.completion;
    expect(items.map(({ label }) => label)).toContainEqual(expect.stringContaining('supply.efficiency'));
  });

  test('inlay hints have the criterion as it was read', () => {
    const labels = found.hints.map(({ label }) =>
      typeof label === 'string' ? label : label.map(({ value }) => value).join(''),
    );
    expect(labels).toContainEqual(expect.stringContaining('supply.draw <= 60 W'));
  });

  test('an edit in one document marks another before anything is saved', () => {
    expect(found.afterEdit).toContainEqual(expect.stringMatching(/^TRN-031: .* above the limit of at most 60 W/));
  });

  test('a name is renamed where it is defined and where it is used', () => {
    expect(found.renamedDesign).toContainEqual(expect.stringMatching(/^ {4}load: = sum\(power over parts\)/));
    expect(found.renamedRequirements).toContainEqual(expect.stringContaining('(`supply.load`)'));
    expect(found.renamedRequirements.join('\n')).not.toContain('supply.draw');
  });
});

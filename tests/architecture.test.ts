/** Imports point one way, and only the ends touch the outside. */
import { describe, expect, test } from 'vitest';
import { brokenRules, importsOf } from './support/architecture';
import { sourceFiles } from './support/source';

const MODULE = /\.(?:tsx?|css)$/;

test('the repository keeps its own rules', () => {
  const files = ['grammar', 'server', 'client'].flatMap((folder) => sourceFiles(folder, MODULE));
  const paths = new Set(files.map(({ path }) => path));
  expect(files.length).toBeGreaterThan(20);
  expect(files.flatMap((file) => brokenRules(file, (path) => paths.has(path)))).toEqual([]);
});

describe('a rule that is broken is named with its reason', () => {
  const paths = new Set([
    'server/model/a.ts',
    'server/engine/b.ts',
    'server/features/c.ts',
    'server/reports/d.ts',
    'server/host.ts',
  ]);
  paths
    .add('server/reports/scripts/s.ts')
    .add('server/lsp/messages.ts')
    .add('server/host-node.ts')
    .add('server/workspace.ts')
    .add('server/cli/e.ts');

  test.each([
    ['server/model/a.ts', "import { b } from '../engine/b';", 'model comes before engine'],
    ['server/model/a.ts', "import type { B } from '../engine/b';", 'model comes before engine'],
    ['server/model/a.ts', "export * from '../engine/b';", 'model comes before engine'],
    ['server/model/a.ts', "import {\n  b,\n} from '../engine/b';", 'server/model/a.ts:3: '],
    ['server/model/a.ts', "import '../engine/b';", 'model comes before engine'],
    ['server/model/a.ts', "const b = await import('../engine/b');", 'model comes before engine'],
    ['server/model/a.ts', "type B = import('../engine/b').B;", 'model comes before engine'],
    ['server/features/c.ts', "import { d } from '../reports/d';", 'side by side'],
    ['server/lsp/x.ts', "import { e } from '../cli/e';", 'side by side'],
    ['server/workspace.ts', "import { n } from './host-node';", 'workspace comes before hosts'],
    ['server/engine/b.ts', "import type { Host } from '../host';", 'engine comes before host'],
    ['server/model/a.ts', "import { x } from './x';", 'there is no such module'],
    ['server/model/a.ts', "import { b } from './a.ts.js';", 'there is no such module'],
    ['server/other/x.ts', '', 'stands in no room'],
    ['server/other.ts', '', 'stands in no room'],
    ['server/model/a.ts', "import { readFileSync } from 'node:fs';", 'use server/host.ts'],
    ['server/engine/b.ts', "import { Position } from 'vscode-languageserver/node';", 'the protocol is a skin'],
    ['server/cli/e.ts', "import { workspace } from 'vscode';", 'any editor'],
    ['server/model/a.ts', "import { z } from 'zod';", 'import * as z'],
    ['server/model/a.ts', "import z from 'zod';", 'import * as z'],
    ['client/x.ts', "import { m } from '../server/lsp/messages';", 'no domain logic'],
    ['client/x.ts', "import type { A } from '../server/model/a';", 'no domain logic'],
    ['server/model/a.ts', 'const now = Date.now();', 'host.now()'],
    ['server/model/a.ts', 'const now = new Date();', 'host.now()'],
    ['server/model/a.ts', 'if (process.env.X) {}', 'handed in'],
    ['server/model/a.ts', 'const a = /[/]/; const b = Math.random();', 'equal input'],
    ['server/model/a.ts', 'const a = 1 / 2; fetch("/");', 'no network'],
    ['server/host.ts', 'setTimeout(() => 0, 1);', 'step budget'],
    ['server/reports/d.ts', "const a = document.querySelector('a');", 'scripts of pages'],
    ['server/model/a.ts', "import { h } from 'preact';", 'pages are reports'],
    ['server/engine/b.ts', "import { type Span, spanOf } from '../syntax/span';", 'use spanBeside'],
    ['server/reports/scripts/s.ts', "import { d } from '../d';", 'scripts comes before reports'],
    ['server/reports/d.ts', 'list.sort((a, b) => a.localeCompare(b));', 'every machine'],
  ])('%s: %s', (path, text, reason) => {
    const broken = brokenRules({ path, text }, (candidate) => paths.has(candidate));
    expect(broken).toEqual([expect.stringContaining(reason)]);
  });

  test.each([
    ['server/engine/b.ts', "import { a } from '../model/a';"],
    [
      'server/cli/e.ts',
      "import { w } from '../workspace';\nimport { n } from '../host-node';\nimport fs from 'node:fs';\nDate.now();",
    ],
    ['server/model/a.ts', "import * as z from 'zod';\nimport type * as z2 from 'zod';".replace('z2', 'z')],
    ['client/x.ts', "import type { M } from '../server/lsp/messages';\nimport * as vscode from 'vscode';"],
    [
      'server/model/a.ts',
      "// import { b } from '../engine/b'; Date.now()\n/* process.exit() */ const a = 'Date.now()';",
    ],
    ['server/model/a.ts', "const pattern = /process.x|'/; const when = new Date(0); const other = 'fetch(';"],
    ['server/reports/d.ts', "import text from './scripts/s?text';"],
    ['server/reports/scripts/s.ts', "document.querySelector('a'); setTimeout(() => 0);"],
    ['server/model/a.ts', 'const processed = x.process; prefetch(a);'],
  ])('%s: %s is fine', (path, text) => {
    expect(brokenRules({ path, text }, (candidate) => paths.has(candidate))).toEqual([]);
  });
});

test('every form of import is seen', () => {
  const text =
    "import a from 'a';\nimport type { B } from 'b';\nexport { c } from 'c';\nexport * as d from 'd';\nimport 'e';\nimport('f');";
  expect(importsOf(text).map(({ specifier, line }) => [specifier, line])).toEqual([
    ['a', 1],
    ['b', 2],
    ['c', 3],
    ['d', 4],
    ['e', 5],
    ['f', 6],
  ]);
});

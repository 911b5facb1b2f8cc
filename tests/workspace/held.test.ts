/** While front matter or plimsoll.yaml cannot be read: what is held follows from the last good text and the present one alone. */
import { expect, test } from 'vitest';
import { CONFIGURATION_FILE } from '../../server/model/configuration';
import { checkJson } from '../../server/reports/check-json';
import { findFrontMatter } from '../../server/syntax/front-matter';
import { createProductWorkspace, type ProductWorkspace } from '../../server/workspace';
import { type Draw, drawing, editAtRandom, type Files } from '../support/random-edits';

const RUNS = Number(process.env.FUZZ_RUNS ?? 40);
const SEED = Number(process.env.SEED ?? 20261002);
/** Edits one upon another before the product is taken as it was at first. */
const A_ROUND = 20;
const ON = '2026-11-15';

test('after any edits a held product is what its last good texts and the present ones make of it', () => {
  let held = 0;
  for (let done = 0; done < RUNS; done += A_ROUND) held += aRound(SEED + done);
  // The edits do break what is held: a third of them and more.
  expect(held).toBeGreaterThan(RUNS / 3);
}, 600_000);

test('what is held is read under the configuration of now', () => {
  const workspace = createProductWorkspace({ holdsLastGood: true, keepsWork: true });
  give(workspace, new Map(), PRODUCT);
  workspace.analysis({ today: ON });
  const broken = new Map([...PRODUCT, ['a.md', (PRODUCT.get('a.md') ?? '').replace('\nfacts:', '\n"\nfacts:')]]);
  give(workspace, PRODUCT, broken);
  expect(verdictOf(workspace, 'A-3')).toBe('met');
  const wide = new Map([...broken, [CONFIGURATION_FILE, (PRODUCT.get(CONFIGURATION_FILE) ?? '').replace('12', '20')]]);
  give(workspace, broken, wide);
  expect(verdictOf(workspace, 'A-3')).toBe('unmet');
});

test('where the file took no part before it broke, nothing is held', () => {
  const workspace = createProductWorkspace({ holdsLastGood: true, keepsWork: true });
  give(workspace, new Map(), PRODUCT);
  workspace.analysis({ today: ON });
  let files = PRODUCT;
  for (const text of ['---\ntitle: Lamp\n---\n', '---\ntitle: Lamp\n']) {
    const next = new Map([...files, ['b.md', text]]);
    give(workspace, files, next);
    files = next;
    expect(verdictOf(workspace, 'A-1')).toBe('undecided');
  }
});

function verdictOf(workspace: ProductWorkspace, id: string): string | undefined {
  const { requirements } = workspace.analysis({ today: ON }).analysis;
  return requirements.find(({ requirement }) => requirement.id === id)?.verdict;
}

/** @returns after how many edits something was held */
function aRound(seed: number): number {
  const draw = drawing(seed);
  const workspace = createProductWorkspace({ holdsLastGood: true, keepsWork: true });
  let [files, good]: [Files, Files] = [PRODUCT, PRODUCT];
  give(workspace, new Map(), files);
  workspace.analysis({ today: ON });
  let times = 0;
  for (let edit = 1; edit <= A_ROUND; edit += 1) {
    const before = files;
    files = draw(3) === 0 ? frontMatterBroken(files, draw) : editAtRandom(files, draw);
    give(workspace, before, files);
    const now = readFrom(files);
    good = goodTexts(good, files, now);
    const name = `edit ${edit} with seed ${seed}`;
    const held = [...files.keys()].filter((path) => good.has(path) && good.get(path) !== files.get(path));
    const said = saidBy(workspace);
    if (held.length === 0) expect(said, name).toBe(saidBy(now));
    else {
      times += 1;
      expect(said, name).toBe(saidBy(inTwoSteps(files, good)));
      expect(standing(workspace, held), name).toEqual(standing(readFrom(new Map([...files, ...good])), held));
    }
  }
  return times;
}

/** As a product that was opened while all of it could be read. */
function inTwoSteps(files: Files, good: Files): ProductWorkspace {
  const workspace = createProductWorkspace({ holdsLastGood: true, keepsWork: false });
  const first = new Map([...files, ...good]);
  give(workspace, new Map(), first);
  workspace.analysis({ today: ON });
  give(workspace, first, files);
  return workspace;
}

function readFrom(files: Files): ProductWorkspace {
  const workspace = createProductWorkspace();
  give(workspace, new Map(), files);
  return workspace;
}

/** What each file held when it could last be read; no more where it last took no part, or is gone. */
function goodTexts(before: Files, files: Files, now: ProductWorkspace): Files {
  const { byFile, analysis } = now.analysis({ today: ON });
  const { documents, setAside } = analysis.product;
  const taking = new Set([...documents, ...setAside].map(({ file }) => file));
  const good = new Map<string, string>();
  for (const [path, text] of files) {
    const isBroken =
      byFile.get(path)?.some(({ code }) => code === 'bad-front-matter' || code === 'bad-configuration') ||
      (path.endsWith('.md') && text.startsWith('---') && findFrontMatter(text) === null);
    const last = before.get(path);
    if (isBroken && last !== undefined) good.set(path, last);
    else if (!isBroken && (taking.has(path) || !path.endsWith('.md'))) good.set(path, text);
  }
  return good;
}

/** How the requirements of documents that are not held stand. */
function standing(workspace: ProductWorkspace, held: readonly string[]): readonly unknown[] {
  const { requirements } = workspace.analysis({ today: ON }).analysis;
  return requirements
    .filter(({ requirement }) => !held.includes(requirement.file))
    .map(({ requirement, verdict, evidence }) => [requirement.file, requirement.id, verdict, evidence.state]);
}

function saidBy(workspace: ProductWorkspace): string {
  return JSON.stringify(checkJson(workspace.analysis({ today: ON }), 'Small'), null, 1);
}

/** Types what no YAML has, takes a closing line away, or brings one back. */
function frontMatterBroken(files: Files, draw: Draw): Files {
  const paths = [...files.keys()].filter((path) => path.endsWith('.md') || path === CONFIGURATION_FILE);
  const path = paths[draw(paths.length)] ?? '';
  const text = files.get(path) ?? '';
  const line = text.indexOf('\n') + 1;
  const broken = [
    `${text.slice(0, line)}"\n${text.slice(line)}`,
    text.replace(/\n---\n/, '\n'),
    text.replace('{', ''),
    text.replace(/^"\n/mu, ''),
    PRODUCT.get(path) ?? text,
  ];
  return new Map(files).set(path, broken[draw(broken.length)] ?? text);
}

/** Gives what is other than before, as an editor would. */
function give(workspace: ProductWorkspace, before: Files, files: Files): void {
  const configuration = files.get(CONFIGURATION_FILE) ?? null;
  if (configuration !== (before.get(CONFIGURATION_FILE) ?? null)) workspace.setConfiguration(configuration);
  for (const path of before.keys()) if (!files.has(path)) workspace.removeDocument(path);
  for (const [path, text] of files)
    if (path.endsWith('.md') && before.get(path) !== text) workspace.setDocument(path, text);
}

const PRODUCT: Files = new Map([
  ['plimsoll.yaml', 'product: Small\nmodes:\n  - normal\n  - asleep\nunits: {USD: 0.9 EUR ± 5 %, tile: 12 mm}\n'],
  [
    'a.md',
    `---
requirements: Small
ids: [A]
facts:
  base: 10 W ± 5 %
  total: = base + lamp.draw + sum(power over parts)
  draw: {normal: 3 W ± 1 W, asleep: 1 W}
  width: 3 tile
parts:
  - {id: one, power: 2 W ± 10 %, quantity: 3, cost: 2 EUR}
  - {id: two, power: 1 W, cost: 3 USD}
---
# Small

## A-1 Draw

It shall draw no more than 30 W (\`total\`).

## A-2 Cost

It shall cost no more than 12 EUR (\`sum(cost over parts)\`), and draw no more than 4 W (\`draw\`).

## A-3 Width

It shall be at most 40 mm wide (\`width\`).
`,
  ],
  [
    'b.md',
    '---\nrequirements: Small\nids: [B]\nfacts:\n  lamp:\n    draw: 3 W\n---\n## B-1 Base\n\nIt shall draw at most 12 W (`base`).\n',
  ],
  [
    'runs.md',
    '---\nverifications:\n  - id: T-1\n    method: test\n    verifies: [A-1]\n    runs:\n      - {date: 2026-10-01, result: pass, measured: {total: 20 W}}\n---\n',
  ],
]);

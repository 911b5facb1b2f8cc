/** What is kept from one analysis to the next is what would be found from nothing; and what is not done again. */
import { expect, test } from 'vitest';
import { checkJson } from '../../server/reports/check-json';
import { createProductWorkspace, type ProductWorkspace } from '../../server/workspace';
import { drawing, editAtRandom, type Files } from '../support/random-edits';
import { sourceFiles } from '../support/source';

const RUNS = Number(process.env.FUZZ_RUNS ?? 200);
const SEED = Number(process.env.SEED ?? 20261002);
/** Edits one upon another before the product is taken as it was at first. */
const A_ROUND = 20;
const ON = '2026-11-15';

test('after any edits the findings are those of a product read from nothing', () => {
  for (let done = 0; done < RUNS; done += A_ROUND) {
    const seed = SEED + done;
    const draw = drawing(seed);
    // The sample takes longer, and has every kind of thing in it.
    let files = (done / A_ROUND) % 10 === 9 ? sample() : SMALL;
    const workspace = createProductWorkspace({ holdsLastGood: false, keepsWork: true });
    give(workspace, new Map(), files);
    workspace.analysis({ today: ON });
    for (let edit = 1; edit <= Math.min(A_ROUND, RUNS - done); edit += 1) {
      const before = files;
      files = editAtRandom(files, draw);
      give(workspace, before, files);
      expect(jsonOf(workspace), `edit ${edit} with seed ${seed}`).toBe(fromNothing(files));
    }
  }
}, 600_000);

test('typing prose evaluates no quantity', () => {
  const workspace = ready();
  const prose = (SMALL.get('a.md') ?? '').replace('Some prose.', 'Some more prose, typed.');
  workspace.setDocument('a.md', prose);
  workspace.analysis({ today: ON });
  expect(workspace.lastWork?.facts).toEqual([]);
  expect(workspace.lastWork?.requirements).toEqual(['A-2']);
});

test('a figure evaluates what rests on it, and nothing else', () => {
  const workspace = ready();
  workspace.setDocument('b.md', (SMALL.get('b.md') ?? '').replace('3 W', '4 W'));
  workspace.analysis({ today: ON });
  expect(workspace.lastWork?.facts).toEqual(['total', 'lamp.draw']);
  expect(workspace.lastWork?.requirements).toEqual(['A-1']);
});

test('what waits for a name is looked at when it comes, and nothing else', () => {
  const workspace = ready();
  workspace.setDocument('c.md', '---\nfacts:\n  missing: 4 mm\n---\n');
  workspace.analysis({ today: ON });
  expect(workspace.lastWork?.facts).toEqual(['missing']);
  expect(workspace.lastWork?.requirements).toEqual(['B-1']);
});

test('the same text again does nothing', () => {
  const workspace = ready();
  workspace.setDocument('a.md', `${SMALL.get('a.md')}\n`);
  workspace.setDocument('a.md', SMALL.get('a.md') ?? '');
  workspace.analysis({ today: ON });
  expect(workspace.lastWork).toEqual({ facts: [], requirements: [] });
});

function ready(): ProductWorkspace {
  const workspace = createProductWorkspace({ holdsLastGood: false, keepsWork: true });
  give(workspace, new Map(), SMALL);
  workspace.analysis({ today: ON });
  return workspace;
}

const SMALL: Files = new Map([
  ['plimsoll.yaml', 'product: Small\nmodes:\n  - normal\n  - asleep\n'],
  [
    'a.md',
    `---
requirements: Small
ids: [A]
facts:
  base: 10 W ± 5 %
  total: = base + lamp.draw + sum(power over parts)
  curve: {at: {0 W: 1 mm, 100 W: 2 mm}, of: base, between: lines}
  draw:
    normal: 3 W ± 1 W
    asleep: 1 W
  grade: "IP65"
parts:
  - {id: one, power: 2 W ± 10 %, quantity: 3, cost: 2 EUR}
  - {id: two, power: "= base / 10", cost: 3 USD}
---
# Small

## A-1 Draw

It shall draw no more than 30 W (\`total\`).

- Derives from: A-2

## A-2 Base

Some prose. The base shall draw between 5 W and 12 W (\`base\`), and no more than 4 W (\`draw\`).

- Verify: analysis

Rationale: nothing rests on this.
`,
  ],
  [
    'b.md',
    `---
requirements: Small
ids: [B]
facts:
  lamp:
    draw: 3 W
---
## B-1 Waits

The case shall be at least 3 mm thick (\`missing\`).

## B-2 Words

The grade shall be "IP65" (\`grade = "IP65"\`).
`,
  ],
]);

function sample(): Files {
  const files = sourceFiles('sample-workspace', /\.md$|plimsoll\.yaml$/);
  return new Map(files.map(({ path, text }) => [path.replace('sample-workspace/', ''), text]));
}

/** Gives what is other than before, as an editor would. */
function give(workspace: ProductWorkspace, before: Files, files: Files): void {
  const configuration = files.get('plimsoll.yaml') ?? null;
  if (configuration !== (before.get('plimsoll.yaml') ?? null)) workspace.setConfiguration(configuration);
  for (const path of before.keys()) if (!files.has(path)) workspace.removeDocument(path);
  for (const [path, text] of files)
    if (path.endsWith('.md') && before.get(path) !== text) workspace.setDocument(path, text);
  for (const path of workspace.missingData()) workspace.setData(path, null);
  for (const path of workspace.missingDigests()) workspace.setDigest(path, null);
}

function fromNothing(files: Files): string {
  const workspace = createProductWorkspace();
  give(workspace, new Map(), files);
  return jsonOf(workspace);
}

function jsonOf(workspace: ProductWorkspace): string {
  return JSON.stringify(checkJson(workspace.analysis({ today: ON }), 'Small'), null, 1);
}

/** What is kept from one analysis to the next is what would be found from nothing; and what is not done again. */
import { appendFileSync, existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { createProductWorkspace, type ProductWorkspace } from '../../server/workspace';
import { checked, fromNothing, give, ON } from '../support/kept-product';
import { drawing, editAtRandom } from '../support/random-edits';
import { SMALL, sample, WIDE } from '../support/small-product';

const RUNS = Number(process.env.FUZZ_RUNS ?? 2000);
const SEED = Number(process.env.SEED ?? 20261002);
const KEPT_SEEDS = join(import.meta.dirname, 'kept-seeds.txt');
/** Edits one upon another before the product is taken as it was at first. */
const A_ROUND = 20;

test('after any edits the findings are those of a product read from nothing', () => {
  for (const seed of keptSeeds()) aRound(seed, A_ROUND);
  for (let done = 0; done < RUNS; done += A_ROUND) aRound(SEED + done, Math.min(A_ROUND, RUNS - done));
}, 600_000);

/** Edits one upon another. A seed that fails is kept, and tried first from then on. */
function aRound(seed: number, edits: number): void {
  const draw = drawing(seed);
  // The sample takes longer, and has every kind of thing in it.
  let files = draw(50) === 0 ? sample() : WIDE;
  const workspace = createProductWorkspace({ holdsLastGood: false, keepsWork: true });
  give(workspace, new Map(), files);
  workspace.analysis({ today: ON });
  for (let edit = 1; edit <= edits; edit += 1) {
    const before = files;
    files = editAtRandom(files, draw);
    give(workspace, before, files);
    const isSame = checked(workspace) === checked(fromNothing(files));
    if (!isSame && !keptSeeds().includes(seed)) appendFileSync(KEPT_SEEDS, `${seed}\n`);
    if (!isSame) expect(checked(workspace), `edit ${edit} with seed ${seed}`).toBe(checked(fromNothing(files)));
  }
}

function keptSeeds(): readonly number[] {
  if (!existsSync(KEPT_SEEDS)) return [];
  return readFileSync(KEPT_SEEDS, 'utf8').split('\n').filter(Boolean).map(Number);
}

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

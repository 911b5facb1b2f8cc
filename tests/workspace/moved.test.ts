/** What an edit merely moves is the object that it was, at its new place; and all that speaks of it follows. */
import { expect, test } from 'vitest';
import { factsOfDocument } from '../../server/model/product';
import { createProductWorkspace, type ProductWorkspace } from '../../server/workspace';
import { checked, fromNothing, give, ON, places } from '../support/kept-product';
import { type Draw, drawing, editAtRandom, type Files, moveAtRandom } from '../support/random-edits';
import { sample, WIDE } from '../support/small-product';

const RUNS = Number(process.env.FUZZ_RUNS ?? 100);
const SEED = Number(process.env.SEED ?? 20261125);
/** Edits one upon another before the product is taken as it was at first. */
const A_ROUND = 20;

test('after edits that move things every place is that of a product read from nothing', () => {
  for (let done = 0; done < RUNS; done += A_ROUND) aRound(SEED + done);
}, 600_000);

function aRound(seed: number): void {
  const draw = drawing(seed);
  let files: Files = draw(20) === 0 ? sample() : WIDE;
  const workspace = opened(files, draw);
  for (let edit = 1; edit <= A_ROUND; edit += 1) {
    const before = files;
    files = draw(4) === 0 ? editAtRandom(files, draw) : moveAtRandom(files, draw);
    give(workspace, before, files);
    // What was read and never analysed leaves no trace.
    if (draw(8) === 0) continue;
    const fresh = fromNothing(files);
    expect(checked(workspace), `edit ${edit} with seed ${seed}`).toBe(checked(fresh));
    expect(places(workspace), `places after edit ${edit} with seed ${seed}`).toEqual(places(fresh));
  }
  expect(checked(workspace, true), `ranges with seed ${seed}`).toBe(checked(fromNothing(files), true));
}

/** Some of its documents are open in an editor. */
function opened(files: Files, draw: Draw): ProductWorkspace {
  const workspace = createProductWorkspace({ holdsLastGood: false, keepsWork: true });
  give(workspace, new Map(), files);
  for (const path of files.keys()) if (draw(2) === 0) workspace.expectEdits(path);
  workspace.analysis({ today: ON });
  for (const path of files.keys()) if (draw(4) === 0) workspace.expectEdits(path);
  return workspace;
}

test('in a document that is typed in, nothing behind the first edit is judged again', () => {
  const workspace = ready({ 'long.md': long('Long') });
  workspace.expectEdits('long.md');
  workspace.analysis({ today: ON });
  expect(workspace.lastWork).toEqual(ALL);
  expect(work(workspace, 'long.md', long('Longe'))).toEqual(NONE);
  expect(work(workspace, 'long.md', long('Longer'))).toEqual(NONE);
  expect(work(workspace, 'long.md', long('L'))).toEqual(NONE);
});

test('a figure that grows by a character judges what rests on it, and nothing behind it', () => {
  const workspace = ready({ 'long.md': long('Long') });
  workspace.expectEdits('long.md');
  workspace.analysis({ today: ON });
  const typed = long('Long').replace('f1: 11 W', 'f1: 111 W');
  expect(work(workspace, 'long.md', typed)).toEqual({ facts: ['f1', 'f2'], requirements: ['L-2', 'L-3'] });
});

test('whatever has moved once moves for nothing from then on', () => {
  const workspace = ready({ 'long.md': long('Long') });
  expect(work(workspace, 'long.md', long('Longe'))).toEqual(ALL);
  expect(work(workspace, 'long.md', long('Longer'))).toEqual(NONE);
});

test('what changes places with others is judged again', () => {
  const workspace = ready({ 'long.md': long('Long') });
  workspace.expectEdits('long.md');
  workspace.analysis({ today: ON });
  const [first, second] = ['  f3: 13 W\n', '  f4: 14 W ± 1 W\n'];
  expect(long('Long')).toContain(first + second);
  const swapped = long('Long').replace(first + second, second + first);
  expect(work(workspace, 'long.md', swapped)?.facts).toContain('f3');
});

test('a related place in another document follows, and what names it is not judged again', () => {
  const workspace = ready({ 'design.md': DESIGN, 'need.md': NEED });
  workspace.expectEdits('design.md');
  workspace.analysis({ today: ON });
  for (const prefix of ['x', 'xy', '']) {
    const text = DESIGN.replace('# note', `# note${prefix}`);
    expect(work(workspace, 'design.md', text)).toEqual(NONE);
    const whole = workspace.analysis({ today: ON });
    const [broken] = whole.byFile.get('need.md')?.filter(({ code }) => code === 'unmet') ?? [];
    const related = broken?.related.map(({ place: { span } }) => text.slice(span.start, span.end));
    expect(related).toEqual(['65 W']);
  }
});

test('a finding stays as it was told when the texts change', () => {
  const workspace = ready({ 'design.md': DESIGN, 'need.md': NEED });
  workspace.expectEdits('design.md');
  workspace.expectEdits('need.md');
  const told = workspace.analysis({ today: ON }).findings;
  const before = JSON.stringify(told);
  workspace.setDocument('design.md', DESIGN.replace('# note', '# noted'));
  workspace.setDocument('need.md', NEED.replace('Need', 'Needed'));
  workspace.analysis({ today: ON });
  expect(JSON.stringify(told)).toBe(before);
});

test('until it is analysed, what was analysed last stands where it stood', () => {
  const workspace = ready({ 'design.md': DESIGN, 'need.md': NEED });
  workspace.expectEdits('need.md');
  const { analysis } = workspace.analysis({ today: ON });
  const [result] = analysis.requirements;
  const before = result?.requirement.idSpan.start;
  workspace.setDocument('need.md', NEED.replace('Need', 'Needed'));
  workspace.read();
  expect(workspace.missingData()).toEqual([]);
  expect(result?.requirement.idSpan.start).toBe(before);
  workspace.analysis({ today: ON });
  expect(result?.requirement.idSpan.start).toBe((before ?? 0) + 2);
});

test('facts that are held stand where their words stand, however they have moved before and since', () => {
  const workspace = createProductWorkspace({ holdsLastGood: true, keepsWork: true });
  workspace.setDocument('long.md', long('Long'));
  workspace.expectEdits('long.md');
  workspace.analysis({ today: ON });
  const broken = (title: string) => long(title).replace('ids: [L]', 'ids: [L');
  const texts = [long('Longer'), broken('Long'), broken('Longest'), broken(''), long('Lo'), broken('Long')];
  for (const text of texts) {
    workspace.setDocument('long.md', text);
    expect(namesWritten(workspace, text)).toEqual(FACTS);
  }
  workspace.setConfiguration('product: Other\n');
  workspace.setDocument('long.md', broken('Longest'));
  expect(namesWritten(workspace, broken('Longest'))).toEqual(FACTS);
});

function namesWritten(workspace: ProductWorkspace, text: string): readonly string[] {
  const { analysis } = workspace.analysis({ today: ON });
  return analysis.product.documents
    .flatMap(factsOfDocument)
    .map(({ nameSpan }) => text.slice(nameSpan.start, nameSpan.end));
}

test('a trial with other texts moves nothing', () => {
  const workspace = ready({ 'design.md': DESIGN, 'need.md': NEED });
  workspace.expectEdits('need.md');
  const { analysis } = workspace.analysis({ today: ON });
  const before = places(workspace);
  workspace.analysisWith(new Map([['need.md', NEED.replace('Need', 'Needed')]]), { today: ON });
  expect(places(workspace)).toEqual(before);
  expect(analysis.requirements[0]?.requirement.idSpan.start).toBe(NEED.indexOf('N-1'));
});

test('a figure with a tolerance that comes where another stood is a figure of its own', () => {
  const facts = '  x: 1 W\n  six: = x + (5 W ± 1 W)\n  dif: = six - two\n';
  const text = (lines: string) =>
    `---\nrequirements: Two\nfacts:\n${lines}---\n## T-1 Two\n\nIt shall be between -1 W and 1 W (\`dif\`).\n`;
  const workspace = ready({ 'two.md': text(facts) });
  workspace.expectEdits('two.md');
  workspace.analysis({ today: ON });
  const files = new Map([['two.md', text(facts.replace('  six', '  two: = x + (5 W ± 1 W)\n  six'))]]);
  give(workspace, new Map(), files);
  expect(checked(workspace)).toBe(checked(fromNothing(files)));
});

test('a limit on an expression that comes where another stood is on an expression of its own', () => {
  const requirement = (id: string, limit: string) =>
    `## ${id} Two\n\nIt shall draw ${limit} W (\`six + (5 W ± 1 W)\`).\n\n`;
  const text = (sections: string) => `---\nrequirements: Two\nfacts:\n  six: 1 W\n---\n${sections}`;
  // The figures of both stand at one offset in turn.
  const first = requirement('T-10', 'at most 3');
  const workspace = ready({ 'two.md': text(first) });
  workspace.expectEdits('two.md');
  workspace.analysis({ today: ON });
  const files = new Map([['two.md', text(requirement('T-2', 'at least 9') + first)]]);
  give(workspace, new Map(), files);
  expect(checked(workspace)).toBe(checked(fromNothing(files)));
});

test('what is asked of an expression in a requirement follows it', () => {
  const text = (title: string) =>
    `${NEED.replace('Need', title)}\n## N-2 Gone\n\nIt shall draw at most 3 W (\`gone + 1 W\`).\n`;
  const workspace = ready({ 'need.md': text('Need') });
  workspace.expectEdits('need.md');
  workspace.analysis({ today: ON });
  expect(work(workspace, 'need.md', text('Needed'))).toEqual(NONE);
  expect(places(workspace)).toEqual(places(fromNothing(new Map([['need.md', text('Needed')]]))));
});

test('a record of a test that moves leaves the rest of the product alone', () => {
  const workspace = ready({ 'long.md': long('Long'), 'runs.md': RUNS_OF_TESTS });
  const moved = RUNS_OF_TESTS.replace('# note', '# noted');
  expect(work(workspace, 'runs.md', moved)).toEqual(NONE);
});

const FACTS = Array.from({ length: 50 }, (_, index) => `f${index}`);
const NONE = { facts: [], requirements: [] };
const ALL = {
  facts: FACTS,
  requirements: Array.from({ length: 10 }, (_, index) => `L-${index + 1}`),
};

/** 50 facts and 10 requirements; every third fact is derived from the one before. */
function long(title: string): string {
  const facts = FACTS.map((name, index) => {
    if (index % 3 === 2) return `  ${name}: = f${index - 1} * 2`;
    return `  ${name}: ${10 + index} W${index % 3 === 1 && index > 3 ? ' ± 1 W' : ''}`;
  });
  const requirements = Array.from(
    { length: 10 },
    (_, index) =>
      `## L-${index + 1} Draw\n\nIt shall draw no more than ${60 + index} W (\`f${index}\`).\n\n- Verify: test T-1\n`,
  );
  return `---\nrequirements: ${title}\nids: [L]\nfacts:\n${facts.join('\n')}\n---\n# Long\n\n${requirements.join('\n')}`;
}

const DESIGN = '---\n# note\nfacts:\n  draw: 65 W\n---\n';
const NEED = '---\nrequirements: Need\n---\n## N-1 Power\n\nIt shall draw no more than 60 W (`draw`).\n';
const RUNS_OF_TESTS =
  '---\n# note\nverifications:\n  - id: T-1\n    method: test\n    verifies: [L-1]\n    runs:\n      - {date: 2026-10-01, result: pass, measured: {f0: 20 W}}\n---\n';

function ready(files: Readonly<Record<string, string>>): ProductWorkspace {
  const workspace = createProductWorkspace({ holdsLastGood: false, keepsWork: true });
  for (const [path, text] of Object.entries(files)) workspace.setDocument(path, text);
  workspace.analysis({ today: ON });
  return workspace;
}

function work(workspace: ProductWorkspace, path: string, text: string): ProductWorkspace['lastWork'] {
  workspace.setDocument(path, text);
  workspace.analysis({ today: ON });
  return workspace.lastWork;
}

/** Renaming in memory: what is renamed everywhere, what is only mentioned, and what is refused. */
import { describe, expect, test } from 'vitest';
import { referencesAt } from '../../server/features/navigation';
import { renamableAt, renameAt } from '../../server/features/rename';
import { analyseFiles, verdictsOf } from '../support/analyse';
import { edited, marked } from '../support/marked';

type Files = Readonly<Record<string, string>>;

function renamed(files: Files, name: string): { readonly files: Files; readonly mentions: readonly string[] } {
  const at = marked(files);
  const judgeWith = (texts: ReadonlyMap<string, string>) => analyseFiles({ ...at.files, ...Object.fromEntries(texts) });
  const rename = renameAt(at.whole, at.file, at.offset, name, judgeWith);
  if (rename.type === 'refused') throw new Error(rename.reason);
  const now = edited(at.files, rename.edits);
  expect(verdictsOf(analyseFiles(now))).not.toEqual({});
  const mentions = [...rename.mentions].flatMap(([file, edits]) =>
    edits.map(({ span }) => `${file}: ${(at.files[file] ?? '').slice(span.start - 6, span.end + 6)}`),
  );
  return { files: now, mentions };
}

const nameAt = (files: Files) => {
  const { whole, file, offset } = marked(files);
  return renamableAt(whole, file, offset)?.name ?? null;
};

describe('a requirement', () => {
  const files = {
    'p.md': '---\nrequirements: P\nfacts: {a: 1 W}\n---\n# About P-1\n\n## |P-1 X\nIt shall draw at most 60 W (`a`).\n',
    'q.md':
      '---\nrequirements: P\nverifications:\n  - {id: TP-1, method: test, verifies: [P-1]}\n---\n## P-2 Y\nIt shall draw at most 50 W (`a`), as P-1 says, not XP-1 or P-1b.\n\n- Derives from: P-1\n',
    'd.md': '---\nfacts:\n  b: {value: 1 W, source: "asked for by P-1"}\n---\nP-1 again.\n',
  };

  test('is renamed where it is read, and where it is only mentioned when somebody confirms it', () => {
    const { files: now, mentions } = renamed(files, 'P-7');
    expect(now['p.md']).toContain('# About P-1\n\n## P-7 X');
    expect(now['q.md']).toContain('verifies: [P-7]');
    expect(now['q.md']).toContain('- Derives from: P-7');
    expect(now['q.md']).toContain('as P-1 says');
    expect(mentions).toEqual([
      expect.stringContaining('About P-1'),
      expect.stringContaining('), as P-1 says'),
      expect.stringContaining('or by P-1"'.slice(3)),
      expect.stringContaining('P-1 again'),
    ]);
  });

  test('is never called like another', () => {
    expect(() => renamed(files, 'P-2')).toThrow();
    expect(() => renamed(files, 'power')).toThrow('is no id');
  });
});

describe('a mode', () => {
  const files = {
    'plimsoll.yaml': 'modes: [standby, record]\n',
    'p.md':
      '---\nrequirements: P\nfacts:\n  draw:\n    standby: 1 W\n    "record": 3 W\n  flow: {standby: 1 W, record: 2 W}\n  mean: = average(draw, 60 % standby, 40 % record)\n---\n## P-1 X\nWhile `standby`, it shall draw at most 2 W (`draw`).\n\n## P-2 Y\nIt shall draw at most 2 W (`flow.stan|dby`) and at most 2 W (`mean`).\n',
    'v.md':
      '---\nverifications:\n  - id: TP-1\n    method: test\n    verifies: [P-2]\n    runs:\n      - {date: 2026-10-02, result: pass, measured: {flow.standby: 1.1 W}}\n---\n',
  };

  test('is renamed in the configuration, in values, expressions, sentences and runs', () => {
    const { files: now } = renamed(files, 'idle');
    expect(now['plimsoll.yaml']).toBe('modes: [idle, record]\n');
    expect(now['p.md']).not.toContain('standby');
    expect(now['p.md']).toContain('    idle: 1 W\n    "record": 3 W\n  flow: {idle: 1 W, record: 2 W}');
    expect(now['p.md']).toContain('60 % idle');
    expect(now['v.md']).toContain('{flow.idle: 1.1 W}');
  });

  test('in quotes keeps them, from the configuration as well', () => {
    const there = { ...files, 'plimsoll.yaml': 'modes: [standby, re|cord]\n', 'p.md': files['p.md'].replace('|', '') };
    expect(renamed(there, 'film').files['p.md']).toContain('    "film": 3 W\n');
  });

  test('is never called like another mode, a key of values or a fact', () => {
    expect(() => renamed(files, 'record')).toThrow('there is a mode');
    expect(() => renamed(files, 'max')).toThrow('part of a value');
    expect(() => renamed(files, 'draw')).toThrow();
  });
});

describe('a table', () => {
  const files = {
    'd.md':
      '---\nfacts:\n  plant:\n    pumps:\n      - {id: one, flow: 3 L/min}\n      - {id: two, flow: 4 L/min}\n---\n',
    'p.md':
      '---\nrequirements: P\nfacts:\n  total: = sum(flow over plant.pumps)\n---\n## P-1 X\nIt shall move at least 5 L/min (`total`) and at least 2 L/min (`plant.pu|mps.one.flow`).\n',
  };

  test('is renamed at its key, where it is run over, and in the path of a row', () => {
    const { files: now } = renamed(files, 'movers');
    expect(now['d.md']).toContain('    movers:\n      - {id: one');
    expect(now['p.md']).toContain('over plant.movers)');
    expect(now['p.md']).toContain('`plant.movers.one.flow`');
  });

  test('of parts or rails keeps the name that the language gives it', () => {
    const parts =
      '---\nrequirements: P\nparts:\n  - {id: soc, power: 1 W}\n---\n## P-1 X\nIt shall draw at most 2 W (`parts.soc.power`).\n';
    expect(nameAt({ 'p.md': parts.replace('`parts', '`par|ts') })).toBeNull();
    expect(nameAt({ 'p.md': parts.replace('.soc.', '.s|oc.') })).toBe('soc');
  });
});

describe('a fact', () => {
  test('is renamed in runs that measured it in a mode', () => {
    const files = {
      'plimsoll.yaml': 'modes: [standby]\n',
      'p.md':
        '---\nrequirements: P\nfacts:\n  dra|w: {standby: 1 W}\nverification: TP-1\nmethod: test\nverifies: [P-1]\nruns:\n  - {date: 2026-10-02, result: pass, measured: {"draw.standby": 1.1 W}}\n---\n## P-1 X\nIt shall draw at most 2 W (`draw.standby`).\n',
    };
    const { files: now } = renamed(files, 'load');
    expect(now['p.md']).toContain('measured: {"load.standby": 1.1 W}');
    expect(now['p.md']).toContain('(`load.standby`)');
  });

  test('is not given a name that hides what another place means', () => {
    const files = {
      'p.md':
        '---\nrequirements: P\nfacts:\n  a: 1 W\n  g: {b|: 2 W, c: = a}\n---\n## P-1 X\nIt shall draw at most 2 W (`g.c`).\n',
    };
    expect(() => renamed(files, 'a')).toThrow('would no longer mean');
  });

  const sentence = 'It shall draw at most 2 W (`supply.draw`).\n';
  const prose = {
    'p.md':
      '---\nrequirements: P\nfacts:\n  supply:\n    dra|w: 1 W\n---\n' +
      '# Why `supply.draw` matters\n\nSee `supply.draw` and `supply.draw.max + 1 W`, not `supply.draw now`.\n\n' +
      `## P-1 X\n${sentence}\nRationale: half of \`supply.draw\` is lost.\n\nMore of \`supply.draw\`.\n\n` +
      '- a remark on `supply.draw`\n- Owner: whoever owns `supply.draw`\n\n| of | what |\n| - | - |\n| a | `supply.draw` |\n\n' +
      '```\nsupply.draw `supply.draw`\n```\n\n> quoted `supply.draw`\n\n<!-- `supply.draw` -->\n\nIn words: supply.draw.\n',
    'd.md': '---\nfacts: {other: 1 W}\n---\n`supply.draw` is given elsewhere.\n',
    'n.md': 'No part of the product: `supply.draw`.\n',
  };

  test('is renamed in every code span of prose that names it, and in no fenced code, quote, comment or other file', () => {
    const { files: now } = renamed(prose, 'load');
    const [, before = ''] = (now['p.md'] ?? '').split('---\n# ');
    const kept = [...before.matchAll(/.*supply\.draw.*/gu)].map(([line]) => line);
    expect(kept).toEqual([
      'See `supply.load` and `supply.load.max + 1 W`, not `supply.draw now`.',
      'supply.draw `supply.draw`',
      '> quoted `supply.draw`',
      '<!-- `supply.draw` -->',
      'In words: supply.draw.',
    ]);
    expect(before.match(/`supply\.load/gu)).toHaveLength(9);
    expect(now['d.md']).toContain('`supply.load` is given');
    expect(now['n.md']).toBe(prose['n.md']);
  });

  test('is found where it is renamed, and nowhere else', () => {
    const { whole, file, offset, files } = marked(prose);
    const rename = renameAt(whole, file, offset, 'load', (texts) =>
      analyseFiles({ ...files, ...Object.fromEntries(texts) }),
    );
    const places = rename.type === 'refused' ? [] : [...rename.edits];
    const found = referencesAt(whole, file, offset).map((one) => `${one.file} ${one.nameSpan.start}`);
    expect(found.sort()).toEqual(
      places.flatMap(([of, edits]) => edits.map(({ span }) => `${of} ${span.start}`)).sort(),
    );
    expect(found).toHaveLength(11);
  });

  test.each(['`extra`', 'extra'])('is renamed among the words that are no limits: %s', (listed) => {
    const files = {
      'p.md':
        '---\nrequirements: P\nfacts: {draw: 1 W, extr|a: 1 W}\n---\n## P-1 X\n' +
        `It shall draw at most 2 W (\`draw\`), beside \`extra\`.\n\n- Not limits: first; ${listed}\n`,
    };
    const { files: now } = renamed(files, 'more');
    expect(now['p.md']).toContain('beside `more`');
    expect(now['p.md']).toContain(`Not limits: first; ${listed.replace('extra', 'more')}`);
  });

  test('is not given a name that prose uses for something else, and is told where', () => {
    const files = {
      'p.md':
        '---\nrequirements: P\nfacts: {dr|aw: 1 W}\n---\nSee `draw` and `load`.\n\n## P-1 X\nIt shall draw at most 2 W (`draw`).\n',
    };
    const at = marked(files);
    const rename = renameAt(at.whole, at.file, at.offset, 'load', (texts) =>
      analyseFiles({ ...at.files, ...Object.fromEntries(texts) }),
    );
    const place = rename.type === 'refused' ? rename.place : null;
    expect(at.text.slice(place?.span.start, place?.span.end)).toBe('load');
  });
});

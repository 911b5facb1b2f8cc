/** What an editor shows where somebody reads: hovers, definitions, references, highlights, the outline, folds, links. */
import { describe, expect, test } from 'vitest';
import { foldsIn } from '../../server/features/folding';
import { hoverAt } from '../../server/features/hover';
import { linksIn } from '../../server/features/links';
import { definitionsAt, highlightsAt, implementationsAt, referencesAt } from '../../server/features/navigation';
import { documentSymbols, workspaceSymbols } from '../../server/features/symbols';
import type { Place } from '../../server/model/place';
import type { Span } from '../../server/syntax/span';
import { analyseFiles } from '../support/analyse';
import { type Marked, marked } from '../support/marked';

const DESIGN = `---
design: Power
facts:
  supply:
    draw: {standby: 4 W, record: 50 W ± 2 W}
    spare: 1 W
parts:
  - {id: soc, power: 3 W, satisfies: [P-1]}
---
`;
const REQUIREMENTS = `---
requirements: Recorder
ids: [P]
verifications:
  - {id: TP-1, title: Bench, method: test, verifies: [P-1], runs: [{date: 2026-10-02, result: pass}]}
---
# Power

## P-1 Draw
The recorder shall draw no more than 60 W (\`supply.draw\`).

- Verify: test TP-1
- Safety: yes

## P-2 Rest
While \`standby\`, the recorder shall draw no more than 5 W (\`supply.draw\`).

- Derives from: P-1
- Evidence: [report](reports/rest.pdf)
`;
const FILES = {
  'plimsoll.yaml': 'product: Recorder\nmodes: [standby, record]\nseverity: {untested: hint}\n',
  'd.md': DESIGN,
  'p.md': REQUIREMENTS,
};

/** The cursor in front of a text that stands once. */
function at(file: keyof typeof FILES, text: string, within = 0): Marked {
  const whole = FILES[file];
  const offset = whole.indexOf(text) + within;
  if (!whole.includes(text)) throw new Error(`${text} is not in ${file}`);
  return marked({ ...FILES, [file]: `${whole.slice(0, offset)}|${whole.slice(offset)}` });
}

const hover = ({ whole, file, offset }: Marked) => hoverAt(whole, file, offset)?.text ?? null;
const written = ({ whole }: Marked, places: readonly Place[]) =>
  places.map(({ file, span }) => `${file}: ${textOf(whole.texts.get(file) ?? '', span)}`);
const textOf = (text: string, { start, end }: Span) => text.slice(start, end);

describe('a hover', () => {
  test('on an id says what the requirement is, how it stands and, where people can come to harm, the caution', () => {
    const text = hover(at('p.md', 'P-1 Draw'));
    expect(text).toContain('**P-1** Draw');
    expect(text).toContain('> The recorder shall draw no more than 60 W');
    expect(text).toContain('**met**');
    expect(text).toContain('⚠');
  });

  test('on the words of a limit says what was read', () => {
    expect(hover(at('p.md', 'no more than 60 W', 3))).toMatch(/^read as `supply\.draw <= 60 W.*`: \*\*met\*\*$/);
  });

  test('on a figure per mode has a line for each, and on the mode that a path ends with the figure', () => {
    expect(hover(at('d.md', 'draw: {'))).toMatch(/- standby: 4 W\n- record: 48 W to 52 W, typically 50 W/);
    const files = {
      ...FILES,
      'p.md': REQUIREMENTS.replace('`supply.draw`).\n\n- Verify', '`supply.draw.rec|ord`).\n\n- Verify'),
    };
    expect(hover(marked(files))).toContain('**supply.draw**');
  });

  test('on a mode, a record, a row, an attribute', () => {
    expect(hover(at('p.md', '`standby`', 2))).toBe('**standby**: a mode of operation');
    expect(hover(at('p.md', 'test TP-1', 6))).toBe('**TP-1** Bench: test, 1 run');
    expect(hover(at('d.md', 'soc, power'))).toMatch(/^\*\*parts\.soc\*\*/);
    expect(hover(at('p.md', 'Derives from'))).toMatch(/^\*\*Derives from\*\*: /);
  });

  test('on a key of front matter or of plimsoll.yaml says what it means', () => {
    expect(hover(at('d.md', 'facts:'))).toBe('**facts**: Named values of the design, given or derived.');
    expect(hover(at('p.md', 'method: test'))).toBe('**method**: How it verifies.');
    expect(hover(at('p.md', 'result: pass'))).toBe('**result**: What came of it.');
    expect(hover(at('plimsoll.yaml', 'severity:', 2))).toMatch(/^\*\*severity\*\*: How severe/);
    expect(hover(at('plimsoll.yaml', 'untested', 2))).toBeNull();
  });

  test('on prose, on white space and past the end says nothing', () => {
    expect(hover(at('p.md', 'The recorder', 2))).toBeNull();
    expect(hover(at('p.md', '\n\n## P-2', 1))).toBeNull();
    expect(hoverAt(analyseFiles(FILES), 'p.md', 1e9)).toBeNull();
    expect(hoverAt(analyseFiles(FILES), 'no-such-file.md', 3)).toBeNull();
  });
});

describe('going to', () => {
  test('a definition: of a fact, of a mode, of a requirement', () => {
    const fact = at('p.md', 'supply.draw`', 8);
    expect(written(fact, definitionsAt(fact.whole, fact.file, fact.offset))).toEqual(['d.md: draw']);
    const mode = at('p.md', '`standby`', 3);
    expect(written(mode, definitionsAt(mode.whole, mode.file, mode.offset))).toEqual(['plimsoll.yaml: standby']);
    const id = at('p.md', 'from: P-1', 7);
    expect(written(id, definitionsAt(id.whole, id.file, id.offset))).toEqual(['p.md: P-1']);
  });

  test('every definition of a name that is given twice', () => {
    const files = {
      ...FILES,
      'e.md': '---\nfacts:\n  supply: {draw: 3 W}\n---\n',
      'p.md': REQUIREMENTS.replace('60 W (`sup', '60 W (`su|p'),
    };
    const twice = marked(files);
    const places = definitionsAt(twice.whole, twice.file, twice.offset);
    expect(places.map(({ file }) => file)).toEqual(['d.md', 'e.md']);
  });

  test('nothing from where nothing stands', () => {
    const prose = at('p.md', 'The recorder', 1);
    expect(definitionsAt(prose.whole, prose.file, prose.offset)).toEqual([]);
    expect(referencesAt(prose.whole, prose.file, prose.offset)).toEqual([]);
    expect(highlightsAt(prose.whole, prose.file, prose.offset)).toEqual([]);
  });

  test('references in every document, the definition among them', () => {
    const id = at('p.md', 'P-1 Draw', 1);
    const found = referencesAt(id.whole, id.file, id.offset);
    expect(found.map(({ file, isDefinition }) => [file, isDefinition])).toEqual([
      ['d.md', false],
      ['p.md', false],
      ['p.md', true],
      ['p.md', false],
    ]);
  });

  test('a mode is found in the configuration, in values and in sentences', () => {
    const mode = at('plimsoll.yaml', 'standby');
    const found = referencesAt(mode.whole, mode.file, mode.offset);
    expect(found.map(({ file, isDefinition }) => [file, isDefinition])).toEqual([
      ['d.md', false],
      ['p.md', false],
      ['plimsoll.yaml', true],
    ]);
  });

  test('highlights stay in the document', () => {
    const fact = at('p.md', 'supply.draw`', 8);
    expect(highlightsAt(fact.whole, fact.file, fact.offset).map(({ file }) => file)).toEqual(['p.md', 'p.md']);
  });

  test('what carries a requirement out: its given figures and the parts that say so', () => {
    const id = at('p.md', 'P-1 Draw', 1);
    expect(written(id, implementationsAt(id.whole, id.file, id.offset))).toEqual(['d.md: draw', 'd.md: soc']);
    const fact = at('p.md', 'supply.draw`', 8);
    expect(implementationsAt(fact.whole, fact.file, fact.offset)).toEqual([]);
  });
});

describe('the outline', () => {
  const { analysis } = analyseFiles(FILES);

  test('holds facts, tables with rows, records and requirements with their verdict, in text order', () => {
    const symbols = documentSymbols(analysis, 'd.md');
    expect(symbols.map(({ name, kind }) => [name, kind])).toEqual([
      ['supply.draw', 'fact'],
      ['supply.spare', 'fact'],
      ['parts', 'table'],
    ]);
    expect(symbols[2]?.children.map(({ name }) => name)).toEqual(['soc']);
    expect(documentSymbols(analysis, 'p.md').map(({ name, detail }) => [name, detail])).toEqual([
      ['TP-1', 'Bench'],
      ['P-1 Draw', 'met'],
      ['P-2 Rest', 'met'],
    ]);
  });

  test('of each symbol the name lies inside of it', () => {
    for (const file of ['d.md', 'p.md'])
      for (const { span, nameSpan } of documentSymbols(analysis, file)) {
        expect(span.start).toBeLessThanOrEqual(nameSpan.start);
        expect(nameSpan.end).toBeLessThanOrEqual(span.end);
      }
  });

  test('of a file without any is empty, and a search takes letters in their order', () => {
    expect(documentSymbols(analysis, 'none.md')).toEqual([]);
    expect(workspaceSymbols(analysis, 'spdr').map(({ name }) => name)).toContain('supply.draw');
    expect(workspaceSymbols(analysis, 'zzz')).toEqual([]);
    expect(workspaceSymbols(analysis, '').length).toBeGreaterThan(5);
  });
});

describe('what folds', () => {
  test('is the front matter and each requirement', () => {
    const { analysis } = analyseFiles(FILES);
    const folds = foldsIn(analysis, 'p.md', REQUIREMENTS).map((span) => textOf(REQUIREMENTS, span).split('\n')[0]);
    expect(folds).toEqual(['---', '## P-1 Draw', '## P-2 Rest']);
  });

  test('is no row of a table, and nothing of a document that takes no part', () => {
    const text = '---\nrequirements: P\n---\n| ID | Requirement |\n| --- | --- |\n| P-1 | It shall work. |\n';
    const { analysis } = analyseFiles({ 'p.md': text, 'n.md': '# Notes\n' });
    expect(foldsIn(analysis, 'p.md', text)).toHaveLength(1);
    expect(foldsIn(analysis, 'n.md', '# Notes\n')).toEqual([]);
  });
});

describe('links', () => {
  test('lead to evidence and to the files that tables read', () => {
    const bom = '---\nparts: {from: bom.csv, id: Ref}\n---\n';
    const { analysis } = analyseFiles({ ...FILES, 'design/b.md': bom, 'design/bom.csv': 'Ref,power\nsoc2,1 W\n' });
    expect(linksIn(analysis, 'p.md').map(({ path }) => path)).toEqual(['reports/rest.pdf']);
    expect(linksIn(analysis, 'design/b.md').map(({ path }) => path)).toEqual(['design/bom.csv']);
  });

  test('there are none in a document that takes no part, nor to what lies outside', () => {
    const { analysis } = analyseFiles({
      'p.md': '---\nrequirements: P\n---\n## P-1 X\nIt shall work.\n\n- Evidence: [out](https://example.org/a.pdf)\n',
    });
    expect(linksIn(analysis, 'p.md')).toEqual([]);
    expect(linksIn(analysis, 'none.md')).toEqual([]);
  });
});

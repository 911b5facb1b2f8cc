/** Matrices of small products, for the tests of their forms. */
import { matrixOf } from '../../server/reports/matrix/matrix';
import type { Matrix } from '../../server/reports/matrix/record';
import { createProductWorkspace } from '../../server/workspace';

export const TODAY = '2026-11-25';

/** The matrix of files given by path, with ranges, on a day, at a made-up commit. */
export function matrixOfFiles(files: Readonly<Record<string, string>>, product = 'Test'): Matrix {
  const workspace = createProductWorkspace();
  for (const [path, text] of Object.entries(files)) {
    if (path === 'plimsoll.yaml') workspace.setConfiguration(text);
    else workspace.setDocument(path, text);
  }
  const result = workspace.analysis({ today: TODAY, ranges: true });
  return matrixOf(result, { product, revision: { commit: '0123456789abcdef', isModified: false } });
}

/** One of each: every verdict and evidence that a small product can have. */
export const VARIED: Readonly<Record<string, string>> = {
  'plimsoll.yaml': 'product: Varied\nmodes: [idle, busy]\nscales:\n  ingress: [IP54, IP66]\n',
  'design.md': `---
facts:
  supply: {draw: {idle: 2 W, busy: 55 W ± 10 %}, rail: {min: 36 V, max: 57 V, source: bank data}}
  box: {rating: IP66, mass: 3.5 kg, torque: TBD}
  store: {days: 9 d, rate: "= 70 MB / 1 s", least: {min: 4 A}}
  cost: 97 EUR
parts:
  - {id: cam, name: Camera, cost: 6.40 EUR, quantity: 2}
  - {id: box, cost: 12 EUR}
---
`,
  'requirements.md': `---
requirements: Varied
facts: {total: = sum(cost over parts)}
---
## P-1 Draw

The recorder shall draw **no more** than 60 W from the [bank](notes/bank.md) (\`supply.draw\`).

Rationale: the fuse.

- Derives from: P-3; P-99
- Owner: power team
- Verify: test TP-01

## P-2 Input

The recorder shall operate from 36 V to 57 V (\`supply.rail\`).

- Safety: yes
- Verify: test

## P-3 Season

The recorder shall last a season.

## P-4 Torque

The bolts shall be tightened with at most 12 N·m (\`box.torque\`).

- Owner: housing team
- Verify: inspection

## P-5 Cost

The part shall cost no more than 90 EUR (\`cost\`).

- Waived: to 97 EUR; first build; A. Person; until 2027-03-31
- Verify: analysis

## P-6 Weight and days

- Check: \`box.mass <= 3 kg\`
- Check: \`store.days >= 7 d\`

## P-7 Parts

The parts shall cost at most 30 EUR together (\`total\`).

- Verify: analysis

| ID | Requirement | Verify |
| --- | --- | --- |
| P-8 | The box shall be rated *IP66* or better (\`box.rating >= "IP66"\`). | inspection |
| P-9 | The current should be at least 3 A (\`store.least\`). | test |
`,
  'tests.md': `---
verification: TP-01
title: Draw on the bench
method: test
verifies: [P-1]
runs:
  - {date: 2026-10-02, result: pass, measured: {supply.draw: 54 W ± 1 W}}
---
`,
};

/** What people and machines put where a title, a name, an owner or a note belongs. */
export const HOSTILE_TEXTS: readonly string[] = [
  '<script>alert(1)</script>',
  '<img src=x onerror=alert(1)>',
  '"><svg onload=alert(1)>',
  "' onmouseover='alert(1)",
  ']]> --> </style></script>',
  '=HYPERLINK("http://example.org","x")',
  '+1+cmd',
  '-2+3',
  '@SUM(A1)',
  '# heading | cell | more',
  '[link](javascript:alert(1)) ![image](x)',
  '\u202Eright to left\u202D \u200F',
  'x'.repeat(10_000),
  'word '.repeat(8_000),
  '{{constructor}} $' + '{alert(1)}',
];

/** A requirement, a figure and a part for each text, which stands wherever a text may stand. */
export function hostileFiles(texts: readonly string[]): Readonly<Record<string, string>> {
  const rows = texts.map((text, index) => `  - {id: p${index}, cost: 1 EUR, name: ${JSON.stringify(text)}}`);
  const requirements = texts.map((text, index) => {
    const statement = `The part shall cost at most 2 EUR (\`parts.p${index}.cost\`), ${text}.`;
    return `## P-${index + 1} ${text}\n\n${statement}\n\n- Owner: ${text}\n- Source: ${text}\n- Rationale: ${text}\n- Waived: to 3 EUR; ${text.replaceAll(';', ',')}; ${text.replaceAll(';', ',')}; until 2027-01-01\n`;
  });
  return { 'a.md': `---\nrequirements: A\nids: [P]\nparts:\n${rows.join('\n')}\n---\n${requirements.join('\n')}` };
}

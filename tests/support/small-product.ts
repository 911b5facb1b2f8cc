/** A small product, a wider one with every kind of thing in it, and the sample: to be edited at random. */
import type { Files } from './random-edits';
import { sourceFiles } from './source';

export const SMALL: Files = new Map([
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

/** With options, rows from a file of data, rows of one table in two files, and a requirement under a record and a parent. */
export const WIDE: Files = new Map([
  ...SMALL,
  [
    'plimsoll.yaml',
    'product: Wide\nmodes:\n  - normal\n  - asleep\nchoose: {processor: alder}\nunits: {USD: 0.9 EUR ± 5 %}\nheadroom: 50 %\n',
  ],
  ['alder.md', '---\noption: alder\nof: processor\nfacts:\n  lamp: {draw: 2 W}\n  cores: 2\n---\n'],
  ['birch.md', '---\noption: birch\nof: processor\nfacts:\n  cores: 4\nparts:\n  - {id: soc, power: 4 W}\n---\n'],
  ['rows.csv', 'Ref,Load,Price\nfan,1.5,2.5\nfuse,0,0.4\n'],
  [
    'd.md',
    `---
requirements: Wide
ids: [D]
facts:
  draw: 6 W
  open: TBD
  guess: 3 mm TBR
parts:
  from: rows.csv
  id: Ref
  fields: {power: Load, cost: Price}
  units: {power: W, cost: EUR}
  rows:
    - {id: fan, quantity: 2}
    - {id: three, power: "= cores * 1 W"}
---
## D-1 Cores

There shall be at least 2 cores (\`cores\`), and no more than 25 W (\`total\`).

- Derives from: A-1
- Verify: test T-1

## D-2 Wall

The wall shall be at least 2 mm thick (\`guess\`) and no more than 3 mm (\`open\`).

- Owner: housing
- Derives from: D-1, B-9
`,
  ],
  [
    'runs.md',
    '---\nverifications:\n  - id: T-1\n    method: test\n    verifies: [D-1]\n    runs:\n      - {date: 2026-10-01, result: pass, measured: {total: 20 W}}\n---\n',
  ],
]);

export function sample(): Files {
  const files = sourceFiles('sample-workspace', /\.md$|plimsoll\.yaml$/);
  return new Map(files.map(({ path, text }) => [path.replace('sample-workspace/', ''), text]));
}

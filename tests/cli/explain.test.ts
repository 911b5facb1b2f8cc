/** `plimsoll explain`: figures worked by hand. */
import { describe, expect, test } from 'vitest';
import { inFolder, plimsoll } from '../support/command-line';

/** 5 V ± 2 % × 2 A ± 0.1 A: 4.9 × 1.9 = 9.31 W to 5.1 × 2.1 = 10.71 W; typically 10 W. */
const TEXT = `---
requirements: A
facts:
  volts: {value: 5 V ± 2 %, source: "rail sheet"}
  amps: 2 A ± 0.1 A
  watts: = volts * amps
parts:
  - {id: load, cost: 3 EUR}
  - {id: spare, cost: 1 EUR}
---
## P-1 Power
The unit shall draw no more than 10.5 W (\`watts\`).

- Derives from: P-2
- Safety: yes
## P-2 Volts
The unit shall be fed with at most 6 V (\`volts\`).
## P-3 Load
The load shall cost at most 3 EUR (\`parts.load.cost\`).
`;

function explained(name: string, ...args: readonly string[]) {
  return inFolder({ 'a.md': TEXT }, (folder) => plimsoll(['explain', name, ...args, '--dir', folder]));
}

describe('explain of a requirement', () => {
  const { out, status } = explained('P-1');

  test('says how the sentence was read and where the figures come from', () => {
    expect(status).toBe(0);
    expect(out).toContain('P-1  Power: at risk  a.md:11');
    expect(out).toContain('The unit shall draw no more than 10.5 W (`watts`).');
    expect(out).toContain('read from “no more than” “10.5 W” and watts');
    expect(out).toContain(
      '9.31 W to 10.71 W in the worst case, typically 10 W; asked for is at most 10.5 W; margin -0.21 W',
    );
  });

  test('ranks what drives it, by the derivatives at typical values', () => {
    // ∂/∂volts = 2 A over 0.2 V, ∂/∂amps = 5 V over 0.2 A: 0.4 W and 1 W of 1.4 W.
    expect(out).toMatch(/71\.4 % {2}amps: 5 W per A\n +28\.6 % {2}volts: 2 W per V/);
    // √((2 × 0.1)² + (5 × 0.1)²) = 0.5385 W about 10 W.
    expect(out).toContain('by root sum square 9.461 W to 10.54 W');
  });

  test('says what would mend it, and what it rests on', () => {
    // volts whole: 1.02 v × 2.1 ≤ 10.5 at v = 4.9019…; amps whole: 5.1 × (a + 0.1) ≤ 10.5 at a = 1.9588…
    expect(out).toContain('volts ≤ 4.901 V (now 5 V)');
    expect(out).toContain('amps ≤ 1.958 A (now 2 A)');
    // 5.1 × (2 + w) ≤ 10.5 at w = 0.0588…; 2.1 × 5 (1 + w) ≤ 10.5 only at w = 0.
    expect(out).toContain('amps within ±0.05882 A (now ±0.1 A)');
    expect(out).toContain('volts without its tolerance (now ±2 %)');
    expect(out).toContain('derives from P-2');
    expect(out).toMatch(/volts: 5 V ± 2 % {2}a\.md:4/);
  });

  test('warns beside a safety requirement', () =>
    expect(out).toContain('Safety requirement: it is never proved by calculation alone'));
});

test('a word for safety that cannot be read is taken for yes, and warned about as well', () => {
  const run = inFolder({ 'a.md': TEXT.replace('Safety: yes', 'Safety: yess') }, (folder) =>
    plimsoll(['explain', 'P-1', '--dir', folder]),
  );
  expect(run.out).toContain('Safety requirement: it is never proved by calculation alone');
});

describe('explain of a fact and of a part', () => {
  test('a given fact: how far it may move and who rests on it', () => {
    const { out } = explained('volts');
    expect(out).toContain('4.9 V to 5.1 V, typically 5 V');
    expect(out).toContain('source: rail sheet');
    // 1.02 v ≤ 6 V at v = 5.882… V; ±20 % reaches 6 V.
    expect(out).toContain('volts may go up to 5.882 V (P-2)');
    expect(out).toContain('the tolerance of volts may be as wide as ±20 % (P-2)');
    expect(out).toContain('P-1  Power: at risk');
    expect(out).toContain('P-2  Volts: met');
  });

  test('a derived fact: what it is derived from', () =>
    expect(explained('watts').out).toMatch(/Derived from\n {4}volts\n {4}amps/));

  test('a part: its fields, and what would become of the rest without it', () => {
    expect(explained('load').out).toMatch(/Without it\n {4}P-3: undecided/);
    const { out } = explained('parts.spare');
    expect(out).toContain('parts.spare.cost: 1 EUR; may go anywhere');
    expect(out).toContain('unneeded');
    expect(out).toContain('no requirement changes');
  });

  test('for programs: one of requirement, fact and part', () => {
    const json = (name: string) => JSON.parse(explained(name, '--format', 'json').out);
    expect(json('P-1')).toMatchObject({
      schema: 1,
      requirement: {
        id: 'P-1',
        verdict: 'at-risk',
        readFrom: [{ relation: 'no more than', quantity: '10.5 W', number: '10.5', unit: 'W' }],
        parentOf: [],
      },
      fact: null,
      part: null,
    });
    expect(json('P-2').requirement.parentOf).toEqual(['P-1']);
    expect(json('volts')).toMatchObject({ requirement: null, fact: { name: 'volts', source: 'rail sheet' } });
    expect(json('load')).toMatchObject({ part: { name: 'parts.load', without: { undecided: ['P-3'] } } });
  });
});

test('a name that means nothing is refused with what is near', () => {
  const run = explained('vols');
  expect(run.status).toBe(2);
  expect(run.errors).toContain('there is no requirement, fact or part “vols”; near it are volts');
});

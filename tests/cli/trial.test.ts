/** `plimsoll trial`: figures worked by hand, and what cannot be tried. */
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { inFolder, plimsoll } from '../support/command-line';

/** Draw 3 × 2 W / 0.8 = 7.5 W in run, 3 × 0.2 W / 0.8 = 0.75 W idle; limits 7 W (unmet) and 1 W; cost 3 × 4 EUR + 5 EUR. */
const TEXT = `---
requirements: A
facts:
  draw: = sum(power over parts) / efficiency
  efficiency: 0.8
  input: 9 V to 16 V
  lid: "IP65"
  glue: TBD
  heat: {idle: 20 °C, run: 40 °C}
parts:
  - {id: lamp, quantity: 3, cost: 4 EUR, power: {idle: 0.2 W, run: 2 W}}
  - {id: fan, cost: 5 EUR, power: 0 W, satisfies: [P-3]}
---
## P-1 Power
The unit shall draw at most 7 W (\`draw\`).
## P-2 Idle
While in \`idle\`, the unit shall draw at most 1 W (\`draw\`).
## P-3 Lamps
The unit shall have at least 3 lamps (\`parts.lamp.quantity\`).
## P-4 Input
The unit shall operate from 10 V to 15 V (\`input\`).
## P-5 Lid
- Check: \`lid = "IP65"\`
## P-6 Glue
The glue shall hold at least 5 N (\`glue\`).
`;
const CONFIGURATION = 'modes: [idle, run]\ntotals: {cost: "= sum(cost over parts)"}\n';

function tried(...args: readonly string[]) {
  return inFolder({ 'a.md': TEXT, 'plimsoll.yaml': CONFIGURATION }, (folder) => {
    const run = plimsoll(['trial', ...args, '--dir', folder]);
    expect(readFileSync(`${folder}/a.md`, 'utf8')).toBe(TEXT);
    return run;
  });
}

function json(...args: readonly string[]) {
  const run = tried(...args, '--format', 'json');
  expect(run.errors).toBe('');
  expect(run.status).toBe(0);
  return JSON.parse(run.out);
}

describe('trial', () => {
  test('puts verdicts and figures beside those of today', () => {
    const { out, status } = tried('efficiency=0.9');
    expect(status).toBe(0);
    expect(out).toContain('efficiency = 0.9 (now 0.8)');
    expect(out).toMatch(/repaired\n {2}P-1 {2}Power: unmet → met/);
    // 6 W / 0.9 = 6.66… W, rounded outward.
    expect(out).toContain('draw <= 7 W: 7.5 W (in mode run) → 6.667 W (in mode run), margin -0.5 W → 0.3333 W');
    expect(out).toContain('P-2  Idle: still met');
    expect(out).toContain('4 as they are.');
    expect(out).toContain('Nothing was written.');
  });

  test('gives programs the same, exactly', () => {
    const result = json('efficiency=0.9');
    expect(result).toMatchObject({
      schema: 1,
      changes: [{ name: 'efficiency', was: '0.8', is: '0.9' }],
      without: [],
      broken: [],
      repaired: ['P-1'],
      eroded: [],
      eased: ['P-2'],
      undecided: [],
    });
    expect(result.summary.now.unmet).toBe(1);
    expect(result.summary.tried.unmet).toBe(0);
    const [repaired] = result.requirements;
    expect(repaired).toMatchObject({ id: 'P-1', now: { verdict: 'unmet' }, tried: { verdict: 'met' } });
    expect(repaired.tried.criteria[0].value.max).toBeCloseTo(6 / 0.9, 12);
  });

  test('takes parts out, and says what totals come to', () => {
    const result = json('--without', 'lamp');
    expect(result).toMatchObject({ without: ['parts.lamp'], repaired: ['P-1'], undecided: ['P-3'] });
    expect(result.totals).toMatchObject([{ name: 'cost', now: { max: 17, unit: 'EUR' }, tried: { max: 5 } }]);
    const { out } = tried('--without', 'parts.fan');
    expect(out).toContain('cost: 17 EUR → 12 EUR');
    expect(out).toContain('No requirement changes.');
  });

  test('tries one mode, both ends of a range, a text, and what is to be determined', () => {
    expect(json('parts.lamp.power.run=1W').repaired).toEqual(['P-1']);
    expect(json('input.min=11V').broken).toEqual(['P-4']);
    expect(json('input.min=17V', 'input.max=18V').changes[1].is).toBe('17 V to 18 V');
    expect(json('lid=IP54').broken).toEqual(['P-5']);
    expect(json('glue=6N').repaired).toEqual(['P-6']);
    expect(json('glue=4N').broken).toEqual(['P-6']);
  });

  test('tries a derived figure as if it were given', () => {
    const result = json('draw=6.5W');
    expect(result.changes).toEqual([{ name: 'draw', was: '= sum(power over parts) / efficiency', is: '6.5 W' }]);
    expect(result.repaired).toEqual(['P-1']);
    expect(result.broken).toEqual(['P-2']);
  });
});

describe('what cannot be tried is refused with the reason', () => {
  test.each([
    [['eficiency=0.9'], 'eficiency: there is no such fact; the nearest is efficiency'],
    [['efficiency=3 W'], 'efficiency: it cannot be 3 W'],
    [['draw=3 V'], 'draw: it cannot be 3 V'],
    [['parts.lamp=3'], 'parts.lamp: it is no figure'],
    [['P-1=3'], 'P-1: it is a requirement'],
    [['parts.fan.quantity=3'], 'parts.fan.quantity: no quantity is written there'],
    [['input.min=17 V'], 'input: 17 V to 16 V has its ends in the wrong order'],
    [['efficiency.min=0.7'], 'efficiency.min: no ends are written there'],
    [['efficiency=0.9', 'efficiency=0.95'], 'efficiency: it is given twice'],
    [['parts.lamp.power=1 W', 'parts.lamp.power.run=2 W'], 'parts.lamp.power.run: it is given twice'],
    [['efficiency=1.2.3'], 'efficiency: '],
    [['--without', 'lmap'], 'there is no part lmap; the nearest is parts.lamp'],
    [[], 'nothing to try'],
    [['efficiency'], 'Write a name and its value'],
  ])('%j', (args, message) => {
    const run = tried(...args);
    expect(run.status).toBe(2);
    expect(run.errors).toContain(message);
    expect(run.out).toBe('');
  });
});

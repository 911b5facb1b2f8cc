/** `plimsoll budget`: figures worked by hand. */
import { describe, expect, test } from 'vitest';
import { inFolder, plimsoll } from '../support/command-line';

/** (2 × 3 W + 4 W ± 10 %) / 0.5 + 1 W: 21 W typically, 20.2 W to 21.8 W at worst. */
const TEXT = `---
requirements: A
facts:
  draw: = sum(power over parts) / 0.5 + rest
  rest: 1 W
  name: "x"
parts:
  - {id: a, power: 3 W, quantity: 2}
  - {id: b, power: 4 W ± 10 %}
  - {id: c, power: 0 W}
---
## P-1 Power
It shall draw at most 22 W (\`draw\`).
`;

function budget(args: readonly string[], text = TEXT) {
  return inFolder({ 'a.md': text }, (folder) => plimsoll(['budget', ...args, '--dir', folder]));
}

describe('budget', () => {
  test('lists contributors by size, with items, share and what the sum may still take', () => {
    const run = budget(['draw']);
    expect(run.status).toBe(0);
    const lines = run.out.split('\n').map((line) => line.replace(/ {2,}/g, ' ').trim());
    expect(lines).toContain('draw 21 W 20.2 W to 21.8 W 100.0 %');
    expect(lines.slice(2, 5)).toEqual([
      'parts.a × 2 12 W 12 W 57.1 %',
      'parts.b 8 W 7.2 W to 8.8 W 38.1 %',
      'rest 1 W 1 W 4.8 %',
    ]);
    expect(run.out).toContain('1 more that take nothing');
    expect(run.out).toContain('It may still take 0.2 W before P-1 (draw <= 22 W) is not met in the worst case.');
  });

  test('is the same for programs, exactly', () => {
    const json = JSON.parse(budget(['draw', '--format', 'json']).out);
    const [{ total }] = json.budgets;
    expect(total).toMatchObject({
      name: 'draw',
      typical: { min: 21, max: 21 },
      min: 20.2,
      max: 21.8,
      unit: 'W',
      share: 1,
    });
    expect(total.parts.map(({ name }: { name: string }) => name)).toEqual(['parts.a', 'parts.b', 'rest', 'parts.c']);
    expect(total.parts[0]).toMatchObject({ items: 2, share: 12 / 21 });
    expect(json.room).toEqual({ requirement: 'P-1', criterion: 'draw <= 22 W', value: 0.2, unit: 'W' });
  });

  test('says by how much a limit is exceeded', () => {
    expect(budget(['draw'], TEXT.replace('22 W', '21 W')).out).toContain('P-1 (draw <= 21 W) is exceeded by 0.8 W.');
  });

  test('names the nearest fact, and what is no quantity, with status 2', () => {
    expect(budget(['drawn'])).toMatchObject({
      status: 2,
      errors: 'plimsoll: there is no fact “drawn”; the nearest is draw\n',
    });
    expect(budget(['name']).status).toBe(2);
  });
});

/** `check --format json`: the shape is a promise, so every key is looked for. */
import { describe, expect, test } from 'vitest';
import { inFolder, plimsoll } from '../support/command-line';

const TEXT = `---
requirements: My product
facts:
  storage: {capacity: 8 TB, retention: = capacity / rate, rate: 72 Mbit/s +10 % / -0 %}
  enclosure: {rating: "IP66", fan: no, since: 2026-10-02}
  lid: {ambient: -20 °C to 45 °C}
---
## P-1 Retention
The product shall store at least 7 days of footage (\`storage.retention\`).

- Derives from: P-2
## P-2 Heat
- Check: \`lid.ambient within -30 °C to 40 °C\`
`;

function checked() {
  return inFolder({ 'a.md': TEXT }, (folder) => JSON.parse(plimsoll(['check', folder, '--format', 'json']).out));
}

describe('check --format json', () => {
  const json = checked();

  test('has the keys of the whole', () => {
    expect(Object.keys(json)).toEqual([
      'schema',
      'product',
      'phase',
      'summary',
      'requirements',
      'facts',
      'openPoints',
      'findings',
    ]);
    expect(json).toMatchObject({ schema: 1, product: 'My product', phase: 'design' });
    expect(Object.keys(json.summary)).toEqual([
      'requirements',
      'met',
      'met-rss',
      'at-risk',
      'unmet',
      'open',
      'undecided',
      'not-applicable',
      'waived',
      'over-specified',
      'evidence',
    ]);
  });

  test('has every key of a requirement and a criterion, with what is not computed as null', () => {
    const [first] = json.requirements;
    expect(first).toMatchObject({
      id: 'P-1',
      title: 'Retention',
      file: 'a.md',
      line: 8,
      obligation: 'shall',
      derivesFrom: ['P-2'],
      verdict: 'met',
      basis: 'worst-case',
      withoutWaiver: null,
      overSpecified: false,
      provisional: false,
      evidence: 'untested',
    });
    const [criterion] = first.criteria;
    expect(criterion).toMatchObject({
      text: 'storage.retention >= 7 d',
      verdict: 'met',
      mode: null,
      row: null,
    });
    // A tolerance of unequal sides stands at its worse end.
    expect(criterion.rss).toMatchObject({ unit: 'd' });
    expect(criterion.rss.min).toBeCloseTo(9.352787130564908, 12);
    expect(criterion.drivers).toHaveLength(1);
    expect(criterion.drivers[0]).toMatchObject({ share: 1, unit: 'd/(Mbit/s)' });
    // d(8 TB / rate) / d(rate) = -10.288… d / 72 Mbit/s.
    expect(criterion.drivers[0].sensitivity).toBeCloseTo(-10.2880658436214 / 72, 12);
    expect(criterion.limit).toEqual({ relation: '>=', low: 7, high: null, unit: 'd' });
    // 8e12 B × 8 / (72e6 × 1.1) s = 808 080.8 s = 9.3527… d; at the typical rate 10.288… d.
    expect(criterion.value.min).toBeCloseTo(9.352787130564908, 12);
    expect(criterion.value.max).toBeCloseTo(10.2880658436214, 12);
    expect(criterion.margin.value).toBeCloseTo(2.352787130564908, 12);
    expect(criterion.surplus).toBeCloseTo(0.3361124472235583, 12);
  });

  test('margins of points are in their difference unit', () => {
    const [criterion] = json.requirements[1].criteria;
    expect(criterion).toMatchObject({
      verdict: 'unmet',
      limit: { relation: 'within', low: -30, high: 40, unit: '°C' },
      margin: { value: -5, unit: 'K' },
    });
  });

  test('facts are in their author’s unit; texts, dates and yes/no are what they are', () => {
    const byName = Object.fromEntries(json.facts.map((fact: { name: string }) => [fact.name, fact]));
    expect(byName['storage.capacity']).toEqual({
      name: 'storage.capacity',
      file: 'a.md',
      line: 4,
      given: true,
      value: { typical: { min: 8, max: 8 }, min: 8, max: 8, unit: 'TB' },
      modes: null,
      allowed: { min: 5.98752, max: null, unit: 'TB', bindsMin: 'P-1', bindsMax: null },
      needed: [],
      halfWidth: null,
      figures: null,
    });
    expect(byName['storage.retention']).toMatchObject({ given: false, value: { unit: 'd' } });
    expect(byName['enclosure.rating'].value).toEqual({ text: 'IP66' });
    expect(byName['enclosure.fan'].value).toEqual({ boolean: false });
    expect(byName['enclosure.since'].value).toEqual({ date: '2026-10-02' });
  });

  test('findings have a place in lines and characters from 0', () => {
    const unmet = json.findings.find(({ code }: { code: string }) => code === 'unmet');
    expect(unmet).toMatchObject({
      severity: 'error',
      requirement: 'P-2',
      file: 'a.md',
      range: { start: { line: 12, character: 10 } },
    });
    expect(unmet.related).toEqual([{ file: 'a.md', line: 6, message: 'lid.ambient is -20 °C to 45 °C' }]);
  });
});

/** plimsoll.yaml: every key read, every mistake named at its place, nothing thrown. */

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { defaultConfiguration, parseConfiguration, readConfiguration } from '../../server/model/configuration';
import { configurationJsonSchema } from '../../server/model/configuration-schema';
import { spanOf } from '../../server/syntax/span';
import type { YamlNode } from '../../server/syntax/yaml-node';

/** `text at the place: message → replacement` for each problem. */
function problemsOf(text: string): readonly string[] {
  return parseConfiguration(text).problems.map(({ code, message, span, fix }) => {
    expect(code).toBe('bad-configuration');
    const replacement = fix === undefined ? '' : ` → ${fix.edits.map((edit) => edit.text).join()}`;
    return `${text.slice(span.start, span.end)}: ${message}${replacement}`;
  });
}

function read(text: string) {
  const { configuration, problems } = parseConfiguration(text);
  expect(problems).toEqual([]);
  return configuration;
}

describe('a configuration without mistakes', () => {
  test('nothing, an empty file and a comment give the defaults', () => {
    expect(readConfiguration(null)).toEqual({ configuration: defaultConfiguration(), problems: [] });
    expect(read('')).toEqual(defaultConfiguration());
    expect(read('# nothing yet\n')).toEqual(defaultConfiguration());
    expect(defaultConfiguration()).toMatchObject({
      phase: 'design',
      include: ['**/*.md'],
      baseline: 'HEAD',
      product: null,
    });
    expect(defaultConfiguration().headroom).toEqual({ text: '100 %', scalar: null });
  });

  test('the plain keys', () => {
    const text =
      'product: Tern\nphase: release\ninclude: [a.md]\nexclude: ["drafts/**"]\nbaseline: v1\nheadroom: "50 %"';
    const configuration = read(text);
    expect(configuration).toMatchObject({
      product: 'Tern',
      phase: 'release',
      include: ['a.md'],
      exclude: ['drafts/**'],
    });
    expect(configuration.baseline).toBe('v1');
    expect(configuration.headroom.text).toBe('50 %');
    expect(text.slice(configuration.headroom.scalar?.span.start)).toBe('"50 %"');
  });

  test('figures keep their digits', () => {
    expect(read('headroom: 1.10').headroom.text).toBe('1.10');
    expect(read('units: {tile: 0777 mm}').units.get('tile')?.text).toBe('0777 mm');
  });

  test('off is a severity, not a yes/no value', () => {
    expect(read('severity: {untested: off, unmet: warning}').severity).toEqual(
      new Map([
        ['untested', 'off'],
        ['unmet', 'warning'],
      ]),
    );
  });

  test('a key may be called like something every object has', () => {
    const configuration = read('units: {constructor: kind, __proto__: 3 m}\ntotals: {toString: "= a"}');
    expect([...configuration.units.keys()]).toEqual(['constructor', '__proto__']);
    expect(configuration.totals.get('toString')?.text).toBe('= a');
  });

  test('modes, scales and interfaces keep their order', () => {
    const configuration = read(
      'modes: [standby, record]\nscales: {ingress: [IP54, IP65]}\ninterfaces: {UART: {agree: [io-voltage, rate]}}',
    );
    expect(configuration.modes.map(({ text }) => text)).toEqual(['standby', 'record']);
    expect(configuration.scales.get('ingress')).toEqual(['IP54', 'IP65']);
    expect(configuration.interfaces.get('UART')).toEqual({ agree: ['io-voltage', 'rate'] });
  });

  test('a choice is a name, or a name with its reason and date', () => {
    const { choose } = read('choose: {cpu: alder, bank: {option: rowan, because: lighter, date: 2026-10-02}}');
    expect(choose.get('cpu')).toMatchObject({ option: 'alder', because: null, date: null });
    expect(choose.get('bank')).toMatchObject({ option: 'rowan', because: 'lighter', date: '2026-10-02' });
  });
});

describe('a mistake is named at its place', () => {
  test.each([
    [
      'relase: 1',
      'relase: unknown key “relase”: the keys are product, phase, include, exclude, baseline, headroom, severity, units, modes, scales, choose, totals, interfaces',
    ],
    ['headrom: 1', 'headrom: unknown key “headrom”: did you mean “headroom”? → headroom'],
    [
      '__proto__: 1',
      '__proto__: unknown key “__proto__”: the keys are product, phase, include, exclude, baseline, headroom, severity, units, modes, scales, choose, totals, interfaces',
    ],
    ['phase: relase', 'relase: phase: “relase” is not one of design, release → release'],
    ['phase: Design', 'Design: phase: “Design” is not one of design, release → design'],
    ['baseline:', 'baseline: baseline: has no value: write one or remove the key'],
    ['headroom: [1]', '[1]: headroom: takes one value, not a list'],
    ['include: a.md', 'a.md: include: takes a list: [ …, … ]'],
    ['include: [ok.md, ../x.md]', '../x.md: include[2]: “../x.md” leaves the folder of plimsoll.yaml'],
    ['severity: {untestd: off}', 'untestd: severity: there is no finding “untestd” → untested'],
    ['severity: {internal: off}', 'internal: severity: the severity of “internal” cannot be changed'],
    ['severity: {unmet: fatal}', 'fatal: severity.unmet: “fatal” is not one of error, warning, information, hint, off'],
    ['severity: [unmet]', '[unmet]: severity: takes a mapping: {key: value, …}'],
    ['units: {tile: {a: b}}', '{a: b}: units.tile: takes one value, not a mapping'],
    ['modes: [a, b, a]', 'a: modes[3]: “a” is listed twice'],
    ['modes: [typ]', 'typ: modes[1]: no mode can be called “typ”: it is a key of values'],
    ['modes: [full load]', 'full load: modes[1]: “full load” is no name: letters, digits, “_” and “-” only'],
    ['scales: {ingress: [IP54, IP54]}', 'IP54: scales.ingress[2]: “IP54” is listed twice'],
    ['choose: {a: [b]}', '[b]: choose.a: takes one value, not a list'],
    ['choose: {a: {because: b}}', '{because: b}: choose.a.option: is missing'],
    ['choose: {a: {opton: b}}', 'opton: choose.a: unknown key “opton”: did you mean “option”? → option'],
    [
      'choose: {a: {option: b, date: 2026-02-30}}',
      '2026-02-30: choose.a.date: “2026-02-30” is no date: write year-month-day (2026-10-02)',
    ],
    [
      'totals: {cost: supply.draw}',
      'supply.draw: totals.cost: a total is an expression and begins with “=”, not “supply.draw” → "= supply.draw"',
    ],
    ['interfaces: {UART: {agre: [x]}}', 'agre: interfaces.UART: unknown key “agre”: did you mean “agree”? → agree'],
    ['interfaces: {UART: {}}', '{}: interfaces.UART.agree: is missing'],
    ['- product', '- product: the configuration is a mapping: key: value'],
    ['Tern', 'Tern: the configuration is a mapping: key: value'],
  ])('%s', (text, expected) => {
    expect(problemsOf(text)).toEqual([expected]);
  });

  test.each(['product: {', 'modes: [a\nphase: release', 'product: a\nproduct: b', 'a: &b c', '\tproduct: x'])(
    'YAML that is none: %j',
    (text) => {
      const { problems } = parseConfiguration(text);
      expect(problems.length).toBeGreaterThan(0);
      for (const { code } of problems) expect(code).toBe('bad-configuration');
    },
  );

  test('all mistakes are seen at once, in text order', () => {
    const text = 'units: x\nseverity: {untestd: off, unmet: fatal}\ninterfaces: {A: {}, B: {agre: [x]}}\nphase: x';
    expect(problemsOf(text).map((problem) => problem.split(': ')[0])).toEqual([
      'x',
      'untestd',
      'fatal',
      '{}',
      'agre',
      'x',
    ]);
  });

  test('a key with a mistake keeps its default, the others are read', () => {
    const { configuration } = parseConfiguration('phase: x\nproduct: Tern\nmodes: [a, a]');
    expect(configuration).toEqual({ ...defaultConfiguration(), product: 'Tern' });
  });
});

test('no tree throws, and every problem points into it', () => {
  const key = fc.constantFrom(
    'phase',
    'include',
    'severity',
    'choose',
    'option',
    'agree',
    'interfaces',
    '__proto__',
    'constructor',
  );
  const span = spanOf(1, 2);
  const { tree } = fc.letrec<{ tree: YamlNode }>((tie) => ({
    tree: fc.oneof(
      { depthSize: 'small' },
      fc.record({
        type: fc.constant('scalar' as const),
        style: fc.constantFrom('plain' as const, 'empty' as const, 'quoted' as const),
        text: fc.oneof(fc.string(), fc.constantFrom('design', '{a', '= x', '{{{', '**/*.md')),
        span: fc.constant(span),
        textStart: fc.constant(null),
      }),
      fc.record({
        type: fc.constant('list' as const),
        items: fc.array(tie('tree'), { maxLength: 3 }),
        flow: fc.boolean(),
        span: fc.constant(span),
      }),
      fc.record({
        type: fc.constant('map' as const),
        entries: fc.array(
          fc.record({ key, keySpan: fc.constant(span), value: tie('tree'), hasColon: fc.constant(true) }),
          { maxLength: 4 },
        ),
        flow: fc.boolean(),
        span: fc.constant(span),
      }),
    ),
  }));
  fc.assert(
    fc.property(tree, (root) => {
      for (const problem of readConfiguration(root).problems) expect(problem.span).toEqual(span);
    }),
  );
});

test('the JSON Schema says the same: closed mappings, lists, words, keys', () => {
  const schema = configurationJsonSchema() as {
    properties: Record<string, Record<string, unknown>>;
    required?: unknown;
  };
  expect(schema).toMatchObject({ type: 'object', additionalProperties: false });
  expect(schema.required).toBeUndefined();
  expect(Object.keys(schema.properties)).toEqual(Object.keys(defaultConfiguration()));
  expect(schema.properties.phase).toMatchObject({ enum: ['design', 'release'] });
  expect(schema.properties.severity).toMatchObject({ additionalProperties: { enum: expect.arrayContaining(['off']) } });
  expect(schema.properties.interfaces).toMatchObject({ additionalProperties: { required: ['agree'] } });
  for (const value of Object.values(schema.properties)) expect(value.description).toMatch(/^[A-Z].*\.$/);
});

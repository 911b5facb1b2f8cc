/** What stands beside the limits: fixes, messages, places, modes, `Not limits:`, checks, provisional values. */
import { describe, expect, test } from 'vitest';
import { pairStatement } from '../../../server/engine/pairing';
import { joinProse } from '../../../server/syntax/sentence/join-prose';
import { readStatement } from '../../../server/syntax/sentence/read-statement';
import { comparisonOf, fixed, pair, proseOf, read, typeOf, units } from '../../support/statement';

const draw = { draw: 'W' };

describe('fixes', () => {
  test('a bare figure offers the three relations, put before it', () => {
    const text = 'The unit shall have six ports (`ports`).';
    const [problem] = pair(text, { ports: 'count' }).problems;
    expect(problem?.message).toBe('“six ports” gives no relation: at least 6, at most 6 or exactly 6?');
    expect(problem?.fixes.map((fix) => fixed(text, fix))).toEqual([
      'The unit shall have at least six ports (`ports`).',
      'The unit shall have at most six ports (`ports`).',
      'The unit shall have exactly six ports (`ports`).',
    ]);
  });

  test.each(['The unit shall have six ports (`ports`).', 'The unit shall have 6 ports (`ports`).'])(
    'each of them settles the question: %s',
    (text) => {
      const [problem] = pair(text, { ports: 'count' }).problems;
      const texts = problem?.fixes.map((fix) => fixed(text, fix)) ?? [];
      expect(texts.flatMap((one) => read(one, { ports: 'count' }))).toEqual(['ports >= 6', 'ports <= 6', 'ports = 6']);
    },
  );

  test('a phrase with several readings offers a condition for each', () => {
    const text = 'The unit shall draw up to 60 W (`draw`).';
    const [problem] = pair(text, draw).problems;
    expect(problem?.fixes.map((fix) => fixed(text, fix))).toEqual([
      'The unit shall draw up to 60 W (`draw >= 60 W`).',
      'The unit shall draw up to 60 W (`draw <= 60 W`).',
    ]);
  });

  test('the condition that a fix writes uses the phrase up', () => {
    const type = { type: 'condition', comparisons: [comparisonOf('<= 60 W')] } as const;
    expect(read('The unit shall draw up to 60 W (`draw <= 60 W`).', { 'draw <= 60 W': type })).toEqual([]);
  });

  test('two ends on a range offer both readings', () => {
    const text = 'The input (`input`) shall be 36 V to 57 V.';
    const [problem] = pair(text, { input: 'range V' }).problems;
    expect(problem?.fixes.map((fix) => fixed(text, fix))).toEqual([
      'The input (`input within 36 V to 57 V`) shall be 36 V to 57 V.',
      'The input (`input spans 36 V to 57 V`) shall be 36 V to 57 V.',
    ]);
  });

  test('a decimal comma becomes a point', () => {
    const text = 'The mass (`m`) shall be at most 1,5 kg.';
    const [problem] = pair(text, { m: 'kg' }).problems;
    expect(fixed(text, problem?.fixes[0])).toBe('The mass (`m`) shall be at most 1.5 kg.');
  });

  test('a name left without a limit may take the figure of the condition', () => {
    const text = 'If the draw exceeds 60 W, the unit shall give an alarm (`draw`).';
    const [problem] = pair(text, draw).problems;
    expect(problem?.code).toBe('which-limit');
    expect(fixed(text, problem?.fixes[0])).toBe(
      'If the draw exceeds 60 W, the unit shall give an alarm (`draw > 60 W`).',
    );
  });

  test('a yes/no name beside a negation offers both', () => {
    const text = 'The unit shall have no fan (`fan`).';
    const [problem] = pair(text, { fan: 'boolean' }).problems;
    expect(problem?.fixes.map((fix) => fixed(text, fix))).toEqual([
      'The unit shall have no fan (`fan = yes`).',
      'The unit shall have no fan (`not fan`).',
    ]);
  });

  test('a difference of temperatures is written in K', () => {
    const text = 'The rise (`rise`) shall be at most 40 °C.';
    const [problem] = pair(text, { rise: 'K' }).problems;
    expect(fixed(text, problem?.fixes[0])).toBe('The rise (`rise`) shall be at most 40 K.');
  });
});

describe('messages stand alone on one line', () => {
  test.each([
    [
      'The draw (`draw`) shall be at most 5 A.',
      '“at most 5 A” does not fit `draw`, which is measured in W: correct the unit or name the fact that it limits',
    ],
    [
      'The unit shall weigh at most 3 kg.',
      '“at most 3 kg” is checked by nothing: name the design fact behind it in a code span, or list the words under “Not limits:”',
    ],
    [
      'The fan shall hum (`draw`).',
      '`draw` has no limit in its sentence: say at least, at most or exactly how much, or list it under “Not limits:” if it is only mentioned',
    ],
    ['The parts shall draw at most 1,5 W (`draw`).', '“1,5 W” has a decimal comma: write 1.5 W'],
  ])('%s', (text, message) => {
    expect(pair(text, draw).problems.map((problem) => problem.message)).toEqual([message]);
  });
});

describe('places', () => {
  test('a limit points at its words and its figure in the document', () => {
    const text = 'The unit (`x`) shall draw no more than 60 W.';
    const [limit] = pair(text, { x: 'W' }).limits;
    const slice = (span: { start: number; end: number } | null | undefined) => span && text.slice(span.start, span.end);
    expect(slice(limit?.trace.relation)).toBe('no more than');
    expect(slice(limit?.trace.quantity)).toBe('60 W');
  });

  test('a trailing relation is pointed at as well', () => {
    const text = 'The unit shall draw 60 W (`draw`) or less.';
    const [limit] = pair(text, draw).limits;
    const span = limit?.trace.relation;
    expect(span && text.slice(span.start, span.end)).toBe('or less');
  });
});

describe('conditions and modes', () => {
  test('While takes the mode, Where says when it applies', () => {
    const text = 'Where `heated`, while `standby`, the unit shall draw at most 6 W (`draw`).';
    const pairing = pair(text, { heated: 'boolean', standby: 'mode', ...draw });
    expect(pairing.modes).toEqual(['standby']);
    expect(pairing.appliesWhen).toEqual([0]);
    expect([...pairing.mentioned]).toEqual([1]);
    expect(pairing.problems).toEqual([]);
  });

  test('the base of a relative limit is only mentioned', () => {
    const pairing = pair('The load (`a`) shall be at most 80 % of `b`.', { a: 'A', b: 'A' });
    expect([...pairing.mentioned]).toEqual([1]);
  });
});

describe('Not limits', () => {
  test('names and figures that are listed are passed over', () => {
    const text = 'The unit with six ports (`ports`) shall draw at most 60 W (`draw`) for less than 5 s.';
    const types = { ports: 'count', ...draw };
    expect(read(text, types, { notLimits: ['ports', 'less than 5 s'] })).toEqual(['draw <= 60 W']);
  });
});

describe('checks', () => {
  test('what the prose says must equal a check in relation and value', () => {
    const checks = [comparisonOf('<= 60 W'), comparisonOf('>= 0.8')];
    expect(read('The unit shall draw no more than 60 W.', {}, { checks })).toEqual([]);
    expect(read('The efficiency shall be at least 80 %.', {}, { checks })).toEqual([]);
    expect(read('The unit shall draw less than 60 W.', {}, { checks })).toEqual(['words-disagree']);
    expect(read('The unit shall draw no more than 50 W.', {}, { checks })).toEqual(['words-disagree']);
    expect(read('The unit shall weigh no more than 3 kg.', {}, { checks })).toEqual(['words-disagree']);
  });
});

describe('marks and obligations', () => {
  test('TBR and TBC keep the value and mark it', () => {
    expect(pair('The unit shall draw at most 60 W (TBC) (`draw`).', draw).limits[0]?.provisional).toBe(true);
    expect(pair('The unit shall draw at most 60 W (`draw`).', draw).limits[0]?.provisional).toBe(false);
  });

  test('a second shall is several obligations and decides nothing', () => {
    const { problems } = pair('The unit shall hum. It shall also glow.', {});
    expect(problems.map(({ code, undecides }) => [code, undecides])).toEqual([['several-obligations', false]]);
  });

  test('items under a colon take over the obligation', () => {
    const prose = joinProse(['The unit shall have:', 'six ports (`ports`)', 'at least 8 TB (`cap`).'].map(proseOf));
    const types = [typeOf('count'), typeOf('B')];
    const { limits, problems } = pairStatement(readStatement(prose), types, units, { notLimits: [], modes: [] });
    expect(limits.map(({ code, relation }) => [code, relation])).toEqual([[1, '>=']]);
    expect(problems.map(({ code }) => code)).toEqual(['which-limit']);
  });

  test('under “shall not:” an item with a comparison is asked about', () => {
    const text = 'The unit shall not:\ndraw more than 60 W (`draw`)';
    expect(read(text, draw)).toEqual(['which-limit']);
  });
});

/** What holds for every sentence: synonyms, conditions, nothing in silence, totality, time. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { processorTime } from '../../support/processor-time';
import { pair, read, type TypeWord } from '../../support/statement';

const UNITS = ['W', 'V', 'kg', 'mm', 's', 'Gbit/s', 'GiB', '°C', '%'] as const;
const SUBJECTS = ['The unit', 'The recorder', 'The camera input', 'Any part of the store', 'The bank'] as const;

/** Rows of 2 · Limit phrases: wordings of one relation around a figure. */
const ROWS: Readonly<Record<string, readonly ((figure: string) => string)[]>> = {
  '>=': [
    (figure) => `at least ${figure}`,
    (figure) => `a minimum of ${figure}`,
    (figure) => `at a minimum ${figure}`,
    (figure) => `at a minimum, ${figure}`,
    (figure) => `min. ${figure}`,
    (figure) => `minimum ${figure}`,
    (figure) => `${figure} min.`,
    (figure) => `${figure} minimum`,
    (figure) => `at or above ${figure}`,
    (figure) => `${figure} or above`,
    (figure) => `≥ ${figure}`,
    (figure) => `>= ${figure}`,
    (figure) => `${figure} or more`,
    (figure) => `${figure} or greater`,
    (figure) => `greater than or equal to ${figure}`,
    (figure) => `equal to or more than ${figure}`,
    (figure) => `no less than ${figure}`,
    (figure) => `not lower than ${figure}`,
  ],
  '<=': [
    (figure) => `at most ${figure}`,
    (figure) => `a maximum of ${figure}`,
    (figure) => `at a maximum ${figure}`,
    (figure) => `max. ${figure}`,
    (figure) => `maximum ${figure}`,
    (figure) => `${figure} max.`,
    (figure) => `${figure} maximum`,
    (figure) => `at or below ${figure}`,
    (figure) => `at or under ${figure}`,
    (figure) => `${figure} or below`,
    (figure) => `${figure} or under`,
    (figure) => `limited to ${figure}`,
    (figure) => `≤ ${figure}`,
    (figure) => `<= ${figure}`,
    (figure) => `${figure} or less`,
    (figure) => `${figure} or lower`,
    (figure) => `less than or equal to ${figure}`,
    (figure) => `equal to or less than ${figure}`,
    (figure) => `within ${figure}`,
    (figure) => `no more than ${figure}`,
    (figure) => `not above ${figure}`,
  ],
  '>': [
    (figure) => `more than ${figure}`,
    (figure) => `greater than ${figure}`,
    (figure) => `in excess of ${figure}`,
    (figure) => `above ${figure}`,
    (figure) => `> ${figure}`,
  ],
  '<': [
    (figure) => `less than ${figure}`,
    (figure) => `smaller than ${figure}`,
    (figure) => `below ${figure}`,
    (figure) => `under ${figure}`,
    (figure) => `< ${figure}`,
  ],
};

const CONDITIONS = [
  'when the lid is open',
  'when the ambient exceeds 40 °C',
  'while the load is above 70 W',
  'if the input is at least 36 V',
  'unless the heater takes more than 20 W',
  'as long as the store is no more than 90 % full',
  'after it has run for 5 min',
  'until the bank is below 44 V',
  'in case the fan turns slower than 900 rpm',
  'when the input is above 36 V and below 57 V',
] as const;

const figures = fc.record({
  number: fc.oneof(
    fc.integer({ min: 2, max: 999 }).map(String),
    fc.integer({ min: 11, max: 999 }).map((n) => `${n / 10}`),
  ),
  unit: fc.constantFrom(...UNITS),
});
const relations = fc.constantFrom(...Object.keys(ROWS));

interface Drawn {
  readonly number: string;
  readonly unit: string;
}

function typesFor({ unit }: Drawn): { readonly x: TypeWord } {
  return { x: unit === '%' ? 'ratio' : unit };
}

function sentence(subject: string, phrase: string): string {
  return `${subject} shall be ${phrase} (\`x\`).`;
}

describe('sentences', () => {
  test('every wording of one relation reads the same', () => {
    fc.assert(
      fc.property(fc.constantFrom(...SUBJECTS), relations, figures, (subject, relation, figure) => {
        const written = `${figure.number} ${figure.unit}`;
        const wordings = (ROWS[relation] ?? []).map((wording) => sentence(subject, wording(written)));
        const expected = [`x ${relation} ${Number(figure.number)} ${figure.unit}`];
        for (const wording of wordings) expect(read(wording, typesFor(figure)), wording).toEqual(expected);
      }),
      { numRuns: 20 },
    );
  });

  test('a condition never changes what is promised', () => {
    const draws = fc.tuple(
      fc.constantFrom(...SUBJECTS),
      relations,
      fc.nat(20),
      figures,
      fc.constantFrom(...CONDITIONS),
    );
    fc.assert(
      fc.property(draws, ([subject, relation, pick, figure, condition]) => {
        const wordings = ROWS[relation] ?? [];
        const phrase = wordings[pick % wordings.length]?.(`${figure.number} ${figure.unit}`) ?? '';
        const plain = read(sentence(subject, phrase), typesFor(figure));
        const first = condition.charAt(0).toUpperCase() + condition.slice(1);
        const variants = [
          `${first}, ${subject.toLowerCase()} shall be ${phrase} (\`x\`).`,
          `${subject} shall, ${condition}, be ${phrase} (\`x\`).`,
          `${subject} shall be ${phrase} (\`x\`) ${condition}.`,
          `${subject} shall be ${phrase} (\`x\`), ${condition}.`,
        ];
        for (const variant of variants) expect(read(variant, typesFor(figure)), variant).toEqual(plain);
      }),
      { numRuns: 80 },
    );
  });

  test('a figure that no limit uses is never passed over', () => {
    const extras = fc.constantFrom(
      'and have six ports',
      'and weigh 3 kg',
      'and weigh less than 3 kg',
      'and be 30 mm to 40 mm wide',
      'and be fed by 48 V ± 5 %',
      'and take 12 frames',
      'and cost €25',
      'and cost $25',
      'and hold 2 100 records',
      'and hold twenty records',
      'and start within 2 years',
    );
    fc.assert(
      fc.property(fc.constantFrom(...SUBJECTS), relations, figures, extras, (subject, relation, figure, extra) => {
        const phrase = (ROWS[relation] ?? [])[0]?.(`${figure.number} ${figure.unit}`) ?? '';
        const { problems } = pair(`${subject} shall be ${phrase} (\`x\`) ${extra}.`, typesFor(figure));
        expect(
          problems.some(({ undecides }) => undecides),
          extra,
        ).toBe(true);
      }),
      { numRuns: 80 },
    );
  });

  test('two names keep their own limits in either order', () => {
    fc.assert(
      fc.property(relations, relations, figures, figures, fc.boolean(), (one, other, a, b, isBehind) => {
        const first = (ROWS[one] ?? [])[0]?.(`${a.number} ${a.unit}`) ?? '';
        const second = (ROWS[other] ?? [])[0]?.(`${b.number} ${b.unit}`) ?? '';
        const text = isBehind
          ? `The lamp shall be ${first} (\`a\`) and the fan ${second} (\`b\`).`
          : `The lamp \`a\` shall be ${first} and the fan \`b\` ${second}.`;
        const types = { a: typesFor(a).x, b: typesFor(b).x };
        expect(read(text, types)).toEqual([
          `a ${one} ${Number(a.number)} ${a.unit}`,
          `b ${other} ${Number(b.number)} ${b.unit}`,
        ]);
      }),
      { numRuns: 80 },
    );
  });
});

describe('any text', () => {
  const words = fc.constantFrom(
    ...'shall not no more than at least most or and but 5 W V 12 % ± + - – … .. to between from within of `x` `y` ( ) , ; : . when while if each min. max. 1,5 $ EUR twenty ninety (90) per in exceed above below up every neither nor prevent until 2027-03-31 half twice times'.split(
      ' ',
    ),
  );

  test('has a reading without an exception, with spans inside the text', () => {
    fc.assert(
      fc.property(
        fc.oneof(
          fc.string({ unit: 'binary', maxLength: 60 }),
          fc.array(words, { maxLength: 30 }).map((list) => list.join(' ')),
        ),
        (text) => {
          const { limits, problems } = pair(text, { x: 'W', y: 'V' });
          for (const { span } of problems) {
            expect(span.start).toBeLessThanOrEqual(span.end);
            expect(span.end).toBeLessThanOrEqual(text.length);
          }
          for (const { trace } of limits) expect(trace.quantity.end).toBeLessThanOrEqual(text.length);
        },
      ),
      { numRuns: 500 },
    );
  });

  const timeOf = (seed: string, length: number) => {
    const text = `The unit shall ${seed.repeat(Math.ceil(length / seed.length))}`;
    const start = processorTime();
    pair(text, { x: 'W' });
    return processorTime() - start;
  };

  test.each([
    'no more than 5 W ',
    'not ',
    'shall not exceed 60 W and ',
    '5 W, ',
    '`x` ',
    '(',
    'each 5 W ',
    '1 ',
    '12',
    '5 to ',
    'thousand ',
    'when 5 W and ',
  ])('of one sentence is read in time that grows with its length: “%s”', (seed) => {
    const short = Math.min(timeOf(seed, 5000), timeOf(seed, 5000));
    // Four times the length is sixteen times the work where it is not linear.
    expect(timeOf(seed, 20_000)).toBeLessThan(Math.max(2000, short * 8));
  });

  test('of a megabyte of limit words is read within seconds', () => {
    expect(timeOf('at least ', 1_000_000)).toBeLessThan(8000);
  });
});

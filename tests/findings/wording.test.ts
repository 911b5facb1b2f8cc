/** Words that keep a requirement from being checked: what is flagged, where exactly, and above all what is not. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { WORDING_KINDS } from '../../grammar/wording';
import { FLAGGED, QUIET } from '../published/wording.fixture';
import { analyseFiles } from '../support/analyse';

const FACTS = 'facts: {draw: 45 W, junction: 80 °C, pf: 0.95, cameras: 6, mass: 8 kg, fan: no}';

/** The words under each *wording* finding of one requirement. */
function flagged(markdown: string, front = ''): readonly string[] {
  const text = `---\nrequirements: Test\nids: [P]\n${FACTS}\n${front}---\n## P-1 The best title\n${markdown}\n`;
  return analyseFiles({ 'product.md': text })
    .findings.filter(({ code }) => code === 'wording')
    .map(({ place: { span } }) => text.slice(span.start, span.end));
}

function messagesOf(markdown: string): readonly string[] {
  const text = `---\nrequirements: Test\nids: [P]\n${FACTS}\n---\n## P-1 Title\n${markdown}\n`;
  return analyseFiles({ 'product.md': text })
    .findings.filter(({ code }) => code === 'wording')
    .map(({ message }) => message);
}

describe.each(FLAGGED)('$source: $says', ({ rows }) => {
  test.each(rows)('“%s”', (words, sentence) => expect(flagged(sentence)).toContain(words));
});

describe.each(QUIET)('$source: $says', ({ rows }) => {
  test.each(rows)('“%s” in: %s', (_, sentence) => expect(flagged(sentence)).toEqual([]));
});

/** Common practice, no source. */
describe('is flagged', () => {
  test.each([
    ['The recorder shall start as soon as possible.', ['as soon as possible']],
    ['The recorder shall be as light as possible.', ['as light as possible']],
    ['The recorder shall stop if possible, and where applicable it beeps.', ['if possible', 'where applicable']],
    ['The recorder shall meet applicable standards.', ['applicable standards']],
    ['The recorder shall meet the latest revision of its rules.', ['latest revision']],
    ['The lid shall close as specified.', ['as specified']],
    ['It shall record.', ['It shall']],
    ['The recorder shall stay on at all times.', ['at all times']],
    ['The latch shall be lighter than the lid.', ['lighter than']],
    ['The recorder should be robust.', ['robust']],
    ['The recorder must be robust.', ['robust']],
    ['The recorder shall be *very* **ro**bust.', ['ro**bust']],
    ['The recorder shall have the\nbest lens.', ['best']],
    ['The recorder shall:\n- be robust\n- draw at most 60 W (`draw`).', ['robust']],
    ['The recorder shall have the fastest\navailable link.', ['fastest\navailable']],
    ['If practicable the recorder shall beep.', ['If practicable']],
  ])('%s', (sentence, words) => expect(flagged(sentence)).toEqual(words));
});

/** Common practice, no source: what a well-written document says all the time. */
describe('is fine', () => {
  test.each([
    'The recorder shall draw at most 60 W (`draw`).',
    'The recorder shall draw, at the very most, 60 W (`draw`).',
    'The recorder shall never exceed 60 W (`draw`).',
    'The recorder shall always draw less than 60 W (`draw`).',
    'The recorder shall not draw more than 60 W (`draw`).',
    'The junction shall at no time be above 95 °C (`junction`).',
    'The recorder shall store footage from all cameras, every day, in each mode.',
    'Every part shall be green.',
    'The lamp shall always be lit while the recorder records.',
    'The recorder shall have a minimum of 6 cameras (`cameras`).',
    'The recorder shall weigh no more than 9 kg (`mass`).',
    'The recorder shall have no fan (`not fan`).',
    'The most significant bit shall be sent first.',
    'The valve shall be normally closed and enter a safe state without power.',
    'The recorder shall have a small hole of at most 9 kg (`mass`).',
    'The button shall be labelled “best” and the other one "easy".',
    'The recorder shall have a Fast Ethernet port and an Easy Loader.',
    'The recorder shall read `best` and `robust.txt`.',
    'The recorder shall restart when it loses power.',
    'The recorder shall keep its log as required by IEC 60529.',
    'The recorder shall beep where a speaker is fitted.',
    'The recorder shall report no later than the start of the day.',
    'The recorder shall not only beep.',
    'The recorder may be robust.',
    'The recorder will be robust.',
    'The recorder shall draw at most 60 W (`draw`). This is the best that we can do, and robust.',
    'The recorder shall draw at most 60 W (`draw`).\n\nRationale: it should be robust and easy.',
    'The recorder shall draw at most 60 W (`draw`).\n\n- Source: the best customers\n- Owner: Robust team',
    'The power factor shall be at least 0.9 (`pf`).',
  ])('%s', (sentence) => expect(flagged(sentence)).toEqual([]));

  test('words that another finding asks about', () => {
    expect(flagged('The recorder shall draw approximately 60 W (`draw`).')).toEqual([]);
  });
});

describe('numbers and units', () => {
  test.each([
    ['When the ambient temperature is above 40, the recorder shall stop.', ['40']],
    ['When the voltage is between 3 and 5, the recorder shall stop.', ['5']],
    ['The recorder shall start at a temperature of -20.', ['20']],
    ['The recorder shall draw less than W (`draw`).', ['W']],
    ['The recorder shall run for at least hours.', ['hours']],
    ['The recorder shall store no more than kB/s of noise.', ['kB/s']],
  ])('%s', (sentence, words) => expect(flagged(sentence)).toEqual(words));

  test.each([
    'When the voltage is between 3 V and 5 V, the recorder shall stop.',
    'When the temperature is above 40 °C, the recorder shall stop.',
    'When the weight is below 5 stones, the recorder shall stop.',
    'When the speed of 3 fans drops, the recorder shall stop.',
    'The recorder shall stop at step 5.',
    'The recorder shall run at least once a day.',
    'The recorder shall log more than a day.',
    'The recorder shall log at least in two places.',
  ])('%s is fine', (sentence) => expect(flagged(sentence)).toEqual([]));
});

describe('a missing obligation word', () => {
  test('in a row of a table', () => {
    const table =
      '| ID | Requirement |\n|---|---|\n| P-2 | At most 60 W (`draw`) |\n| P-3 | The unit shall draw at most 60 W (`draw`) |';
    expect(flagged(`The unit shall be red.\n\n${table}`)).toEqual(['At most 60 W (`draw`)']);
  });

  test('under a heading', () => expect(flagged('It has six legs.')).toEqual(['It has six legs.']));

  test('not where only a check stands', () => expect(flagged('- Check: `draw <= 60 W`')).toEqual([]));
});

test('a message names the words, why, and what would be checkable, on one line', () => {
  expect(messagesOf('The recorder shall start as\nsoon as possible.')).toEqual([
    'P-1: “as soon as possible” leaves open how fast: give the time within which',
  ]);
});

test('every phrase of the language reaches its own row, alone in a sentence', () => {
  const phrases = WORDING_KINDS.flatMap(({ rows }) => rows.flatMap((row) => row.phrases));
  const sections = phrases.map((phrase, index) => {
    const words = phrase
      .replace('<modal>', 'shall')
      .replace(/<(?:up|any)>/, 'wider')
      .replace('<down>', 'smaller');
    return `## P-${index} T\n${phrase.includes('<modal>') ? `${words} beep.` : `The recorder shall have ${words}.`}\n`;
  });
  const { findings } = analyseFiles({ 'a.md': `---\nrequirements: T\n---\n${sections.join('\n')}` });
  const found = findings.filter(({ code }) => code === 'wording').map(({ requirement }) => requirement);
  expect(found).toEqual(phrases.map((_, index) => `P-${index}`));
});

test('places are inside the document, in order, and never overlap, whatever the sentence', () => {
  const words = WORDING_KINDS.flatMap(({ rows }) => rows.flatMap(({ phrases }) => phrases)).concat(
    ...['shall', '`draw`', '60 W', '"', '“', '\n', '.', ',', '(', 'at least', 'W', 'temperature of 5'],
  );
  fc.assert(
    fc.property(fc.array(fc.constantFrom(...words), { maxLength: 25 }), (list) => {
      const text = `---\nrequirements: T\n${FACTS}\n---\n## P-1 T\nThe unit shall ${list.join(' ')}\n`;
      const spans = analyseFiles({ 'a.md': text })
        .findings.filter(({ code }) => code === 'wording')
        .map(({ place }) => place.span);
      for (const [index, { start, end }] of spans.entries()) {
        expect(start).toBeLessThan(end);
        expect(end).toBeLessThanOrEqual(text.length);
        if (index > 0) expect(start).toBeGreaterThanOrEqual(spans[index - 1]?.end ?? 0);
      }
    }),
    { numRuns: 50 },
  );
});

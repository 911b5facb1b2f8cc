/** Which words of a sentence gave relation, number, unit and name of a criterion. */
import { describe, expect, test } from 'vitest';
import { analyseText } from '../support/analyse';

const FACTS = 'supply: {draw: 45 W}\nports: 6\ncost: 97 EUR\nbus: 36 V to 57 V';

function traceOf(sentence: string) {
  const result = analyseText(FACTS, `## P-1 T\n${sentence}\n`);
  const text = result.texts.get('product.md') ?? '';
  const words = (span: { start: number; end: number } | null) => span && text.slice(span.start, span.end);
  return result.analysis.requirements[0]?.criteria.map(({ criterion: { trace, namePlace } }) => ({
    relation: words(trace?.relation ?? null),
    number: words(trace?.number ?? null),
    unit: words(trace?.unit ?? null),
    name: words(namePlace.span),
  }));
}

describe('the trace of a criterion', () => {
  test.each([
    ['The unit shall draw no more than 60 W (`supply.draw`).', 'no more than', '60', 'W', 'supply.draw'],
    ['The unit shall have at least six ports (`ports`).', 'at least', 'six', null, 'ports'],
    ['The unit shall cost less than EUR 100 (`cost`).', 'less than', '100', 'EUR', 'cost'],
    ['The unit shall *draw* 60 **W** or less (`supply.draw`).', 'or less', '60', 'W', 'supply.draw'],
    ['The unit shall operate from 40 V to 56 V (`bus`).', null, '40 V to 56', 'V', 'bus'],
    ['The unit shall draw less than 60 watts per port (`supply.draw`).', 'less than', '60', 'watts', 'supply.draw'],
  ])('%s', (sentence, relation, number, unit, name) => {
    expect(traceOf(sentence)).toEqual([{ relation, number, unit, name }]);
  });
});

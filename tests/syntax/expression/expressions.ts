/** Random expressions of the language's grammar, as text with brackets wherever they may stand. */
import fc from 'fast-check';

const name = fc.constantFrom('a', 'supply.draw', 'rails.12V.load', 'bit-rate', '_x', 'Größe', 'constructor');
const literal = fc.oneof(
  fc.integer({ min: -99, max: 9999 }).map(String),
  fc
    .tuple(fc.integer({ min: 1, max: 99 }), fc.constantFrom('W', 'V', 'Mbit/s', '°C', '%', 'd'))
    .map((pair) => pair.join(' ')),
  fc.constantFrom('5 V ± 5 %', '12 V +5 % / -10 %', '2026-10-02', '1e-3 A', '0.25 Ω', '1 min 30 s'),
);
const text = fc.constantFrom('"IP66"', '"a b"', '"quote \\" inside"', '""');
const table = fc.constantFrom('parts', 'optics.lenses', 'route("a", "b")');

/** A figure of any form. */
export const figures: fc.Arbitrary<string> = fc.letrec<{ figure: string; condition: string }>((tie) => ({
  figure: fc.oneof(
    { maxDepth: 4, depthSize: 'small' },
    name,
    literal,
    fc
      .tuple(tie('figure'), fc.constantFrom('+', '-', '*', '/', 'else'), tie('figure'))
      .map(([a, sign, b]) => `(${a} ${sign} ${b})`),
    fc.tuple(tie('figure'), fc.integer({ min: -3, max: 9 })).map(([a, exponent]) => `(${a})^${exponent}`),
    tie('figure').map((a) => `-(${a})`),
    fc
      .tuple(fc.constantFrom('min', 'max', 'rss'), fc.array(tie('figure'), { minLength: 1, maxLength: 3 }))
      .map(([call, list]) => `${call}(${list.join(', ')})`),
    fc
      .tuple(fc.constantFrom('abs', 'sqrt', 'floor', 'ceil', 'round', 'log10', 'ln', 'exp'), tie('figure'))
      .map(([call, a]) => `${call}(${a})`),
    fc.tuple(tie('condition'), tie('figure'), tie('figure')).map((list) => `if(${list.join(', ')})`),
    fc
      .tuple(fc.constantFrom('sum', 'min', 'mean', 'overlap'), tie('figure'), table)
      .map(([call, a, of]) => `${call}(${a} over ${of})`),
    fc
      .tuple(tie('figure'), table, tie('condition'))
      .map(([a, of, where]) => `sum(${a} over ${of} as r where ${where})`),
    fc.tuple(table, tie('condition')).map(([of, where]) => `count(${of} where ${where})`),
  ),
  condition: fc.oneof(
    { maxDepth: 4, depthSize: 'small' },
    name,
    fc.constantFrom('yes', 'no'),
    fc
      .tuple(tie('figure'), fc.constantFrom('<', '<=', '>', '>=', '=', '!='), tie('figure'))
      .map(([a, sign, b]) => `${a} ${sign} ${b}`),
    fc
      .tuple(tie('figure'), fc.constantFrom('within', 'spans'), tie('figure'), tie('figure'))
      .map(([a, how, low, high]) => `${a} ${how} ${low} to ${high}`),
    fc
      .tuple(name, fc.array(text, { minLength: 2, maxLength: 3 }))
      .map(([a, list]) => `${a} is one of (${list.join(', ')})`),
    fc.tuple(name, text).map(([a, item]) => `${a} has ${item}`),
    tie('condition').map((a) => `not (${a})`),
    fc
      .tuple(tie('condition'), fc.constantFrom('and', 'or'), tie('condition'))
      .map(([a, how, b]) => `(${a}) ${how} (${b})`),
    fc.tuple(fc.constantFrom('all', 'any'), tie('condition'), table).map(([call, a, of]) => `${call}(${a} over ${of})`),
  ),
})).figure;

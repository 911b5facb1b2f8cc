/** Attributes that hold one of a few words and hold another, and root sum square where people can come to harm. */
import { ATTRIBUTES } from '../../grammar/attributes';
import type { AnalysisPart } from '../engine/parts';
import { nearestWords } from '../model/nearest';
import { type Attribute, attributesOf, isSafety, type Requirement } from '../model/requirement';
import type { Draft } from './finding';

export function* attributeValues({ requirements }: AnalysisPart): Iterable<Draft> {
  for (const { requirement } of requirements) {
    for (const { key, values } of ATTRIBUTES) if (values !== undefined) yield* ofKey(requirement, key, values);
    if (isSafety(requirement)) yield* refusedSquares(requirement);
  }
}

function* ofKey(requirement: Requirement, key: string, values: readonly string[]): Iterable<Draft> {
  const written = attributesOf(requirement, key);
  for (const attribute of written) {
    const { text, valueSpan: span } = attribute;
    if (values.includes(text.toLowerCase())) continue;
    const [nearest] = nearestWords(text.toLowerCase(), values);
    const hint = nearest === undefined ? '' : `; the nearest is ${nearest}`;
    const says = text === '' ? `${key} says nothing: write` : `${key} cannot be “${text}”: it is`;
    const fixes = nearest === undefined ? [] : [{ title: `Write ${nearest}`, edits: [{ span, text: nearest }] }];
    yield { ...bad(requirement, attribute, `${says} ${values.join(' or ')}${hint}`), fixes };
  }
  const [first, ...others] = written;
  for (const other of others)
    if (other.text.toLowerCase() !== first?.text.toLowerCase())
      yield bad(requirement, other, `${key} is “${first?.text}” above and “${other.text}” here: which is it?`);
}

function* refusedSquares(requirement: Requirement): Iterable<Draft> {
  for (const attribute of attributesOf(requirement, 'Judge by'))
    if (attribute.text.toLowerCase() === 'rss')
      yield bad(
        requirement,
        attribute,
        'root sum square is refused where people can come to harm (Safety: yes); the worst case decides',
      );
}

function bad({ id, file }: Requirement, { valueSpan, keySpan }: Attribute, message: string): Draft {
  const span = valueSpan.end > valueSpan.start ? valueSpan : keySpan;
  return { code: 'bad-value', requirement: id, message: `${id}: ${message}`, place: { file, span } };
}

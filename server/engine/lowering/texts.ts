/** Which texts a field is known to have: a comparison with any other is a slip of the pen, not a no. */

import type { Fact } from '../../model/fact';
import { nearestWords } from '../../model/nearest';
import type { Expression } from '../../syntax/expression/ast';
import { type Reason, reason } from '../typed';
import { type Environment, placeIn } from './environment';
import type { Lowering } from './lowering';

export function isKnownText(
  lowering: Lowering,
  parts: readonly string[],
  text: string,
  environment: Environment,
): boolean {
  for (const scale of lowering.product.configuration.scales.values()) if (scale.includes(text)) return true;
  const field = parts[parts.length - 1] as string;
  return lowering.textsOf(field).has(text) || isRowId(field, text, environment);
}

function isRowId(field: string, text: string, { row }: Environment): boolean {
  return field === 'id' && (row?.table.rowsById.has(text) ?? false);
}

export function unknownText(
  lowering: Lowering,
  parts: readonly string[],
  literal: Expression & { type: 'text' },
  environment: Environment,
): Reason {
  const field = parts[parts.length - 1] as string;
  const known = lowering.textsOf(field);
  const near = nearestWords(literal.text, known);
  const fixes = near.map((text) => ({ title: `Write "${text}"`, edits: [{ span: literal.span, text: `"${text}"` }] }));
  const hint =
    near.length > 0
      ? `the nearest is "${near[0]}"`
      : known.size > 0
        ? `it is ${[...known]
            .sort()
            .slice(0, 5)
            .map((text) => `"${text}"`)
            .join(', ')}`
        : 'it has no text anywhere';
  return reason('unknown-text', `no ${field} is "${literal.text}"; ${hint}`, placeIn(environment, literal.span), {
    fixes,
  });
}

/** Every text that each field (the last part of a name) has somewhere in the product. */
export function collectTexts(facts: Iterable<Fact>): ReadonlyMap<string, ReadonlySet<string>> {
  const texts = new Map<string, Set<string>>();
  for (const { name, content } of facts) {
    const values = content.type === 'modes' ? [...content.modes.values()] : [content];
    for (const value of values) {
      if (value.type !== 'value' || value.value.type !== 'text') continue;
      const field = name.slice(name.lastIndexOf('.') + 1);
      const known = texts.get(field);
      if (known === undefined) texts.set(field, new Set([value.value.text]));
      else known.add(value.value.text);
    }
  }
  return texts;
}

/** Units behind a number: the product's own first, then those of the language in the order of their groups. */
import { UNIT_GROUPS } from '../../../grammar/units';
import type { Analysis } from '../../engine/analysis';
import { backwards, type CompletionItem, type Cursor, plainItem } from './item';

/** Not behind a decimal point: the number is still being written. */
const AFTER_NUMBER = /(?:^|[^\p{L}\p{N}_.])\d(?:[\d.,]*\d)?[ \u00a0]?([\p{L}µ°Ω%€£]*)$/u;

export function unitItems({ product }: Analysis, cursor: Cursor): readonly CompletionItem[] {
  const match = AFTER_NUMBER.exec(cursor.before);
  if (match === null) return [];
  const typed = match[1] ?? '';
  const replace = backwards(cursor, typed.length);
  const own = [...product.configuration.units.keys()];
  const items = [...own.map((symbol) => ({ symbol, name: 'of this product' })), ...LANGUAGE_UNITS];
  // A prefix is typed before its unit is known, so that k offers kW by its second letter as well.
  const shown = items.filter(({ symbol }) => typed === '' || symbol.startsWith(typed) || typed.endsWith(symbol));
  return shown.map(({ symbol, name }, index) =>
    plainItem(symbol.startsWith(typed) ? symbol : typed, 'unit', replace, { detail: name, rank: index }),
  );
}

const LANGUAGE_UNITS = UNIT_GROUPS.flatMap(({ units }) =>
  units.flatMap(([symbols, , , names]) => {
    const [symbol] = symbols.split(', ');
    return symbol ? [{ symbol, name: names.split(', ')[0] ?? '' }] : [];
  }),
);

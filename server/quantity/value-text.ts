/** A value as its author writes it. */
import { formatValue } from './format';
import type { SimpleValue } from './value';

export function valueText(value: SimpleValue): string {
  switch (value.type) {
    case 'quantity':
      return formatValue(value);
    case 'text':
      return `"${value.text}"`;
    case 'boolean':
      return value.boolean ? 'yes' : 'no';
    case 'set':
      return value.items.map(valueText).join(', ');
  }
}

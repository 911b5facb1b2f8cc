/** Other spans in place of those that plain data holds. */
import { AnchoredSpan } from './anchored-span';
import type { Span } from './span';

/**
 * A copy with other spans; what holds none stays the object that it is, and what is shared stays shared.
 * @param file records with another `file` are left alone; null: none is
 */
export function mapSpans<Item>(item: Item, file: string | null, map: (span: Span) => Span): Item {
  return mapped(item, { file, map, done: new Map() }) as Item;
}

interface Mapping {
  readonly file: string | null;
  readonly map: (span: Span) => Span;
  readonly done: Map<object, unknown>;
}

function mapped(value: unknown, mapping: Mapping): unknown {
  if (typeof value !== 'object' || value === null || value instanceof Set) return value;
  const known = mapping.done.get(value);
  if (known !== undefined) return known;
  mapping.done.set(value, value);
  const made = mappedObject(value, mapping);
  mapping.done.set(value, made);
  return made;
}

function mappedObject(value: object, mapping: Mapping): unknown {
  const { file, map } = mapping;
  if (isSpan(value)) return map(value);
  if (file !== null && 'file' in value && value.file !== file) return value;
  if (value instanceof Map) {
    const entries = [...value].map(([key, item]) => [key, item, mapped(item, mapping)] as const);
    return entries.every(([, item, made]) => item === made)
      ? value
      : new Map(entries.map(([key, , made]) => [key, made]));
  }
  if (Array.isArray(value)) {
    const items = value.map((item: unknown) => mapped(item, mapping));
    return items.every((item, index) => item === value[index]) ? value : items;
  }
  const entries = Object.entries(value).map(([key, item]) => [key, item, mapped(item, mapping)] as const);
  return entries.every(([, item, made]) => item === made)
    ? value
    : Object.fromEntries(entries.map(([key, , made]) => [key, made]));
}

/** Plain data has no other records with just these two numbers. */
export function isSpan(value: object): value is Span {
  if (value instanceof AnchoredSpan) return true;
  const names = Object.keys(value);
  return (
    names.length === 2 &&
    'start' in value &&
    'end' in value &&
    typeof value.start === 'number' &&
    typeof value.end === 'number'
  );
}

/** Lines and characters of places in all documents of a product, each document counted once. */
import { createLineIndex, type LineIndex } from '../syntax/line-index';

export type Lines = (file: string) => LineIndex;

export function lineIndexes(texts: ReadonlyMap<string, string>): Lines {
  const made = new Map<string, LineIndex>();
  return (file) => {
    const known = made.get(file);
    if (known !== undefined) return known;
    const index = createLineIndex(texts.get(file) ?? '');
    made.set(file, index);
    return index;
  };
}

/** Parts of a report that are made as they are written, so that those of a great product are never held all at once. */

/** `JSON.stringify` asks for it (ECMA-262, 25.5.2.2 SerializeJSONProperty). */
export interface Deferred<Part> {
  toJSON(): Part;
}

export function deferred<Part>(make: () => Part): Deferred<Part> {
  return { toJSON: make };
}

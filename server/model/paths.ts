/** Paths that one document gives to another. */

/** A path as a document names it, below the product's folder; what leads above that folder stays inside it. */
export function pathBeside(file: string, named: string): string {
  const parts = file.split('/').slice(0, -1);
  for (const part of named.split('/')) {
    if (part === '..') parts.pop();
    else if (part !== '.' && part !== '') parts.push(part);
  }
  return parts.join('/');
}

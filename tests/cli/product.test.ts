/** What of a product is read again, on a host that counts. */
import { expect, test } from 'vitest';
import { openProduct, readAgain } from '../../server/cli/product';
import type { Host } from '../../server/host';
import { createMemoryHost, type MemoryEntry } from '../../server/host-memory';

/** A product below `/w` and the paths that were read since last asked. */
async function opened(entries: Readonly<Record<string, MemoryEntry>>) {
  const memory = createMemoryHost(entries);
  let read: string[] = [];
  const host: Host = {
    ...memory,
    readFile: (path) => {
      read.push(path);
      return memory.readFile(path);
    },
  };
  const product = await openProduct(host, '/w');
  if (product === null) throw new Error('no product');
  return {
    product,
    entries: memory.entries,
    again: (...changed: readonly string[]) => readAgain(host, product, new Set(changed)),
    all: () => readAgain(host, product, null),
    taken: () => {
      const paths = read.sort();
      read = [];
      return paths;
    },
  };
}

const TEXT = '---\nrequirements: A\n---\n';

test('only changed and new documents are read again', async () => {
  const { all, again, taken, entries } = await opened({ '/w/a.md': TEXT, '/w/b.md': TEXT, '/w/plimsoll.yaml': '' });
  expect(await all()).toBe(true);
  expect(taken()).toEqual(['/w/a.md', '/w/b.md', '/w/plimsoll.yaml']);
  entries.set('/w/a.md', `${TEXT}# More\n`);
  entries.set('/w/c.md', TEXT);
  expect(await again('a.md')).toBe(true);
  expect(taken()).toEqual(['/w/a.md', '/w/c.md']);
  expect(await again('b.md')).toBe(false);
  expect(taken()).toEqual(['/w/b.md']);
});

test('a change of the configuration reads no document that was taken in before', async () => {
  const { all, again, taken, entries, product } = await opened({ '/w/a.md': TEXT, '/w/x/b.md': TEXT });
  await all();
  taken();
  entries.set('/w/plimsoll.yaml', 'exclude: ["x/**"]');
  expect(await again('plimsoll.yaml')).toBe(true);
  expect(taken()).toEqual(['/w/plimsoll.yaml']);
  expect([...product.documents.keys()]).toEqual(['a.md']);
  entries.delete('/w/plimsoll.yaml');
  expect(await again('plimsoll.yaml')).toBe(true);
  expect(taken()).toEqual(['/w/plimsoll.yaml', '/w/x/b.md']);
});

test('a folder that becomes a product of its own leaves this one', async () => {
  const { all, again, entries, product } = await opened({ '/w/a.md': TEXT, '/w/x/b.md': TEXT });
  await all();
  entries.set('/w/x/plimsoll.yaml', '');
  expect(await again('x/plimsoll.yaml')).toBe(true);
  expect([...product.documents.keys()]).toEqual(['a.md']);
  expect(product.notes.lines.join()).toContain('x: a product of its own');
});

test('a document that cannot be read any more is dropped, and read as soon as it can be', async () => {
  const { all, again, entries, product } = await opened({ '/w/a.md': TEXT });
  await all();
  entries.set('/w/a.md', { unreadable: 'permission denied' });
  expect(await again('a.md')).toBe(true);
  expect(product.notes.isIncomplete).toBe(true);
  expect([...product.documents.keys()]).toEqual([]);
  entries.set('/w/a.md', TEXT);
  expect(await again()).toBe(true);
  expect(product.notes.isIncomplete).toBe(false);
});

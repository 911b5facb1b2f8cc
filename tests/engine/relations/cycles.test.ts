/** Circles of derivation against a search of all ways, and long chains. */

import fc from 'fast-check';
import { expect, test } from 'vitest';
import { cyclesIn } from '../../../server/engine/relations/cycles';
import type { Requirement } from '../../../server/model/requirement';
import { spanOf } from '../../../server/syntax/span';

function named(id: string): Requirement {
  const span = spanOf(0, 0);
  const place = { idSpan: span, span, statementSpan: span, file: 'a.md', title: '' };
  return {
    ...place,
    id,
    obligation: 'shall',
    obligationWritten: true,
    statement: null,
    statementSource: { type: 'blocks', spans: [] },
    attributes: [],
    brokenLines: [],
  };
}

function graphOf(size: number, edges: readonly (readonly [number, number])[]) {
  const all = Array.from({ length: size }, (_, index) => named(`P-${index}`));
  const at = (index: number) => all[index % size] as Requirement;
  const parents = new Map(all.map((requirement) => [requirement, [] as Requirement[]]));
  for (const [from, to] of edges) parents.get(at(from))?.push(at(to));
  return { all, parents };
}

const graphs = fc
  .tuple(fc.integer({ min: 1, max: 7 }), fc.array(fc.tuple(fc.nat(20), fc.nat(20)), { maxLength: 12 }))
  .map(([size, edges]) => graphOf(size, edges));

test('every requirement that leads back to itself is in exactly one circle, and no other is in any', () => {
  fc.assert(
    fc.property(graphs, ({ all, parents }) => {
      const reachable = (from: Requirement): ReadonlySet<Requirement> => {
        const seen = new Set<Requirement>();
        const queue = [...(parents.get(from) ?? [])];
        for (const next of queue) {
          if (seen.has(next)) continue;
          seen.add(next);
          queue.push(...(parents.get(next) ?? []));
        }
        return seen;
      };
      const members = cyclesIn(parents).flatMap(({ way, others }) => [...way, ...others]);
      expect(new Set(members).size).toBe(members.length);
      expect(new Set(members)).toEqual(new Set(all.filter((one) => reachable(one).has(one))));
    }),
  );
});

test('the way round follows “Derives from”, and closes', () => {
  fc.assert(
    fc.property(graphs, ({ parents }) => {
      for (const { way } of cyclesIn(parents)) {
        for (const [index, one] of way.entries()) expect(parents.get(one)).toContain(way[(index + 1) % way.length]);
      }
    }),
  );
});

test('a chain of 50,000 costs no stack', () => {
  const edges = Array.from({ length: 50_000 }, (_, index) => [index, index + 1] as const);
  const { parents } = graphOf(50_000, edges);
  expect(cyclesIn(parents).map(({ way }) => way.length)).toEqual([50_000]);
});

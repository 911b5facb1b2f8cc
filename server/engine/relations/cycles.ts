/** Requirements that derive from themselves: the groups in which each leads to each (strongly connected components, Tarjan 1972, from memory). */
import type { Requirement } from '../../model/requirement';

/** In the order in which *Derives from* leads from one to the next, the first in file order first, and then those that the way leaves out. */
export interface Cycle {
  /** One shortest way round: the last derives from the first. */
  readonly way: readonly Requirement[];
  /** Others that lead into it and are led to by it. */
  readonly others: readonly Requirement[];
}

/** Who derives from whom. */
type Parents = ReadonlyMap<Requirement, readonly Requirement[]>;

/** Each group once, in the order of their first members. */
export function cyclesIn(parents: Parents): readonly Cycle[] {
  const places = new Map([...parents.keys()].map((requirement, place) => [requirement, place]));
  const placeOf = (requirement: Requirement) => places.get(requirement) ?? 0;
  return groupsIn(parents)
    .map((group) => [...group].sort((a, b) => placeOf(a) - placeOf(b)))
    .filter(([first, ...others]) => others.length > 0 || (first && parents.get(first)?.includes(first)))
    .sort(([a], [b]) => placeOf(a as Requirement) - placeOf(b as Requirement))
    .map((group) => {
      const way = shortestWay(group, parents);
      const isOnWay = new Set(way);
      return { way, others: group.filter((requirement) => !isOnWay.has(requirement)) };
    });
}

interface Visit {
  readonly requirement: Requirement;
  /** How many parents have been looked at. */
  next: number;
}

interface Search {
  readonly parents: Parents;
  readonly order: Map<Requirement, number>;
  /** The earliest visited that each leads back to. */
  readonly reaches: Map<Requirement, number>;
  readonly open: Requirement[];
  readonly isOpen: Set<Requirement>;
  readonly groups: Requirement[][];
}

function groupsIn(parents: Parents): readonly (readonly Requirement[])[] {
  const search: Search = {
    parents,
    order: new Map(),
    reaches: new Map(),
    open: [],
    isOpen: new Set(),
    groups: [],
  };
  for (const requirement of parents.keys()) if (!search.order.has(requirement)) searchFrom(search, requirement);
  return search.groups;
}

/** Without recursion: a long chain of requirements costs no stack. */
function searchFrom(search: Search, first: Requirement): void {
  const stack = [enter(search, first)];
  for (let visit = stack[stack.length - 1]; visit !== undefined; visit = stack[stack.length - 1]) {
    const { requirement } = visit;
    const parent = search.parents.get(requirement)?.[visit.next];
    visit.next += 1;
    if (parent === undefined) {
      stack.pop();
      const below = stack[stack.length - 1];
      if (below !== undefined) lead(search, below.requirement, search.reaches.get(requirement));
      leave(search, requirement);
    } else if (!search.order.has(parent)) stack.push(enter(search, parent));
    else if (search.isOpen.has(parent)) lead(search, requirement, search.order.get(parent));
  }
}

function enter({ order, reaches, open, isOpen }: Search, requirement: Requirement): Visit {
  reaches.set(requirement, order.size);
  order.set(requirement, order.size);
  open.push(requirement);
  isOpen.add(requirement);
  return { requirement, next: 0 };
}

function lead({ reaches }: Search, requirement: Requirement, place: number | undefined): void {
  const known = reaches.get(requirement) ?? 0;
  reaches.set(requirement, Math.min(known, place ?? known));
}

/** One that leads no further back than to itself closes its group. */
function leave({ order, reaches, open, isOpen, groups }: Search, requirement: Requirement): void {
  if (reaches.get(requirement) !== order.get(requirement)) return;
  const group = open.splice(open.lastIndexOf(requirement));
  for (const member of group) isOpen.delete(member);
  groups.push(group);
}

/** From the first of a group through members of it back to the first, breadth first. */
function shortestWay(group: readonly Requirement[], parents: Parents): readonly Requirement[] {
  const [first] = group as readonly [Requirement];
  const members = new Set(group);
  const from = new Map<Requirement, Requirement>();
  const queue = [first];
  for (const requirement of queue) {
    for (const parent of parents.get(requirement) ?? []) {
      if (parent === first) return wayTo(requirement, first, from);
      if (!members.has(parent) || from.has(parent)) continue;
      from.set(parent, requirement);
      queue.push(parent);
    }
  }
  return group;
}

function wayTo(
  last: Requirement,
  first: Requirement,
  from: ReadonlyMap<Requirement, Requirement>,
): readonly Requirement[] {
  const way = [last];
  for (let at = last; at !== first; way.push(at)) at = from.get(at) ?? first;
  return way.reverse();
}

/** Gives phrases to names (2 · rule 1): clause by clause, then across the clauses of a segment, then of a sentence. */
import type { CodeType } from '../pairing';
import type { Clause } from './clause';
import { type Context, keyAt } from './context';
import { fits, groupKey, measureOf, type Name } from './fit';
import { give } from './give';
import type { Ledger } from './ledger';
import { firstBehind } from './near';
import type { Phrase } from './phrase';
import { severalFit } from './problem';

/** What the assignment works on. */
export interface Assignment {
  readonly context: Context;
  readonly types: readonly CodeType[];
  readonly clauses: readonly Clause[];
  /** Of each clause whether it has an obligation word of its own. */
  readonly hasModal: readonly boolean[];
  readonly names: readonly Name[];
  /** Limit phrases of main clauses. */
  readonly phrases: readonly Phrase[];
  /** Bare figures of main clauses. */
  readonly bare: readonly Phrase[];
  readonly ledger: Ledger;
}

export function assignPhrases(work: Assignment): void {
  assignBracketLists(work);
  const scopes: readonly ((clause: number) => number)[] = [
    (clause) => clause,
    (clause) => work.clauses[clause]?.segment ?? -1,
    (clause) => work.clauses[clause]?.sentence ?? -1,
  ];
  for (const scope of scopes) {
    assignWithin(work, scope, (phrase) => !isDoubtfulRelation(phrase));
    assignWithin(work, scope, () => true);
  }
}

/** Above, below, over and under behind a preposition say where, unless a name needs them. */
function isDoubtfulRelation({ isWeak, isCircumstance }: Phrase): boolean {
  return isWeak && isCircumstance;
}

/** "at least 5 V and at most 3 A (`v`, `i`)": the names of one bracket take the fitting phrases in their order. */
function assignBracketLists(work: Assignment): void {
  const { ledger, types, context } = work;
  for (const names of bracketLists(work.names)) {
    const near = phrasesBefore(work, names);
    const candidates = near.flatMap((phrase) => apart(work, phrase, names));
    const taken = new Set<Phrase>();
    for (const name of names) {
      const own =
        candidates.find((phrase) => !taken.has(phrase) && fits(name, phrase, types)) ??
        candidates.find((phrase) => phrase.distributes && fits(name, phrase, types));
      if (!own) continue;
      taken.add(own);
      give(context, ledger, own, name);
    }
    const firsts = new Set([...taken].map(({ first }) => first));
    for (const phrase of near) if (firsts.has(phrase.first)) ledger.usedPhrases.add(phrase);
  }
}

/** The two bounds that are joined to one limit, as two where more than one name could take them. */
function apart({ types }: Assignment, phrase: Phrase, names: readonly Name[]): readonly Phrase[] {
  const takers = names.filter((name) => fits(name, phrase, types));
  if (phrase.parts.length !== 2 || takers.length < 2) return [phrase];
  return phrase.parts.map((part) => ({ ...phrase, parts: [part], figure: part.figure }));
}

function bracketLists(names: readonly Name[]): readonly (readonly Name[])[] {
  const byBracket = new Map<number, Name[]>();
  for (const name of names) {
    if (name.bracket === -1) continue;
    const list = byBracket.get(name.bracket) ?? [];
    byBracket.set(name.bracket, list);
    list.push(name);
  }
  return [...byBracket.values()].filter((list) => list.length >= 2);
}

/** The free phrases of the sentence between the name before the bracket and the bracket. */
function phrasesBefore(work: Assignment, list: readonly Name[]): readonly Phrase[] {
  const limits = freeBefore(work, work.phrases, list);
  // A bare figure among them holds its place in the order, and is asked about.
  const bare = limits.length === 0 ? [] : freeBefore(work, work.bare, list).filter(isPromise);
  return [...limits, ...bare].sort((a, b) => a.first - b.first);
}

function isPromise({ isObliged, isCircumstance, bracket, figure }: Phrase): boolean {
  return isObliged && !isCircumstance && bracket === -1 && !figure.isOne;
}

function freeBefore(
  { names, ledger }: Assignment,
  phrases: readonly Phrase[],
  list: readonly Name[],
): readonly Phrase[] {
  const [first] = list;
  if (!first) return [];
  const earlier = names[firstBehind(names, first.token - 1, ({ token }) => token) - 1];
  const result: Phrase[] = [];
  for (let index = firstBehind(phrases, first.token, ({ first: at }) => at) - 1; index >= 0; index--) {
    const phrase = phrases[index];
    if (!phrase || phrase.sentence !== first.sentence || phrase.first < (earlier?.token ?? 0)) break;
    if (phrase.bracket !== first.bracket && isFree(ledger, phrase)) result.unshift(phrase);
  }
  return result;
}

function isFree(ledger: Ledger, phrase: Phrase): boolean {
  return !ledger.usedPhrases.has(phrase);
}

function assignWithin(work: Assignment, scope: (clause: number) => number, accepts: (phrase: Phrase) => boolean): void {
  const { ledger, names, phrases, types } = work;
  if (names.every((name) => ledger.settledNames.has(name))) return;
  const groups = new Map<string, { names: Name[]; phrases: Phrase[] }>();
  for (const name of names) {
    if (ledger.settledNames.has(name)) continue;
    const key = `${scope(name.clause)} ${groupKey(name.type)}`;
    const group = groups.get(key) ?? { names: [], phrases: [] };
    groups.set(key, group);
    group.names.push(name);
  }
  for (const phrase of phrases) {
    const measure = isFree(ledger, phrase) && accepts(phrase) ? measureOf(phrase, types) : null;
    const group = measure && groups.get(`${scope(phrase.clause)} ${groupKey(measure)}`);
    if (group) group.phrases.push(phrase);
  }
  for (const group of groups.values()) if (group.phrases.length > 0) assignGroup(work, group.names, group.phrases);
}

/** Past this many ways to pair, nobody could tell which figure belongs to which name. */
const MOST_PAIRINGS = 250_000;

function assignGroup(work: Assignment, names: readonly Name[], phrases: readonly Phrase[]): void {
  if (names.length * phrases.length > MOST_PAIRINGS) {
    askAll(work, names, phrases);
    return;
  }
  const fitting = phrases.filter((phrase) => names.some((name) => mayTake(work, name, phrase)));
  const obliged = fitting.filter(({ isObliged }) => isObliged);
  const candidates = obliged.length > 0 ? obliged : fitting;
  const wanting = names.filter((name) => candidates.some((phrase) => mayTake(work, name, phrase)));
  const [only] = candidates;
  if (!only || wanting.length === 0) return;
  if (candidates.length === 1) assignOne(work, wanting, only);
  else if (wanting.length === 1 && wanting[0]) assignToLoneName(work, wanting[0], candidates);
  else assignInPairs(work, wanting, candidates);
}

/** Fits, and no obligation word of another clause stands between. */
function mayTake({ types, hasModal }: Assignment, name: Name, phrase: Phrase): boolean {
  const isApart =
    name.clause !== phrase.clause && (hasModal[name.clause] ?? false) && (hasModal[phrase.clause] ?? false);
  return !isApart && fits(name, phrase, types);
}

function assignOne(work: Assignment, names: readonly Name[], phrase: Phrase): void {
  const { context, ledger } = work;
  const takers = phrase.distributes ? distributed(context, names, phrase) : [nearest(names, phrase)];
  for (const name of takers) if (name) give(context, ledger, phrase, name);
}

function nearest(names: readonly Name[], phrase: Phrase): Name | undefined {
  let best: Name | undefined;
  for (const name of names) if (!best || distance(name, phrase) < distance(best, phrase)) best = name;
  return best;
}

function distance({ token }: Name, { first, next }: Phrase): number {
  return token < first ? first - token : token - next + 1;
}

/** The names before the phrase, and the list that the nearest name behind it stands in. */
function distributed(context: Context, names: readonly Name[], phrase: Phrase): readonly Name[] {
  const before = names.filter(({ token }) => token < phrase.first);
  const behind = names.filter(({ token }) => token >= phrase.next);
  const list: Name[] = [];
  for (const name of behind) {
    const last = list.at(-1);
    if (last && !isList(context, last.token, name.token)) break;
    list.push(name);
  }
  return before.length > 0 && list.length > 0
    ? [...before, ...list.filter(({ token }) => token - phrase.next <= 1)]
    : [...before, ...list];
}

const LIST_WORDS: ReadonlySet<string> = new Set([',', 'and', 'or', '(', ')', 'the']);

/** Only commas, *and* and brackets between two code spans. */
function isList(context: Context, from: number, to: number): boolean {
  for (let index = from + 1; index < to; index++) {
    if (!LIST_WORDS.has(keyAt(context, index)) && context.tokens[index]?.type !== 'code') return false;
  }
  return true;
}

function assignToLoneName(work: Assignment, name: Name, phrases: readonly Phrase[]): void {
  const { context, ledger } = work;
  const fitting = phrases.filter((phrase) => mayTake(work, name, phrase) && !phrase.isShare);
  const [first, ...others] = fitting.length > 0 ? fitting : phrases;
  if (!first) return;
  if (others.length === 0 || others.every((other) => saysTheSame(first, other))) {
    for (const other of others) ledger.usedPhrases.add(other);
    give(context, ledger, first, name);
    return;
  }
  askAll(work, [name], fitting);
}

function saysTheSame(a: Phrase, b: Phrase): boolean {
  const [first, second] = [a.parts[0], b.parts[0]];
  if (!first || !second || a.parts.length + b.parts.length !== 2 || a.question || b.question) return false;
  if (first.relation !== second.relation || first.figure.base !== second.figure.base) return false;
  return isEqual(first.figure.low, second.figure.low) && isEqual(first.figure.high, second.figure.high);
}

function isEqual(
  a: { numerator: bigint; denominator: bigint },
  b: { numerator: bigint; denominator: bigint },
): boolean {
  return a.numerator === b.numerator && a.denominator === b.denominator;
}

/** Names and phrases that stand in twos, one of each; in any other order it is asked which belongs to which. */
function assignInPairs(work: Assignment, names: readonly Name[], phrases: readonly Phrase[]): void {
  const pairs = pairsOf(work, names, phrases);
  if (!pairs) {
    askAll(work, names, phrases);
    return;
  }
  for (const { name, phrase } of pairs) give(work.context, work.ledger, phrase, name);
}

type Standing = { readonly at: number; readonly name: Name } | { readonly at: number; readonly phrase: Phrase };

function pairsOf(
  work: Assignment,
  names: readonly Name[],
  phrases: readonly Phrase[],
): readonly { name: Name; phrase: Phrase }[] | null {
  if (names.length !== phrases.length) return null;
  const row: Standing[] = [
    ...names.map((name) => ({ at: name.token, name })),
    ...phrases.map((phrase) => ({ at: phrase.first, phrase })),
  ].sort((a, b) => a.at - b.at);
  const pairs: { name: Name; phrase: Phrase }[] = [];
  for (let index = 0; index < row.length; index += 2) {
    const pair = pairOf(row[index], row[index + 1]);
    if (!pair || !mayTake(work, pair.name, pair.phrase)) return null;
    if (isTornBy(pair, row[index + 2])) return null;
    pairs.push(pair);
  }
  return pairs;
}

function pairOf(first: Standing | undefined, second: Standing | undefined): { name: Name; phrase: Phrase } | null {
  if (!first || !second) return null;
  if ('name' in first) return 'phrase' in second ? { name: first.name, phrase: second.phrase } : null;
  return 'name' in second ? { name: second.name, phrase: first.phrase } : null;
}

/** "`a` … 5 V (`b`)": the phrase was paired with the name before it, but another name stands right behind it. */
function isTornBy({ name, phrase }: { name: Name; phrase: Phrase }, next: Standing | undefined): boolean {
  return name.token < phrase.first && next !== undefined && 'name' in next && next.at - phrase.next <= 1;
}

function askAll({ context, ledger }: Assignment, names: readonly Name[], phrases: readonly Phrase[]): void {
  ledger.problems.push(severalFit(context, names, phrases));
  for (const name of names) {
    ledger.settledNames.add(name);
    ledger.limitedClauses.add(name.clause);
  }
  for (const phrase of phrases) ledger.usedPhrases.add(phrase);
}

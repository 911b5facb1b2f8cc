/** What each code span of a statement is there for: a name that wants a limit, part of a condition, or only mentioned. */

import type { Place } from '../../syntax/sentence/token';
import type { CodeType, PairingOptions } from '../pairing';
import type { Clause } from './clause';
import type { Context } from './context';
import type { Name } from './fit';

export interface CodePlace {
  readonly code: number;
  readonly token: number;
  readonly clause: number;
}

export interface Roles {
  readonly names: readonly Name[];
  /** Code spans outside conditions that are no quantity, and not listed under `Not limits:`. */
  readonly others: readonly CodePlace[];
  readonly mentioned: ReadonlySet<number>;
  readonly appliesWhen: readonly number[];
  readonly modes: readonly string[];
  /** Modes in conditions that do not take them (`When`, `If`). */
  readonly looseModes: readonly CodePlace[];
  /** Quantities inside conditions. */
  readonly namesInConditions: readonly Name[];
}

export function codePlaces(context: Context, clauseAt: readonly number[]): readonly CodePlace[] {
  const places: CodePlace[] = [];
  for (const [index, token] of context.tokens.entries())
    if (token.type === 'code') places.push({ code: token.code, token: index, clause: clauseAt[index] ?? 0 });
  return places;
}

export function rolesOf(
  context: Context,
  places: readonly CodePlace[],
  clauses: readonly Clause[],
  types: readonly CodeType[],
  notLimits: readonly Place[],
): Roles {
  const listed = listedCodes(context, places, notLimits);
  const free = places.filter(({ code }) => !listed.has(code));
  const inConditions = free.filter(({ clause }) => clauses[clause]?.kind === 'condition');
  const main = free.filter(({ clause }) => clauses[clause]?.kind !== 'condition');
  const openerOf = ({ clause }: CodePlace) => clauses[clause]?.opener ?? '';
  const applies = inConditions.filter((place) => openerOf(place) === 'where' && isCondition(types[place.code]));
  const modes = inConditions.filter(({ code }) => types[code]?.type === 'mode');
  const taken = modes.filter((place) => WHILE.has(openerOf(place)));
  const isName = ({ code }: CodePlace) => types[code]?.type === 'quantity';
  return {
    names: main.filter(isName).map((place) => nameOf(context, place, clauses, types)),
    others: main.filter((place) => !isName(place)),
    mentioned: new Set([
      ...listed,
      ...inConditions.filter((place) => !applies.includes(place)).map(({ code }) => code),
    ]),
    appliesWhen: applies.map(({ code }) => code),
    modes: [...new Set(taken.flatMap(({ code }) => modeOf(types[code])))],
    looseModes: modes.filter((place) => !WHILE.has(openerOf(place))),
    namesInConditions: inConditions.filter(isName).map((place) => nameOf(context, place, clauses, types)),
  };
}

const WHILE: ReadonlySet<string> = new Set(['while', 'whilst']);

function isCondition(type: CodeType | undefined): boolean {
  return type?.type === 'condition' || type?.type === 'boolean';
}

function modeOf(type: CodeType | undefined): readonly string[] {
  return type?.type === 'mode' ? [type.mode] : [];
}

function nameOf(
  context: Context,
  { code, token, clause }: CodePlace,
  clauses: readonly Clause[],
  types: readonly CodeType[],
): Name {
  const type = types[code];
  if (type?.type !== 'quantity') throw new TypeError('a name is a quantity');
  const text = context.reading.prose.codes[code]?.code ?? '';
  return {
    code,
    token,
    clause,
    sentence: clauses[clause]?.sentence ?? 0,
    bracket: context.reading.brackets[token] ?? -1,
    text,
    type,
    isCount: type.isCount ?? /^\s*count\s*\(/.test(text),
  };
}

/** Where the words listed under `Not limits:` stand in the prose; spaces match any run of spaces. */
export function placesOfNotLimits(context: Context, { notLimits }: PairingOptions): readonly Place[] {
  if (notLimits.length === 0) return [];
  const text = context.text.replace(/\s/g, ' ');
  return notLimits
    .map((words) => words.replace(/\s+/g, ' ').trim())
    .filter((words) => words !== '')
    .flatMap((words) => occurrences(text, words));
}

function occurrences(text: string, words: string): readonly Place[] {
  const found: Place[] = [];
  for (let start = text.indexOf(words); start !== -1; start = text.indexOf(words, start + words.length)) {
    found.push({ start, end: start + words.length });
  }
  return found;
}

function listedCodes(context: Context, places: readonly CodePlace[], notLimits: readonly Place[]): ReadonlySet<number> {
  const texts = new Set(
    notLimits.length === 0 ? [] : notLimits.map(({ start, end }) => context.text.slice(start, end)),
  );
  return new Set(
    places
      .filter(
        ({ code, token }) =>
          texts.has(context.reading.prose.codes[code]?.code ?? '') || isInside(context, token, notLimits),
      )
      .map(({ code }) => code),
  );
}

function isInside(context: Context, index: number, places: readonly Place[]): boolean {
  const token = context.tokens[index];
  return token !== undefined && places.some(({ start, end }) => start <= token.start && token.end <= end);
}

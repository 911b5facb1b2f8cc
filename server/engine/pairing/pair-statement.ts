/** The sentence is the check: a statement with the types of its code spans becomes limits and questions. */
import { groupBy } from '../../model/group-by';
import type { UnitTable } from '../../quantity/unit-table';
import type { StatementReading } from '../../syntax/sentence/reading';
import type { Place } from '../../syntax/sentence/token';
import type { CodeType, InnerComparison, Pairing, PairingOptions, PairingProblem } from '../pairing';
import { agreeWithCode } from './agree';
import { assignPhrases } from './assign';
import { attachRelations, type RawPhrase, relationsOfNames } from './attach';
import { type Clause, cutClauses } from './clause';
import { codeProblems } from './code-problems';
import { type Context, contextOf } from './context';
import { findFigures } from './figure-reader';
import { emptyLedger } from './ledger';
import { type Leftovers, settleLeftovers } from './leftover';
import { weighNegations } from './negation';
import { isBare, type Phrase } from './phrase';
import { relationOfName, severalObligations } from './problem';
import { findDistributors, resolvePhrases } from './resolve';
import { type CodePlace, codePlaces, placesOfNotLimits, type Roles, rolesOf } from './roles';
import { findActions, findCapabilities, findVerbs } from './verb';

/**
 * Reads a statement's limits. `types` has one entry for each code span of the prose. Never throws; the time is linear in
 * the statement's length. What can be read in two ways is a problem and gives no limit.
 */
export function pairStatement(
  reading: StatementReading,
  types: readonly CodeType[],
  units: UnitTable,
  options: PairingOptions,
): Pairing {
  const context = contextOf(reading, units);
  const raw = attachRelations(context, findFigures(context), segmentStarts(context));
  const clauses = cutClauses(context, raw);
  const clauseAt = clauseOfTokens(context, clauses);
  const notLimits = placesOfNotLimits(context, options);
  const phrases = phrasesOf(context, raw, clauses, clauseAt).filter((phrase) => !isListed(phrase, notLimits));
  const places = codePlaces(context, clauseAt);
  const roles = withoutBases(rolesOf(context, places, clauses, types, notLimits), phrases, clauses);
  const ledger = emptyLedger();
  const work = leftoversOf({ context, types, clauses, phrases, roles, ledger, checks: options.checks ?? [] });
  for (const { code, clause } of roles.others) {
    if (types[code]?.type === 'condition') ledger.limitedClauses.add(clause);
  }
  agreeAll(work, places, roles);
  assignPhrases(work);
  settleLeftovers(work);
  const problems = [
    ...ledger.problems,
    ...codeProblems(context, roles, clauses, types, raw),
    ...namedRelations(context, raw, clauses, clauseAt, types, notLimits),
    ...obligationProblems(context),
  ];
  return {
    limits: [...ledger.limits].sort((a, b) => a.trace.quantity.start - b.trace.quantity.start || a.code - b.code),
    problems: [...problems].sort((a, b) => a.span.start - b.span.start || a.span.end - b.span.end),
    mentioned: roles.mentioned,
    appliesWhen: roles.appliesWhen,
    modes: roles.modes,
  };
}

/** First token of the segment around each token. */
function segmentStarts(context: Context): (token: number) => number {
  const starts = new Array<number>(context.tokens.length).fill(0);
  for (const { segments } of context.reading.sentences) {
    for (const { from, to } of segments) starts.fill(from, from, to);
  }
  return (token) => starts[token] ?? 0;
}

function clauseOfTokens(context: Context, clauses: readonly Clause[]): readonly number[] {
  const result = new Array<number>(context.tokens.length).fill(-1);
  for (const [index, { from, to }] of clauses.entries()) result.fill(index, from, to);
  return result;
}

function phrasesOf(
  context: Context,
  raw: readonly RawPhrase[],
  clauses: readonly Clause[],
  clauseAt: readonly number[],
): readonly Phrase[] {
  const clauseOf = raw.map(({ figure }) => clauseAt[figure.first] ?? -1);
  const negations = weighNegations(context, raw, clauses, clauseOf);
  const verbs = findVerbs(context, clauses);
  const capabilities = findCapabilities(context, clauses);
  const distributors = findDistributors(context, clauses);
  const actions = findActions(context, clauses);
  return resolvePhrases(context, raw, (index) => {
    const clauseIndex = clauseOf[index] ?? -1;
    return {
      clause: clauses[clauseIndex] ?? NO_CLAUSE,
      clauseIndex,
      verb: verbs[clauseIndex] ?? null,
      capability: capabilities[clauseIndex] ?? null,
      distributor: distributors[clauseIndex] ?? null,
      action: actions[clauseIndex] ?? null,
      negation: negations[index] ?? { governing: 0, crosses: false, others: 0 },
    };
  });
}

const NO_CLAUSE: Clause = { from: 0, to: 0, kind: 'main', opener: null, sentence: 0, segment: 0 };

function isListed(phrase: Phrase, notLimits: readonly Place[]): boolean {
  const { start, end } = phrase.figure;
  return notLimits.some((place) => place.start <= start && end <= place.end);
}

/** The base of a relative limit is no name of its own. */
function withoutBases(roles: Roles, phrases: readonly Phrase[], clauses: readonly Clause[]): Roles {
  const main = phrases.filter(({ clause }) => clauses[clause]?.kind === 'main');
  const bases = new Set(main.flatMap(({ figure }) => (figure.base === null ? [] : [figure.base])));
  return {
    ...roles,
    names: roles.names.filter(({ code }) => !bases.has(code)),
    mentioned: new Set([...roles.mentioned, ...bases]),
  };
}

interface Parts {
  readonly context: Context;
  readonly types: readonly CodeType[];
  readonly clauses: readonly Clause[];
  readonly phrases: readonly Phrase[];
  readonly roles: Roles;
  readonly ledger: Leftovers['ledger'];
  readonly checks: readonly InnerComparison[];
}

function leftoversOf({ context, types, clauses, phrases, roles, ledger, checks }: Parts): Leftovers {
  const main = phrases.filter(({ clause }) => clauses[clause]?.kind === 'main');
  const sentenceOf = ({ clause }: CodePlace) => clauses[clause]?.sentence ?? -1;
  const undecided = roles.others.filter(({ code }) => types[code]?.type === 'undecided');
  return {
    context,
    types,
    clauses,
    hasModal: clauses.map(({ from, to }) => hasModal(context, from, to)),
    names: roles.names,
    phrases: main.filter((phrase) => !isBare(phrase)),
    bare: main.filter(isBare),
    inConditions: phrases.filter(({ clause }) => clauses[clause]?.kind === 'condition'),
    undecidedSentences: new Set(undecided.map(sentenceOf)),
    comparisons: comparisonsBySentence(roles, types, sentenceOf),
    checks,
    namesInConditions: roles.namesInConditions,
    limitSentences: new Set(main.filter((phrase) => !isBare(phrase)).map(({ sentence }) => sentence)),
    namesOfSentence: groupBy(roles.names, ({ sentence }) => sentence),
    ledger,
  };
}

function hasModal(context: Context, from: number, to: number): boolean {
  for (let index = from; index < to; index++) {
    if (context.termFrom.get(index)?.meaning.kind === 'modal') return true;
  }
  return false;
}

function comparisonsBySentence(
  roles: Roles,
  types: readonly CodeType[],
  sentenceOf: (place: CodePlace) => number,
): ReadonlyMap<number, readonly InnerComparison[]> {
  const result = new Map<number, InnerComparison[]>();
  for (const place of roles.others) {
    const type = types[place.code];
    if (type?.type !== 'condition') continue;
    const list = result.get(sentenceOf(place)) ?? [];
    result.set(sentenceOf(place), list);
    list.push(...type.comparisons);
  }
  return result;
}

/** Sentence by sentence, so that a code span uses up only what stands beside it. */
function agreeAll(work: Leftovers, places: readonly CodePlace[], roles: Roles): void {
  const free = places.filter(({ code }) => !roles.mentioned.has(code) && !roles.appliesWhen.includes(code));
  const placesOf = groupBy(free, ({ clause }) => work.clauses[clause]?.sentence ?? -1);
  const phrasesOfSentence = groupBy(
    [...work.phrases, ...work.bare].sort((a, b) => a.first - b.first),
    ({ sentence }) => sentence,
  );
  for (const [sentence, here] of placesOf) {
    const names = work.namesOfSentence.get(sentence) ?? [];
    agreeWithCode(work.context, work.ledger, phrasesOfSentence.get(sentence) ?? [], here, names, work.types);
  }
}

/** "at least IP65" without a condition beside it that says what is meant. */
function namedRelations(
  context: Context,
  raw: readonly RawPhrase[],
  clauses: readonly Clause[],
  clauseAt: readonly number[],
  types: readonly CodeType[],
  notLimits: readonly Place[],
): readonly PairingProblem[] {
  const terms = relationsOfNames(context, raw);
  if (terms.length === 0) return [];
  const settled = new Set(
    codePlaces(context, clauseAt)
      .filter(({ code }) => ['condition', 'text', 'set', 'undecided'].includes(types[code]?.type ?? ''))
      .map(({ clause }) => clauses[clause]?.sentence),
  );
  return terms.flatMap((term) => {
    const clause = clauses[clauseAt[term.from] ?? -1];
    const start = context.tokens[term.from]?.start ?? 0;
    const end = context.tokens[term.to]?.end ?? start;
    const isAside = notLimits.some((place) => place.start <= start && end <= place.end);
    if (clause?.kind !== 'main' || isAside || settled.has(clause.sentence)) return [];
    return [relationOfName(context, start, end)];
  });
}

/** Each *shall* or *must* outside conditions after the first one. */
function obligationProblems(context: Context): readonly PairingProblem[] {
  const modals = context.reading.terms.filter(({ meaning }) => meaning.kind === 'modal' && meaning.binding);
  if (modals.length < 2) return [];
  const kinds = new Array<boolean>(context.tokens.length).fill(false);
  for (const { segments } of context.reading.sentences) {
    for (const { from, to, kind } of segments) kinds.fill(kind === 'main', from, to);
  }
  const binding = modals.filter(({ from }) => kinds[from]);
  return binding.slice(1).map((term) => {
    const token = context.tokens[term.from];
    return severalObligations(context, token?.start ?? 0, token?.end ?? 0);
  });
}

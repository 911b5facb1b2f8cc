/** The evidence of one requirement: every method and record that is asked for, and the weakest of them (3-semantics, Untested). */
import { isSafety, type Requirement } from '../../model/requirement';
import { isYetToCome, type Method, type TestRun, type Verification } from '../../model/verification';
import { methodsOf, type NamedMethod } from '../../model/verify-methods';
import type { CriterionResult } from '../judge-criterion';
import type { Lowering } from '../lowering/lowering';
import type { Verdict } from '../verdict';
import { uncoveredRanges } from './conditions';
import { judgedWith, type MeasuredResult } from './measured';
import { coverageOf } from './proved';
import { type Disagreement, type Evidence, type EvidenceItem, type Moved, type StaleCause, weakest } from './state';
import { statementDigest } from './text-digest';

/** What the design says of the requirement, before its evidence is asked. */
export interface Judged {
  readonly requirement: Requirement;
  readonly verdict: Verdict;
  readonly basis: 'worst-case' | 'rss' | 'evidence';
  readonly criteria: readonly CriterionResult[];
  readonly modes: readonly string[];
}

export function evidenceOf(lowering: Lowering, judged: Judged): Evidence {
  const { verifications } = lowering.product;
  const { id } = judged.requirement;
  const { methods } = methodsOf(judged.requirement, (word) => verifications.has(word));
  const named = new Set(methods.flatMap(({ records }) => records));
  const linked = recordsOf(lowering, id).filter((record) => !named.has(record.id));
  const served = new Set(
    [...linked, ...[...named].flatMap((record) => verifications.get(record) ?? [])].map(({ method }) => method),
  );
  const items = [
    ...methods.flatMap((method) => itemsOfMethod(lowering, judged, method, served)),
    ...linked.map((record) => itemOfRecord(lowering, judged, record, null)),
  ];
  const state = items.length === 0 ? 'untested' : weakest(items.map((item) => item.state));
  return { state, items };
}

/** Records that name the requirement, found once for a product. */
function recordsOf({ product }: Lowering, id: string): readonly Verification[] {
  const known = linksOf.get(product.verifications) ?? linksIn(product.verifications);
  linksOf.set(product.verifications, known);
  return known.get(id) ?? [];
}

type Links = ReadonlyMap<string, readonly Verification[]>;

const linksOf = new WeakMap<object, Links>();

function linksIn(verifications: ReadonlyMap<string, Verification>): Links {
  const links = new Map<string, Verification[]>();
  for (const record of verifications.values()) {
    for (const { text } of record.verifies) {
      const known = links.get(text);
      if (known === undefined) links.set(text, [record]);
      else known.push(record);
    }
  }
  return links;
}

function itemsOfMethod(
  lowering: Lowering,
  judged: Judged,
  named: NamedMethod,
  served: ReadonlySet<Method>,
): readonly EvidenceItem[] {
  if (named.records.length > 0)
    return named.records.map((id) => {
      const record = lowering.product.verifications.get(id);
      return record === undefined
        ? { ...emptyItem(named, null, 'planned'), record: id }
        : itemOfRecord(lowering, judged, record, named);
    });
  // The record that serves the method speaks for itself.
  if (named.method !== null && served.has(named.method)) return [];
  return [emptyItem(named, null, named.method === 'analysis' && isCalculated(judged) ? 'calculated' : 'planned')];
}

function isCalculated({ requirement, verdict, basis }: Judged): boolean {
  return verdict === 'met' && basis === 'worst-case' && !isSafety(requirement);
}

function emptyItem(
  named: NamedMethod | null,
  verification: Verification | null,
  state: EvidenceItem['state'],
): EvidenceItem {
  const method = named?.method ?? verification?.method ?? null;
  return {
    method,
    named,
    verification,
    record: verification?.id ?? null,
    state,
    run: null,
    measured: [],
    disagreements: [],
    causes: [],
    moved: [],
    uncovered: [],
  };
}

function itemOfRecord(
  lowering: Lowering,
  judged: Judged,
  verification: Verification,
  named: NamedMethod | null,
): EvidenceItem {
  const runs = conclusiveRuns(verification, lowering.product.surroundings.today);
  const run = runs.at(-1);
  if (run === undefined) return emptyItem(named, verification, 'planned');
  const measured = judgedWith(lowering, judged.criteria, judged.modes, run.measured);
  const disagreements = disagreementsOf(run, judged, measured);
  const item = { ...emptyItem(named, verification, 'failed'), run, measured, disagreements };
  if (run.result === 'fail' || disagreements.length > 0) return item;
  // A run that cannot be read may be the one that failed.
  if (verification.hasUnreadRuns) return { ...item, state: 'planned' };
  const { causes, moved } = stalenessOf(lowering, judged, verification, run, measured);
  if (causes.length > 0) return { ...item, state: 'stale', causes, moved };
  const at = passingSinceFailure(runs).flatMap((one) => one.at);
  const uncovered = uncoveredRanges(lowering, judged.criteria, at);
  return { ...item, state: uncovered.length > 0 ? 'partial' : 'verified', moved, uncovered };
}

/** By date, then by place in the file; an inconclusive one says nothing, nor does a pass whose day is yet to come. */
function conclusiveRuns({ runs }: Verification, today: string | null): readonly TestRun[] {
  return runs
    .filter((run) => run.result === 'fail' || (run.result === 'pass' && !isYetToCome(run, today)))
    .toSorted((a, b) => (a.date < b.date ? -1 : a.date > b.date ? 1 : 0));
}

function passingSinceFailure(runs: readonly TestRun[]): readonly TestRun[] {
  return runs.slice(runs.findLastIndex(({ result }) => result === 'fail') + 1);
}

/** A run may fail for any of its criteria, so all of them have to be shown met before it is doubted. */
function disagreementsOf(
  { result }: TestRun,
  { criteria }: Judged,
  measured: readonly MeasuredResult[],
): readonly Disagreement[] {
  if (result === 'pass') return measured.filter((one) => one.measured.verdict === 'unmet');
  const isShownMet = measured.every((one) => one.isWhole && one.measured.verdict === 'met');
  return measured.length === criteria.length && isShownMet ? measured : [];
}

interface Staleness {
  readonly causes: readonly StaleCause[];
  readonly moved: readonly Moved[];
}

function stalenessOf(
  lowering: Lowering,
  judged: Judged,
  { file }: Verification,
  run: TestRun,
  measured: readonly MeasuredResult[],
): Staleness {
  const causes: StaleCause[] = [...documentCauses(lowering, judged, run)];
  if (judged.basis === 'evidence') return { causes: [...causes, ...statementCauses(judged, run)], moved: [] };
  if (judged.criteria.length === 0) return { causes: [...causes, { type: 'undecided' }], moved: [] };
  const moved: Moved[] = [];
  for (const result of judged.criteria) {
    const coverage = coverageOf(lowering, result, judged.modes, run, file);
    if (coverage.type === 'covered') moved.push(...(coverage.moved === null ? [] : [coverage.moved]));
    else if (!isMeasured(result, coverage.cause, measured)) causes.push(coverage.cause);
  }
  return { causes, moved };
}

/** Measured values prove a limit that was tightened, and one of which nothing else was recorded. */
function isMeasured(result: CriterionResult, { type }: StaleCause, measured: readonly MeasuredResult[]): boolean {
  if (type !== 'tightened' && type !== 'not-recorded') return false;
  return measured.some((one) => one.result === result && one.isWhole && one.measured.verdict === 'met');
}

/** A plain pass is enough, but one that was recorded holds for the words it was recorded for. */
function statementCauses({ requirement }: Judged, { proved }: TestRun): readonly StaleCause[] {
  if (proved === null) return [];
  const digest = statementDigest(requirement);
  const isSame = proved.some(({ digests }) => digests.some((kept) => digest.startsWith(kept)));
  return isSame ? [] : [{ type: 'statement' }];
}

/** A document that other requirements point at says nothing of this one. */
function documentCauses({ product }: Lowering, { requirement }: Judged, { documents }: TestRun): readonly StaleCause[] {
  const { digests } = product.surroundings;
  return [...documents].flatMap(([path, kept]): readonly StaleCause[] => {
    const linked = product.evidenceFiles.filter((one) => one.path === path);
    if (linked.length > 0 && linked.every((one) => one.requirement !== requirement.id)) return [];
    const now = digests.get(path);
    if (now === undefined || (typeof now === 'string' && now.startsWith(kept))) return [];
    return [{ type: 'document', path, now }];
  });
}

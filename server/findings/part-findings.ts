/** What is found in each document, kept for as long as neither it nor what was looked up for it has changed. */
import { type Analysis, analysisOf } from '../engine/analysis';
import type { AnalysisPart } from '../engine/parts';
import type { RangeAnalysis } from '../engine/ranges/ranges';
import { Lookups, type Recorder } from '../engine/recorder';
import { asItStands } from './as-it-stands';
import type { Finding } from './finding';
import { NAME_RULES, PART_RULES, type PartRule, RANGE_RULES } from './rules';
import { settled } from './severity';

/** By file. */
export type PartMemory = Map<string, KeptPart>;

/** What is found in a part. */
export interface PartFindings {
  readonly file: string;
  /** In no order. */
  readonly here: readonly Finding[];
  /** Its rows may stand in a file of data. */
  readonly elsewhere: readonly Finding[];
}

interface KeptPart {
  readonly part: AnalysisPart;
  readonly recorder: Recorder;
  readonly groups: readonly KeptGroup[];
  readonly findings: PartFindings;
  /** The other parts that they point into, as they were: what stands there may have moved since. */
  readonly others: ReadonlyMap<string, AnalysisPart | undefined>;
}

interface KeptGroup {
  /** Their places follow what they speak of. */
  readonly findings: readonly Finding[];
  /** Those that the findings rest on. */
  readonly lookups: Lookups;
}

/** Of each part, in their order, a part at a time; with a memory the same object while nothing of a part is other. */
export function* partFindings(
  analysis: Analysis,
  ranges: RangeAnalysis | null,
  memory: PartMemory,
): Generator<void, readonly PartFindings[]> {
  const { recorder, parts } = analysis;
  const broken: PartRules = RANGE_RULES.map(
    (rule): PartRule =>
      (whole, part) =>
        rule(whole, part, ranges),
  );
  const groups = [PART_RULES, NAME_RULES, broken];
  const found: PartFindings[] = [];
  if (recorder !== null) forgetOthers(analysis, memory);
  const looking = recorder === null ? null : { analysis: noting(analysis, recorder), recorder };
  for (const part of parts) {
    if (looking === null) found.push(split(part, listsOf(analysis, part, groups)));
    else if (ranges === null) found.push(kept(looking, part, groups, memory).findings);
    else {
      // With ranges what is broken is said in other words, once, at rest.
      const lists = kept(looking, part, KEPT_WITH_RANGES, memory).groups.map(({ findings }) => findings);
      found.push(split(part, [...lists.slice(0, KEPT_WITH_RANGES.length), find(analysis, part, broken)]));
    }
    yield;
  }
  return found;
}

function listsOf(
  analysis: Analysis,
  part: AnalysisPart,
  groups: readonly PartRules[],
): readonly (readonly Finding[])[] {
  return groups.map((rules) => find(analysis, part, rules));
}

type PartRules = readonly PartRule[];

const KEPT_WITH_RANGES: readonly PartRules[] = [PART_RULES, NAME_RULES];

function split({ file }: AnalysisPart, lists: readonly (readonly Finding[])[]): PartFindings {
  const all = lists.flat().map(asItStands);
  const here = all.filter(({ place }) => place.file === file);
  return { file, here, elsewhere: here.length === all.length ? [] : all.filter((one) => !here.includes(one)) };
}

/** An analysis that notes which names are looked up. */
interface Looking {
  readonly analysis: Analysis;
  readonly recorder: Recorder;
}

function noting({ parts, notes, lowering, index }: Analysis, recorder: Recorder): Analysis {
  return analysisOf({ product: lowering.product, parts, notes, lowering, index, recorder });
}

function kept(looking: Looking, part: AnalysisPart, rules: readonly PartRules[], memory: PartMemory): KeptPart {
  const { recorder } = looking;
  const last = memory.get(part.file);
  const known = last?.recorder === recorder ? last : undefined;
  if (known?.part === part && known.groups.length >= rules.length && known.groups.every(stands))
    return isPlacedAsBefore(known, looking.analysis) ? known : placedAnew(known, looking.analysis, memory);
  const groups = rules.map((some, place) => {
    const group = known?.groups[place];
    return known?.part === part && group !== undefined && stands(group) ? group : newGroup(looking, part, some);
  });
  const gone = known?.groups.filter((group) => !groups.includes(group)) ?? [];
  recorder.forget(
    [],
    gone.map(({ lookups }) => lookups),
  );
  return placedAnew({ part, recorder, groups }, looking.analysis, memory);
}

function placedAnew(
  { part, recorder, groups }: Pick<KeptPart, 'part' | 'recorder' | 'groups'>,
  analysis: Analysis,
  memory: PartMemory,
): KeptPart {
  const lists = groups.map((group) => group.findings);
  const files = new Set(
    lists.flat().flatMap(({ place, related }) => [place, ...related.map((one) => one.place)].map(({ file }) => file)),
  );
  files.delete(part.file);
  const others = new Map([...files].map((file) => [file, analysis.part(file)]));
  const made = { part, recorder, groups, findings: split(part, lists), others };
  memory.set(part.file, made);
  return made;
}

function isPlacedAsBefore({ others }: KeptPart, analysis: Analysis): boolean {
  for (const [file, part] of others) if (analysis.part(file) !== part) return false;
  return true;
}

function stands({ lookups }: KeptGroup): boolean {
  return lookups.stand;
}

function newGroup({ analysis, recorder }: Looking, part: AnalysisPart, rules: PartRules): KeptGroup {
  const lookups = new Lookups();
  return { lookups, findings: recorder.run(lookups, () => find(analysis, part, rules)) };
}

function find(analysis: Analysis, part: AnalysisPart, rules: readonly PartRule[]): readonly Finding[] {
  return rules.flatMap((rule) => [...rule(analysis, part)]).flatMap((draft) => settled(draft, analysis));
}

/** Documents that are no more. */
function forgetOthers(analysis: Analysis, memory: PartMemory): void {
  if (memory.size <= analysis.parts.length) return;
  for (const [file, { recorder, groups }] of memory) {
    if (analysis.part(file) !== undefined) continue;
    recorder.forget(
      [],
      groups.map(({ lookups }) => lookups),
    );
    memory.delete(file);
  }
}

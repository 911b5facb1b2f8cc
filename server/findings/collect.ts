/** All findings of an analysis by file, in one order: by place, then code. */
import type { FindingCode } from '../../grammar/findings';
import type { Analysis } from '../engine/analysis';
import type { RangeAnalysis } from '../engine/ranges/ranges';
import { groupBy } from '../model/group-by';
import type { PlacedProblem } from '../model/place';
import { isSame } from '../model/same';
import { asItStands } from './as-it-stands';
import { codeOf } from './causes';
import type { Draft, Finding } from './finding';
import { type PartFindings, type PartMemory, partFindings } from './part-findings';
import { productDrafts } from './rules';
import { settled } from './severity';

/** What is found in each file that something is found in; files in order of code units. */
export type FindingsByFile = ReadonlyMap<string, readonly Finding[]>;

/** What was found last. */
export interface FindingMemory {
  readonly parts: PartMemory;
  /** By file, what its findings were put together from. */
  readonly files: Map<string, Joined>;
}

interface Joined {
  readonly own: PartFindings | null;
  readonly others: readonly Finding[];
  readonly all: readonly Finding[];
}

export function createFindingMemory(): FindingMemory {
  return { parts: new Map(), files: new Map() };
}

/**
 * In short steps.
 * @param outside problems of files that could not become documents: encoding, size, configuration
 * @param ranges how far figures may move; without them nothing is said of that
 * @param memory keeps what rests on nothing that changed: a file's findings are then the same array
 */
export function* collectInSteps(
  analysis: Analysis,
  outside: readonly PlacedProblem[],
  ranges: RangeAnalysis | null,
  memory: FindingMemory,
): Generator<void, FindingsByFile> {
  const own = yield* partFindings(analysis, ranges, memory.parts);
  const others: Finding[] = [];
  for (const problem of outside) others.push(...settled(problemDraft(problem), analysis));
  for (const draft of productDrafts(analysis, ranges)) {
    others.push(...settled(draft, analysis).map(asItStands));
    yield;
  }
  const elsewhere = own.flatMap((found) => found.elsewhere);
  return joinedByFile(
    own,
    groupBy([...elsewhere, ...others], ({ place }) => place.file),
    memory,
  );
}

function joinedByFile(
  own: readonly PartFindings[],
  others: ReadonlyMap<string, readonly Finding[]>,
  memory: FindingMemory,
): FindingsByFile {
  const ownByFile = new Map(own.map((found) => [found.file, found]));
  const files = [...new Set([...ownByFile.keys(), ...others.keys()])].sort();
  forgetOthers(memory, files);
  const found = new Map<string, readonly Finding[]>();
  for (const file of files) {
    const all = join(memory, file, ownByFile.get(file) ?? null, others.get(file) ?? NONE);
    if (all.length > 0) found.set(file, all);
  }
  return found;
}

const NONE: readonly Finding[] = [];

function forgetOthers({ files: known }: FindingMemory, files: readonly string[]): void {
  if (known.size <= files.length) return;
  const kept = new Set(files);
  for (const file of known.keys()) if (!kept.has(file)) known.delete(file);
}

function join(
  { files }: FindingMemory,
  file: string,
  own: PartFindings | null,
  others: readonly Finding[],
): readonly Finding[] {
  const known = files.get(file);
  if (known?.own === own && isSame(known.others, others)) return known.all;
  const all = toldOnce([...(own?.here ?? NONE), ...others]).sort(byPlace);
  files.set(file, { own, others, all });
  return all;
}

function problemDraft(problem: PlacedProblem): Draft {
  return { code: codeOf(problem), message: problem.message, place: { file: problem.file, span: problem.span } };
}

/** Found in a document and again by what leans on it; the second says what is left undecided. */
const TOLD_TWICE: readonly FindingCode[] = ['split-value', 'duplicate-id', 'bad-front-matter'];

function toldOnce(findings: readonly Finding[]): Finding[] {
  const placeOf = ({ code, place }: Finding) => `${code} ${place.span.start} ${place.span.end}`;
  const doubtful = findings.filter(({ code }) => TOLD_TWICE.includes(code));
  const lastAt = new Map(doubtful.map((finding) => [placeOf(finding), finding]));
  return findings.filter((one) => !TOLD_TWICE.includes(one.code) || lastAt.get(placeOf(one)) === one);
}

function byPlace(a: Finding, b: Finding): number {
  return (
    a.place.span.start - b.place.span.start ||
    a.place.span.end - b.place.span.end ||
    compare(a.code, b.code) ||
    compare(a.message, b.message)
  );
}

function compare(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}

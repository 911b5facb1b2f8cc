/** What is found in each document, kept for as long as neither it nor what was looked up for it has changed. */
import { type Analysis, analysisOf } from '../engine/analysis';
import type { AnalysisPart } from '../engine/parts';
import type { RangeAnalysis } from '../engine/ranges/ranges';
import type { Recorder, Worker } from '../engine/recorder';
import type { Finding } from './finding';
import { NAME_RULES, PART_RULES, type PartRule, RANGE_RULES } from './rules';
import { settled } from './severity';

/** By group of rules and file. */
export type PartMemory = Map<string, Kept>;

interface Kept {
  readonly part: AnalysisPart;
  readonly findings: readonly Finding[];
  /** Who looked up what the findings rest on, and where that is noted. */
  readonly worker: Worker;
  readonly recorder: Recorder;
}

/** Findings of each part by group of rules, in no order; with a memory the same array while nothing is other. */
export function partFindings(
  analysis: Analysis,
  ranges: RangeAnalysis | null,
  memory: PartMemory,
): ReadonlyMap<AnalysisPart, readonly (readonly Finding[])[]> {
  forgetOthers(analysis, memory);
  const looking = noting(analysis);
  const broken: readonly PartRule[] = RANGE_RULES.map((rule) => (whole, part) => rule(whole, part, ranges));
  return new Map(
    analysis.parts.map((part) => [
      part,
      [
        kept(looking, part, 'own', PART_RULES, memory),
        kept(looking, part, 'names', NAME_RULES, memory),
        ranges === null ? kept(looking, part, 'broken', broken, memory) : find(analysis, part, broken),
      ],
    ]),
  );
}

/** Looks names up where that is noted. */
function noting(analysis: Analysis): Analysis {
  if (analysis.recorder === null) return analysis;
  const { parts, notes, lowering, index, recorder } = analysis;
  return analysisOf({ product: lowering.product, parts, notes, lowering, index, recorder });
}

function kept(
  analysis: Analysis,
  part: AnalysisPart,
  group: string,
  rules: readonly PartRule[],
  memory: PartMemory,
): readonly Finding[] {
  const { recorder } = analysis;
  if (recorder === null) return find(analysis, part, rules);
  const key = `${group} ${part.file}`;
  const known = memory.get(key);
  if (known?.recorder === recorder) {
    if (known.part === part && recorder.stands(known.worker)) return known.findings;
    recorder.forget([], [known.worker]);
  }
  const worker = {};
  const findings = recorder.run(worker, () => find(analysis, part, rules));
  memory.set(key, { part, findings, worker, recorder });
  return findings;
}

function find(analysis: Analysis, part: AnalysisPart, rules: readonly PartRule[]): readonly Finding[] {
  return rules.flatMap((rule) => [...rule(analysis, part)]).flatMap((draft) => settled(draft, analysis));
}

/** Documents that are no more. */
function forgetOthers(analysis: Analysis, memory: PartMemory): void {
  if (memory.size <= 3 * analysis.parts.length) return;
  for (const [key, { part, recorder, worker }] of memory) {
    if (analysis.part(part.file) !== undefined) continue;
    recorder.forget([], [worker]);
    memory.delete(key);
  }
}

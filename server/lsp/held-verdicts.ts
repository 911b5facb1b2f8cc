/** Requirements that an edit has just left undecided: what they were, and what they rested on. */
import type { RequirementResult } from '../engine/analysis';
import type { AnalysisPart } from '../engine/parts';
import type { Verdict } from '../engine/verdict';
import type { Place } from '../model/place';

export interface Held {
  /** The last that it had. */
  readonly verdict: Verdict;
  readonly place: Place;
}

/** What was judged when something was shown last. */
export interface LastJudged {
  /** By file. */
  readonly parts: ReadonlyMap<string, AnalysisPart>;
  /** Of requirements whose verdict is shown as it was before an edit left them undecided; by id. */
  readonly held: ReadonlyMap<string, Held>;
  /** Of requirements that are undecided: every name that they rested on when they were last decided; by id. */
  readonly rested: ReadonlyMap<string, ReadonlySet<string>>;
}

/** What undecided requirements rested on when they were last decided; only parts that are other are walked. */
export function restedNow(
  before: LastJudged | null,
  parts: readonly AnalysisPart[],
): ReadonlyMap<string, ReadonlySet<string>> {
  const rested = new Map(before?.rested);
  for (const part of parts) {
    const last = before?.parts.get(part.file);
    if (last === part) continue;
    for (const { requirement } of last?.requirements ?? []) rested.delete(requirement.id);
    for (const { requirement, verdict, uses } of part.requirements)
      if (verdict === 'undecided') rested.set(requirement.id, usesBefore(before, last, requirement.id) ?? uses);
  }
  return rested;
}

/** Requirements that are undecided now, were not, and rest on a figure that is being typed. */
export function heldNow(
  before: LastJudged,
  parts: readonly AnalysisPart[],
  typed: ReadonlySet<string>,
): ReadonlyMap<string, Held> {
  const held = new Map<string, Held>();
  // A part that is as it was has nothing that has just become undecided, only what is held already.
  const heldIn = new Set([...before.held.values()].map(({ place }) => place.file));
  for (const part of parts) {
    const last = before.parts.get(part.file);
    if (last === part && !heldIn.has(part.file)) continue;
    for (const { requirement, verdict } of part.requirements) {
      const { id, file, idSpan } = requirement;
      const known = verdict === 'undecided' ? verdictBefore(before, last, id) : undefined;
      if (known === undefined || known === 'undecided') continue;
      if (![...(usesBefore(before, last, id) ?? [])].some((name) => typed.has(name))) continue;
      held.set(id, { verdict: known, place: { file, span: idSpan } });
    }
  }
  return held;
}

function verdictBefore({ held }: LastJudged, last: AnalysisPart | undefined, id: string): Verdict | undefined {
  return held.get(id)?.verdict ?? resultIn(last, id)?.verdict;
}

function usesBefore(
  before: LastJudged | null,
  last: AnalysisPart | undefined,
  id: string,
): ReadonlySet<string> | undefined {
  return before?.rested.get(id) ?? resultIn(last, id)?.uses;
}

function resultIn(part: AnalysisPart | undefined, id: string): RequirementResult | undefined {
  return part?.requirements.find(({ requirement }) => requirement.id === id);
}

/** Everything that leaves something undecided, once each, where it is written, with what it leaves undecided. */
import { FINDINGS, type FindingCode } from '../../grammar/findings';
import type { Analysis } from '../engine/analysis';
import type { Reason } from '../engine/typed';
import type { Draft, Related } from './finding';

interface Cause {
  readonly reason: Reason;
  /** By requirement id. */
  readonly leaves: Map<string, Left>;
}

interface Left extends Related {
  /** Another criterion of it decides all the same. */
  readonly inPart: boolean;
}

export function* causes(analysis: Analysis): Iterable<Draft> {
  for (const { reason, leaves } of collect(analysis).values()) {
    const related = [...reason.related, ...[...leaves.values()].filter(({ place }) => !isSamePlace(place, reason))];
    const [only] = leaves.keys();
    yield {
      code: codeOf(reason),
      message: reason.message + leftUndecided(leaves),
      place: reason.place,
      related,
      fixes: reason.fixes,
      ...(leaves.size === 1 && only !== undefined && { requirement: only }),
    };
  }
}

/** Causes of requirements first, so that each lists what it leaves undecided; then those of figures that nothing rests on. */
function collect(analysis: Analysis): ReadonlyMap<string, Cause> {
  const found = new Map<string, Cause>();
  const cause = (reason: Reason): Cause => {
    const key = `${reason.code} ${reason.place.file} ${reason.place.span.start} ${reason.place.span.end}`;
    const known = found.get(key) ?? { reason, leaves: new Map() };
    found.set(key, known);
    return known;
  };
  for (const { requirement, criteria, reasons, verdict } of analysis.requirements) {
    const own = [
      ...reasons,
      ...(verdict === 'not applicable'
        ? []
        : criteria.flatMap((criterion) => (criterion.verdict === 'undecided' ? criterion.reasons : []))),
    ];
    for (const reason of own) {
      const place = { file: requirement.file, span: requirement.idSpan };
      cause(reason).leaves.set(requirement.id, {
        place,
        message: `${requirement.id} is undecided because of this`,
        inPart: verdict !== 'undecided',
      });
    }
  }
  for (const { reasons } of analysis.facts) for (const reason of reasons) cause(reason);
  return found;
}

function leftUndecided(leaves: ReadonlyMap<string, Left>): string {
  if (leaves.size === 0) return '';
  const named = [...leaves].slice(0, 3).map(([id, { inPart }]) => (inPart ? `part of ${id}` : id));
  const more = leaves.size > 3 ? ` and ${leaves.size - 3} more` : '';
  return `: ${named.join(', ')}${more} ${leaves.size === 1 ? 'is' : 'are'} undecided`;
}

function isSamePlace(place: Related['place'], reason: Reason): boolean {
  return place.file === reason.place.file && place.span.start === reason.place.span.start;
}

/** A code that the table does not know would be a mistake of ours, and is shown as one. */
export function codeOf({ code }: { readonly code: string }): FindingCode {
  return code in FINDINGS ? (code as FindingCode) : 'internal';
}

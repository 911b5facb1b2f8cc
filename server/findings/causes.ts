/** Everything that leaves something undecided, once each, where it is written, with what it leaves undecided. */
import { FINDINGS, type FindingCode } from '../../grammar/findings';
import type { Analysis, RequirementResult } from '../engine/analysis';
import type { AnalysisPart } from '../engine/parts';
import type { Reason } from '../engine/typed';
import type { Draft, Related } from './finding';
import { whose } from './open-owners';

interface Cause {
  readonly reason: Reason;
  /** By requirement id. */
  readonly leaves: Map<string, Left>;
  /** Rows that lack one field; empty for every other cause. */
  readonly rows: Map<string, Reason>;
}

interface Left extends Related {
  /** Another criterion of it decides all the same. */
  readonly inPart: boolean;
}

export function* causes(analysis: Analysis): Iterable<Draft> {
  for (const { reason, leaves, rows } of collect(analysis).values()) {
    const others = [...rows.values()].slice(1, MOST_ROWS).flatMap((row) => row.related);
    const left = [...leaves.values()].filter(({ place }) => !isSamePlace(place, reason));
    const [only] = leaves.keys();
    yield {
      code: codeOf(reason),
      message: messageOf(reason, rows) + ownersOf(analysis, reason, leaves) + leftUndecided(leaves),
      place: reason.place,
      related: [...reason.related, ...others, ...left],
      fixes: reason.fixes,
      ...(leaves.size === 1 && only !== undefined && { requirement: only }),
    };
  }
}

function messageOf(reason: Reason, rows: Cause['rows']): string {
  return rows.size > 1 ? rowsWithout(rows) : reason.message;
}

/** What is to be determined is somebody's to determine. */
function ownersOf({ index }: Analysis, { code }: Reason, leaves: Cause['leaves']): string {
  return code === 'open-point' ? whose([...leaves.keys()].flatMap((id) => index().withId(id))) : '';
}

/** Rows named beside a field that they lack. */
const MOST_ROWS = 6;

function rowsWithout(rows: ReadonlyMap<string, Reason>): string {
  const [missing] = [...rows.values()].flatMap((reason) => reason.missing ?? []);
  const ids = [...rows.keys()];
  const named = ids.length > 3 ? `${ids.slice(0, 2).join(', ')} and ${ids.length - 2} more` : ids.join(', ');
  return `${ids.length} rows of ${missing?.row.table} have no ${missing?.field} (${named}); write it, or say what it is where it is not written: ${missing?.field} else …`;
}

/** Causes of requirements first, so that each lists what it leaves undecided; then those of figures that nothing rests on. */
function collect(analysis: Analysis): ReadonlyMap<string, Cause> {
  const found = new Map<string, Cause>();
  const cause = (reason: Reason): Cause => {
    const { missing, place } = reason;
    const key =
      missing === undefined
        ? `${reason.code} ${place.file} ${place.span.start} ${place.span.end}`
        : `${reason.code} ${missing.row.table} ${missing.field}`;
    const known = found.get(key) ?? { reason, leaves: new Map(), rows: new Map() };
    found.set(key, known);
    if (missing !== undefined) known.rows.set(missing.row.id, reason);
    return known;
  };
  const parts = analysis.parts.map(reasonsIn).filter((reasons) => reasons !== NO_REASONS);
  for (const { ofRequirements } of parts) {
    for (const [reason, { requirement, verdict }] of ofRequirements) {
      const place = { file: requirement.file, span: requirement.idSpan };
      cause(reason).leaves.set(requirement.id, {
        place,
        message: `${requirement.id} is undecided because of this`,
        inPart: verdict !== 'undecided',
      });
    }
  }
  for (const { ofFacts } of parts) for (const reason of ofFacts) cause(reason);
  return found;
}

interface PartReasons {
  readonly ofRequirements: readonly (readonly [Reason, RequirementResult])[];
  readonly ofFacts: readonly Reason[];
}

const reasonsOf = new WeakMap<AnalysisPart, PartReasons>();

/** A part that stands has the reasons that it had. */
function reasonsIn(part: AnalysisPart): PartReasons {
  const known = reasonsOf.get(part);
  if (known !== undefined) return known;
  const ofRequirements = part.requirements.flatMap((result) =>
    ownReasons(result).map((reason): readonly [Reason, RequirementResult] => [reason, result]),
  );
  const ofFacts = part.facts.flatMap(({ reasons }) => reasons);
  const found = ofRequirements.length + ofFacts.length === 0 ? NO_REASONS : { ofRequirements, ofFacts };
  reasonsOf.set(part, found);
  return found;
}

const NO_REASONS: PartReasons = { ofRequirements: [], ofFacts: [] };

function ownReasons({ criteria, reasons, verdict }: RequirementResult): readonly Reason[] {
  if (verdict === 'not applicable') return reasons;
  return [...reasons, ...criteria.flatMap((one) => (one.verdict === 'undecided' ? one.reasons : []))];
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

/** The matrix as plain records: what a review needs of every requirement, figure and part, from which each format is made. */
import type { Phase, Severity } from '../../../grammar/findings';
import type { EvidenceState } from '../../engine/evidence/state';
import type { CriterionVerdict, Verdict } from '../../engine/verdict';

export interface Matrix {
  readonly product: string;
  readonly phase: Phase;
  /** ISO 8601; the day that waivers and evidence were held against. */
  readonly date: string | null;
  /** Null in no repository. */
  readonly revision: Revision | null;
  readonly coverage: Coverage;
  /** In the order of their documents. */
  readonly documents: readonly DocumentCoverage[];
  readonly requirements: readonly MatrixRow[];
  /** Figures that a requirement rests on, fields of parts excepted. */
  readonly facts: readonly FactUse[];
  /** Rows of tables that a requirement rests on. */
  readonly parts: readonly PartUse[];
  readonly openPoints: readonly OpenPoint[];
  readonly waivers: readonly WaiverEntry[];
}

/** The commit that the product was read at. */
export interface Revision {
  /** In hexadecimal; null before the first one. */
  readonly commit: string | null;
  /** What was read differs from it. */
  readonly isModified: boolean;
}

/** How many requirements there are of each kind. */
export interface Coverage {
  readonly requirements: number;
  /** Those met by root sum square among them. */
  readonly verdicts: Readonly<Record<Verdict, number>>;
  /** Those that do not apply need none and are not counted. */
  readonly evidence: Readonly<Record<EvidenceState, number>>;
  readonly metByRss: number;
  readonly overSpecified: number;
  /** They rest on a figure marked TBR or TBC. */
  readonly provisional: number;
}

export interface DocumentCoverage extends Coverage {
  readonly file: string;
}

/** Where something is written; lines count from 1. */
export interface LinePlace {
  readonly file: string;
  readonly line: number;
}

export interface MatrixRow {
  /** Its id; of several with one id, the later ones have a number behind it (`TRN-020~2`). */
  readonly key: string;
  readonly id: string;
  readonly title: string;
  readonly place: LinePlace;
  readonly obligation: string;
  readonly statement: Statement | null;
  readonly priority: string;
  readonly owner: string;
  readonly rationale: string;
  readonly source: string;
  /** It is never shown as proved by calculation alone, and carries a caution. */
  readonly safety: boolean;
  readonly derivesFrom: readonly Reference[];
  readonly verdict: Verdict;
  readonly basis: 'worst-case' | 'rss' | 'evidence';
  /** The verdict under a waiver that is in force. */
  readonly withoutWaiver: Verdict | null;
  readonly overSpecified: boolean;
  readonly provisional: boolean;
  readonly criteria: readonly MatrixCriterion[];
  /** Names of facts in `facts` that it rests on, those it names itself first. */
  readonly facts: readonly string[];
  /** Names of rows in `parts` that it rests on (`parts.cam`). */
  readonly parts: readonly string[];
  /** Null where it is not applicable. */
  readonly evidence: EvidenceState | null;
  readonly methods: readonly MethodEntry[];
  /** What was found that speaks of it: errors and warnings. */
  readonly remarks: readonly Remark[];
}

export interface Statement {
  /** As a reader sees it, code spans with their backticks. */
  readonly text: string;
  /** The same in pieces, code spans without their backticks. */
  readonly pieces: readonly StatementPiece[];
  /** Its Markdown: paragraphs and leads of list items, or a table that holds it in one cell. */
  readonly markdown: readonly string[];
  /** The column of the cell, or null. */
  readonly column: number | null;
  /** The document it stands in, for links that are relative to it. */
  readonly file: string;
}

export interface StatementPiece {
  readonly text: string;
  readonly isCode: boolean;
}

/** Another requirement. */
export interface Reference {
  readonly id: string;
  /** Null: there is no such requirement. */
  readonly key: string | null;
}

export interface MatrixCriterion {
  /** Canonical: `supply.draw <= 60 W`. */
  readonly text: string;
  readonly verdict: CriterionVerdict;
  readonly mode: string | null;
  readonly row: string | null;
  /** Ends of the worst case, rounded outward; null where there are no figures, or for open ends. */
  readonly low: ShownFigure | null;
  readonly high: ShownFigure | null;
  /** Ends at typical values; null where they are those of the worst case. */
  readonly typical: { readonly low: ShownFigure | null; readonly high: ShownFigure | null } | null;
  /** A value that is no quantity: `IP66`, `no`. */
  readonly word: string | null;
  readonly limit: CriterionLimit | null;
  readonly margin: ShownFigure | null;
  /** The margin as a share of the limit; null where the limit is zero or a point of a scale. */
  readonly share: number | null;
}

/** The ends of a limit in the criterion's unit: the nearest doubles. */
export interface CriterionLimit {
  readonly relation: string;
  readonly low: number | null;
  readonly high: number | null;
  readonly unit: string;
}

/** A figure rounded so that it does not look better than it is. */
export interface ShownFigure {
  /** The digits that are shown, without the unit; a date whole. */
  readonly digits: string;
  /** Empty for plain numbers and dates. */
  readonly unit: string;
  /** Not rounded: the nearest double in that unit; null for dates and where it is too great. */
  readonly number: number | null;
}

/** A method that a requirement is verified by, or a record that names it. */
export interface MethodEntry {
  readonly method: string;
  readonly record: RecordEntry | null;
  readonly state: EvidenceState;
  readonly run: { readonly date: string; readonly result: string } | null;
  /** The design moved away from the limit since. */
  readonly moved: boolean;
}

export interface RecordEntry {
  readonly id: string;
  readonly title: string;
  /** Null: there is no such record. */
  readonly place: LinePlace | null;
}

export interface Remark {
  readonly code: string;
  readonly severity: Severity;
  readonly message: string;
}

/** A requirement that rests on something. */
export interface RestingRequirement {
  readonly key: string;
  readonly id: string;
  readonly verdict: Verdict;
}

export interface FactUse {
  readonly name: string;
  readonly place: LinePlace;
  readonly given: boolean;
  /** Over all modes, its worst case. */
  readonly value: string;
  readonly source: string;
  /** How far a given figure may move, all else as it is, and who binds it; empty where that is not known. */
  readonly allowed: string;
  readonly requirements: readonly RestingRequirement[];
}

export interface PartUse {
  /** `parts.cam` */
  readonly name: string;
  /** Its own name, where it has one. */
  readonly label: string;
  readonly place: LinePlace;
  /** Fields that requirements rest on. */
  readonly fields: readonly string[];
  readonly requirements: readonly RestingRequirement[];
}

export interface OpenPoint {
  readonly message: string;
  readonly place: LinePlace;
  /** Owners of the requirements concerned. */
  readonly owners: readonly string[];
  readonly requirements: readonly RestingRequirement[];
}

export interface WaiverEntry {
  readonly requirement: RestingRequirement;
  readonly place: LinePlace;
  readonly state: WaiverState;
  /** Why it is not applied, where it cannot be read or says too little. */
  readonly problem: string;
  readonly extent: string;
  readonly reason: string;
  readonly who: string;
  /** ISO 8601 */
  readonly until: string;
}

export type WaiverState = 'in force' | 'not needed' | 'over' | 'exceeded' | 'not applied';

/** Every finding the product reports: its code, how severe it is in each phase, and what it means in one line. */

/** How severe a finding is, the most severe first. */
export const SEVERITIES = ['error', 'warning', 'information', 'hint'] as const;

export type Severity = (typeof SEVERITIES)[number];

/** The phases a product can be in; each sets default severities. */
export const PHASES = ['design', 'release'] as const;

export type Phase = (typeof PHASES)[number];

export interface FindingKind {
  /** Severity in each phase, unless `severity:` in plimsoll.yaml says otherwise. */
  readonly severity: Readonly<Record<Phase, Severity>>;
  /** Severity on a requirement whose obligation is *should*, where that differs. */
  readonly severityOfGoal?: Readonly<Record<Phase, Severity>>;
  readonly meaning: string;
}

const ALWAYS_ERROR = { design: 'error', release: 'error' } as const;
const ERROR_AT_RELEASE = { design: 'warning', release: 'error' } as const;
const ALWAYS_WARNING = { design: 'warning', release: 'warning' } as const;
const OPEN_UNTIL_RELEASE = { design: 'information', release: 'error' } as const;
const ALWAYS_INFORMATION = { design: 'information', release: 'information' } as const;
const ALWAYS_HINT = { design: 'hint', release: 'hint' } as const;

/** The findings by code, in the order in which the documentation lists them. */
export const FINDINGS = {
  unmet: {
    severity: ALWAYS_ERROR,
    severityOfGoal: ALWAYS_WARNING,
    meaning: 'The design breaks the requirement with every tolerance at its typical value.',
  },
  failed: { severity: ALWAYS_ERROR, meaning: 'The latest conclusive run of a verification failed.' },
  'result-disagrees': {
    severity: ALWAYS_ERROR,
    meaning: 'The result of a run says one thing, the criterion with the measured values says the other.',
  },
  contradiction: {
    severity: ALWAYS_ERROR,
    meaning: 'Two criteria on the same expression that apply together cannot both hold.',
  },
  cycle: { severity: ALWAYS_ERROR, meaning: 'A value, rail or requirement leads back to itself.' },
  'duplicate-id': { severity: ALWAYS_ERROR, meaning: 'Two requirements or rows have the same id.' },
  'duplicate-name': { severity: ALWAYS_ERROR, meaning: 'Two places give the same fact; neither counts.' },
  oversubscribed: { severity: ALWAYS_ERROR, meaning: 'Connections use more of an interface than the part offers.' },
  unassignable: {
    severity: ALWAYS_ERROR,
    meaning: 'No assignment of the interfaces that a part can offer serves all its connections.',
  },
  'does-not-fit': { severity: ALWAYS_ERROR, meaning: 'The two ends of a connection do not agree on a field.' },
  overloaded: { severity: ALWAYS_ERROR, meaning: 'The load of a rail can exceed its limit.' },
  unfed: { severity: ALWAYS_ERROR, meaning: 'A rail or a draw names a rail that does not exist.' },
  'unit-mismatch': { severity: ALWAYS_ERROR, meaning: 'Two quantities that meet have units that cannot be compared.' },
  'bad-value': {
    severity: ALWAYS_ERROR,
    meaning: 'A value is written in a form that cannot be read as what it must be.',
  },
  'split-value': { severity: ALWAYS_ERROR, meaning: 'A comma inside braces ended a value early.' },
  'bad-front-matter': {
    severity: ALWAYS_ERROR,
    meaning: 'The front matter is no YAML, or holds what the language has not.',
  },
  'bad-configuration': { severity: ALWAYS_ERROR, meaning: 'Something in plimsoll.yaml is unknown or cannot be read.' },
  'bad-encoding': { severity: ALWAYS_ERROR, meaning: 'The file is not UTF-8 and is ignored.' },
  'weaker-than-parent': {
    severity: ALWAYS_ERROR,
    meaning: 'A derived requirement does not imply the limit of the one it derives from.',
  },
  'at-risk': {
    severity: ERROR_AT_RELEASE,
    meaning: 'The requirement holds at typical values, but not for every tolerance.',
  },
  stale: { severity: ERROR_AT_RELEASE, meaning: 'The evidence was taken on a design that was farther from the limit.' },
  partial: {
    severity: ERROR_AT_RELEASE,
    meaning: 'The runs passed, but not over all the conditions of the criterion.',
  },
  'unknown-name': { severity: ERROR_AT_RELEASE, meaning: 'A reference names nothing in the product.' },
  'unknown-text': { severity: ERROR_AT_RELEASE, meaning: 'A text is compared with a field that never has that value.' },
  'no-value': { severity: ERROR_AT_RELEASE, meaning: 'An expression has no value for some of its inputs.' },
  'no-id': { severity: ERROR_AT_RELEASE, meaning: 'A paragraph with an obligation stands outside every requirement.' },
  'which-limit': { severity: ERROR_AT_RELEASE, meaning: 'A limit is missing or can be read in more than one way.' },
  'words-disagree': {
    severity: ERROR_AT_RELEASE,
    meaning: 'The sentence says another limit than the check beside it.',
  },
  unchecked: {
    severity: ERROR_AT_RELEASE,
    meaning: 'A figure in the sentence reads like a promise and nothing checks it.',
  },
  'waiver-open': { severity: ERROR_AT_RELEASE, meaning: 'A waiver does not say how far it reaches.' },
  'off-model': {
    severity: ERROR_AT_RELEASE,
    meaning: 'A measured value lies wholly outside the range that was computed for it.',
  },
  disagrees: { severity: ERROR_AT_RELEASE, meaning: 'A given power differs from what the draws add up to.' },
  'undecided-option': { severity: ERROR_AT_RELEASE, meaning: 'No alternative of an option group is chosen.' },
  'broken-line': { severity: ERROR_AT_RELEASE, meaning: 'A wrapped line turned a part of the sentence into a list.' },
  'use-within': { severity: ERROR_AT_RELEASE, meaning: 'A value with spread is compared for equality.' },
  'too-large': {
    severity: ERROR_AT_RELEASE,
    meaning: 'Something is past a limit of size and was not read or computed.',
  },
  internal: {
    severity: ERROR_AT_RELEASE,
    meaning: 'A mistake of the program itself; the rest of the result is intact.',
  },
  'over-specified': {
    severity: ALWAYS_WARNING,
    meaning: 'A limit is surpassed by more than its headroom, and a fact could be relaxed without loss.',
  },
  'tighter-than-parent': {
    severity: ALWAYS_WARNING,
    meaning: 'A derived requirement is stricter than its parent by more than the headroom.',
  },
  'agreed-other-text': { severity: ALWAYS_WARNING, meaning: 'The requirement has changed since it was agreed.' },
  unneeded: { severity: ALWAYS_INFORMATION, meaning: 'Nothing that is needed leans on the part.' },
  'empty-selection': { severity: ALWAYS_INFORMATION, meaning: 'A sum or count runs over no row.' },
  untested: { severity: OPEN_UNTIL_RELEASE, meaning: 'No verification of the requirement is named.' },
  planned: { severity: OPEN_UNTIL_RELEASE, meaning: 'A verification is named, but has no conclusive run.' },
  open: { severity: OPEN_UNTIL_RELEASE, meaning: 'The requirement is judged by evidence, and there is none yet.' },
  'open-point': { severity: OPEN_UNTIL_RELEASE, meaning: 'A value is to be determined, resolved or confirmed.' },
  wording: { severity: ALWAYS_INFORMATION, meaning: 'A word in the sentence is vague, unbounded or missing.' },
  'several-obligations': { severity: ALWAYS_INFORMATION, meaning: 'One requirement binds to more than one thing.' },
  'unknown-attribute': { severity: ALWAYS_INFORMATION, meaning: 'The key of an attribute is not known.' },
  'no-source': {
    severity: ALWAYS_INFORMATION,
    meaning: 'A given fact that decides a binding requirement has no source.',
  },
  hides: { severity: ALWAYS_HINT, meaning: 'A name hides one with the same last part further out.' },
  unused: { severity: ALWAYS_HINT, meaning: 'No criterion rests on the given fact.' },
} as const satisfies Readonly<Record<string, FindingKind>>;

export type FindingCode = keyof typeof FINDINGS;

/** In the order of {@link FINDINGS}. */
export const FINDING_CODES = Object.keys(FINDINGS) as readonly FindingCode[];

/** Findings whose severity `severity:` cannot change: silencing them would hide that the rest cannot be trusted. */
export const FIXED_FINDINGS: readonly FindingCode[] = ['bad-configuration', 'internal'];

/** A severity as `severity:` in plimsoll.yaml gives it. */
export const SEVERITY_SETTINGS = [...SEVERITIES, 'off'] as const;

export type SeveritySetting = (typeof SEVERITY_SETTINGS)[number];

/** The severity of a finding before `severity:` and the caps of *may*, *will* and *could*. */
export function defaultSeverity(code: FindingCode, phase: Phase, onGoal: boolean): Severity {
  const kind: FindingKind = FINDINGS[code];
  return onGoal && kind.severityOfGoal ? kind.severityOfGoal[phase] : kind.severity[phase];
}

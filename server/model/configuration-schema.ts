/** The schema of plimsoll.yaml: what may stand in it, the types it gives, and its JSON Schema. */
import type * as z from 'zod';
import { FINDING_CODES, FIXED_FINDINGS, type FindingCode, PHASES, SEVERITY_SETTINGS } from '../../grammar/findings';
import type { YamlScalar } from '../syntax/yaml-node';
import { globMistake } from './configuration-glob';
import {
  type Complaint,
  type ConfigurationText,
  choice,
  complain,
  fixedKeys,
  freeKeys,
  jsonSchemaOf,
  list,
  placedText,
  scalar,
  text,
} from './configuration-reading';
import { VALUE_KEYS } from './fact';
import { nearestWords } from './nearest';

/** Letters, digits, `_` and `-`, as the names of facts. */
const NAME = /^[\p{L}\p{N}_][\p{L}\p{N}_-]*$/u;

/** The calendar date of ISO 8601-1:2019, 5.2.2.1, extended format. */
const DATE = /^\d{4}-\d{2}-\d{2}$/;

const pattern = scalar({ type: 'string' }, (node): string | Complaint => {
  const mistake = globMistake(node.text);
  return mistake === null ? node.text : complain(`“${node.text}” ${mistake}`);
});

const date = scalar({ type: 'string', format: 'date' }, (node): string | Complaint =>
  isCalendarDate(node.text) ? node.text : complain(`“${node.text}” is no date: write year-month-day (2026-10-02)`),
);

const mode = scalar({ type: 'string' }, (node): ConfigurationText | Complaint => {
  if (VALUE_KEYS.has(node.text)) return complain(`no mode can be called “${node.text}”: it is a key of values`);
  if (!NAME.test(node.text)) return complain(`“${node.text}” is no name: letters, digits, “_” and “-” only`);
  return { text: node.text, scalar: node };
});

const total = scalar({ type: 'string' }, (node): ConfigurationText | Complaint => {
  if (node.text.trimStart().startsWith('=')) return { text: node.text, scalar: node };
  const replacement = node.style === 'plain' ? `"= ${node.text}"` : null;
  return complain(`a total is an expression and begins with “=”, not “${node.text}”`, replacement);
});

/** An alternative, and why and when it was chosen. */
export interface OptionChoice {
  readonly option: string;
  readonly because: string | null;
  /** ISO 8601. */
  readonly date: string | null;
  /** Where the alternative is named. */
  readonly scalar: YamlScalar | null;
}

const chosen = placedText().transform(
  ({ text, scalar }): OptionChoice => ({ option: text, because: null, date: null, scalar }),
);

const chosenWithReason = fixedKeys({
  option: placedText(),
  because: text().optional(),
  date: date.optional(),
}).transform(
  ({ option, because = null, date = null }): OptionChoice => ({
    option: option.text,
    because,
    date,
    scalar: option.scalar,
  }),
);

const agreement = fixedKeys({ agree: list(text(), itself) });

/** The keys of plimsoll.yaml. All are optional; `configuration.ts` holds the defaults. */
export const CONFIGURATION_SHAPE = {
  product: text().describe('The name of the product, as reports show it.'),
  phase: choice(PHASES).describe('Sets the default severities: in release, open points and risks are errors.'),
  include: list(pattern, itself).describe('Patterns of the files to read, relative to this folder.'),
  exclude: list(pattern, itself).describe('Patterns of files to leave out; .gitignore is honoured as well.'),
  baseline: text().describe('The git revision that changes are compared with.'),
  headroom: placedText().describe(
    'The surplus allowed before a limit counts as over-specified: a percentage or a quantity.',
  ),
  severity: freeKeys<(typeof SEVERITY_SETTINGS)[number], FindingCode>(choice(SEVERITY_SETTINGS), judgeFindingCode)
    .meta({ propertyNames: { enum: FINDING_CODES.filter((code) => !FIXED_FINDINGS.includes(code)) } })
    .describe('How severe a finding is, by its code.'),
  units: freeKeys(placedText()).describe('Own units: a quantity, or “kind” for something that is counted.'),
  modes: list(mode, ({ text }) => text).describe('The states of operation in which every criterion is judged.'),
  scales: freeKeys(list(text(), itself)).describe('Ordered texts, the lowest first.'),
  choose: freeKeys(chosen.or(chosenWithReason)).describe('The chosen alternative of each option group.'),
  totals: freeKeys(total).describe('Expressions that options and costs are weighed by.'),
  interfaces: freeKeys(agreement).describe('Fields that must agree at both ends of a connection over an interface.'),
} as const;

export type ConfigurationKey = keyof typeof CONFIGURATION_SHAPE;

/** What one key gives when it is written without a mistake. */
export type ConfigurationValue<K extends ConfigurationKey> = z.output<(typeof CONFIGURATION_SHAPE)[K]>;

/** JSON Schema (draft-07) of plimsoll.yaml, for completion and validation in editors. */
export function configurationJsonSchema(): Readonly<Record<string, unknown>> {
  const optional = Object.fromEntries(
    Object.entries(CONFIGURATION_SHAPE).map(([key, value]) => [key, value.optional()]),
  );
  return jsonSchemaOf(fixedKeys(optional));
}

function itself(text: string): string {
  return text;
}

function judgeFindingCode(key: string): Complaint | null {
  if (FIXED_FINDINGS.some((code) => code === key)) return complain(`the severity of “${key}” cannot be changed`);
  if (FINDING_CODES.some((code) => code === key)) return null;
  return complain(`there is no finding “${key}”`, nearestWords(key, FINDING_CODES)[0] ?? null);
}

function isCalendarDate(text: string): boolean {
  if (!DATE.test(text)) return false;
  const instant = new Date(`${text}T00:00:00Z`);
  return !Number.isNaN(instant.getTime()) && instant.toISOString().startsWith(text);
}

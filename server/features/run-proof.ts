/** What a run proves, and which figures it is held against, as the design has them on the day it is recorded. */
import type { Analysis, RequirementResult } from '../engine/analysis';
import { computedLimits } from '../engine/evidence/limits';
import { outwardText } from '../engine/evidence/rounding';
import { statementDigest } from '../engine/evidence/text-digest';
import type { CriterionResult } from '../engine/judge-criterion';
import { SHOWN_DIGITS } from '../model/digest';
import type { Content } from '../model/fact';
import { formatValue } from '../quantity/format';
import * as interval from '../quantity/interval';
import type { SimpleValue } from '../quantity/value';
import type { YamlPairs } from './run-yaml';

/** What each criterion was, the limits that are computed, and the statements that were judged by evidence. */
export function provedBy(results: readonly RequirementResult[]): {
  readonly pairs: YamlPairs;
  readonly notes: readonly string[];
} {
  const proofs = results.flatMap(({ requirement, criteria }) =>
    criteria.flatMap((result) => proofsOf(result).map((proof) => ({ ...proof, id: requirement.id }))),
  );
  const pairs = new Map<string, string>();
  const twice = new Map<string, string>();
  for (const { key, value, id } of proofs) {
    // One key cannot say what held in either of two modes.
    if ((pairs.get(key) ?? value) !== value) twice.set(key, id);
    else pairs.set(key, value);
  }
  const digests = results.flatMap(({ basis, requirement }) =>
    basis === 'evidence' ? [JSON.stringify(statementDigest(requirement).slice(0, SHOWN_DIGITS))] : [],
  );
  const [only] = digests;
  if (only !== undefined) pairs.set('statement', digests.length === 1 ? only : `[${digests.join(', ')}]`);
  return { pairs: [...pairs].filter(([key]) => !twice.has(key)), notes: [...twice].map(asksTwice) };
}

function proofsOf(result: CriterionResult): readonly { readonly key: string; readonly value: string }[] {
  const { criterion, figures, verdict } = result;
  if (verdict === 'undecided') return [];
  if (figures === null) return [{ key: criterion.text, value: verdict === 'met' ? 'yes' : 'no' }];
  const limits = computedLimits(result).map(({ text, value }) => ({
    key: text,
    value: outwardText(interval.point(value), figures.unit),
  }));
  return [{ key: criterion.text, value: outwardText(figures.value, figures.unit) }, ...limits];
}

function asksTwice([key, id]: readonly [key: string, id: string]): string {
  return `${id} and another requirement ask ${key} in different modes: recorded without what the run proved of it; give each a record of its own`;
}

/** The given figures that the criteria rest on, in the modes that are judged, in the order of their names in the design. */
export function againstOf({ product }: Analysis, results: readonly RequirementResult[]): YamlPairs {
  const modesOf = new Map<string, Set<string>>();
  for (const { criteria, modes } of results)
    for (const name of criteria.flatMap(({ uses }) => [...uses]))
      modesOf.set(name, new Set([...(modesOf.get(name) ?? []), ...(modes.length === 0 ? product.modes : modes)]));
  return [...product.facts.values()].flatMap(({ name, content }) => {
    const modes = modesOf.get(name);
    return modes === undefined ? [] : givenPairs(name, content, modes);
  });
}

function givenPairs(name: string, content: Content, modes: ReadonlySet<string>): YamlPairs {
  if (content.type === 'value') return [[name, valueYaml(content.value)]];
  if (content.type !== 'modes') return [];
  const judged = [...content.modes].filter(([mode]) => modes.has(mode));
  return judged.flatMap(([mode, value]) => givenPairs(`${name}.${mode}`, value, modes));
}

export function valueYaml(value: SimpleValue): string {
  switch (value.type) {
    case 'quantity':
      return formatValue(value);
    case 'text':
      return JSON.stringify(value.text);
    case 'boolean':
      return value.boolean ? 'yes' : 'no';
    case 'set':
      return `[${value.items.map(valueYaml).join(', ')}]`;
  }
}

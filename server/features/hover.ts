/** What a hover says of a requirement, fact, part, mode, record or attribute. */

import { ATTRIBUTES } from '../../grammar/attributes';
import { CAUTIONS } from '../../grammar/cautions';
import type { RequirementResult } from '../engine/analysis';
import { driversOf } from '../engine/sensitivity';
import { allowedText, mendLines, notCountedText } from '../findings/move-text';
import type { ProductAnalysis } from '../findings/product-analysis';
import type { Fact, Row } from '../model/fact';
import { attributesOf, isSafety, listOf } from '../model/requirement';
import { valueText } from '../quantity/value-text';
import { printExpression } from '../syntax/expression/print';
import { covers, type Span } from '../syntax/span';
import { criterionLine, factResultOf, valueLines } from './figures';
import { keyMeaningAt } from './key-meaning';
import { type Occurrence, occurrenceAt, occurrencesIn, type Target } from './occurrences';

export interface Hover {
  readonly span: Span;
  /** Markdown. */
  readonly text: string;
}

/** Requirements, drivers and figures named in one hover at the most. */
const MOST_NAMED = 5;

export function hoverAt(whole: ProductAnalysis, file: string, offset: number): Hover | null {
  const all = occurrencesIn(whole, file);
  // Of `draw.standby` the figure says more than the mode that it ends with.
  const occurrence = occurrenceAt(all.filter(isNoMode), offset) ?? occurrenceAt(all, offset);
  if (occurrence !== null) return ofOccurrence(whole, occurrence);
  return ofLimit(whole, file, offset) ?? ofAttribute(whole, file, offset) ?? ofKey(whole, file, offset);
}

function isNoMode({ target }: Occurrence): boolean {
  return target.type !== 'mode';
}

/** All that is known of a target, as Markdown; null where there is nothing to say. */
export function describe(whole: ProductAnalysis, target: Target): string | null {
  switch (target.type) {
    case 'requirement': {
      const result = whole.analysis.requirements.find(({ requirement }) => requirement.id === target.requirement.id);
      return result === undefined ? null : requirementText(whole, result);
    }
    case 'fact':
      return factText(whole, target.fact);
    case 'row':
      return rowText(whole, target.row);
    case 'table':
      return `**${target.table.name}**: a table of ${target.table.rows.length} rows`;
    case 'field': {
      const having = target.table.rows.filter(({ fields }) => fields.has(target.field)).length;
      return `**${target.field}**: a field of ${having} of the ${target.table.rows.length} rows of ${target.table.name}`;
    }
    case 'mode':
      return `**${target.mode}**: a mode of operation`;
    case 'record': {
      const { id, title, method, runs } = target.record;
      const name = title === null ? '' : ` ${title}`;
      return `**${id}**${name}: ${method}, ${runs.length} ${runs.length === 1 ? 'run' : 'runs'}`;
    }
  }
}

function ofOccurrence(whole: ProductAnalysis, { target, span }: Occurrence): Hover | null {
  const text = describe(whole, target);
  return text === null ? null : { span, text };
}

/** On the words of a limit: the criterion that they are read as. */
function ofLimit({ analysis }: ProductAnalysis, file: string, offset: number): Hover | null {
  for (const { requirement, criteria } of analysis.requirements) {
    if (requirement.file !== file || !covers(requirement.span, offset)) continue;
    for (const result of criteria) {
      const { place } = result.criterion;
      if (covers(place.span, offset))
        return { span: place.span, text: `read as \`${criterionLine(result)}\`: **${result.verdict}**` };
    }
  }
  return null;
}

function ofAttribute({ analysis }: ProductAnalysis, file: string, offset: number): Hover | null {
  for (const { requirement } of analysis.requirements) {
    if (requirement.file !== file) continue;
    const attribute = requirement.attributes.find(({ keySpan }) => covers(keySpan, offset));
    const known = ATTRIBUTES.find(({ key }) => key === attribute?.key);
    if (attribute !== undefined && known !== undefined)
      return { span: attribute.keySpan, text: `**${known.key}**: ${known.meaning}\n\n\`${known.example}\`` };
  }
  return null;
}

function ofKey({ texts }: ProductAnalysis, file: string, offset: number): Hover | null {
  const found = keyMeaningAt(file, texts.get(file) ?? '', offset);
  return found === null ? null : { span: found.span, text: `**${found.key}**: ${found.meaning}` };
}

function requirementText(whole: ProductAnalysis, result: RequirementResult): string {
  const { requirement, verdict, withoutWaiver, evidence, criteria } = result;
  const statement = requirement.statement === null ? null : statementText(whole, result);
  const under = withoutWaiver === null ? '' : ` (${withoutWaiver} without the waiver)`;
  const parents = listOf(requirement, 'Derives from');
  const source = attributesOf(requirement, 'Source')[0]?.text ?? '';
  return paragraphs([
    `**${requirement.id}** ${requirement.title}`.trim(),
    statement,
    `**${verdict}**${under}${result.provisional ? ', provisional' : ''}${evidence === null ? '' : `; evidence: ${evidence.state}`}`,
    list(criteria.map((criterion) => `\`${criterionLine(criterion)}\``)),
    titled('driven by', drivers(whole, result)),
    titled('would be met by', mends(whole, result)),
    titled(
      'to be settled first',
      [...result.reasons, ...criteria.flatMap((criterion) => criterion.reasons)].map(({ message }) => message),
    ),
    parents.length === 0 ? null : `derives from ${parents.join(', ')}`,
    source === '' ? null : `source: ${source}`,
    isSafety(result.requirement) ? `⚠ ${CAUTIONS.join(' ')}` : null,
  ]);
}

function statementText({ texts }: ProductAnalysis, { requirement }: RequirementResult): string {
  const { start, end } = requirement.statementSpan;
  const lines = (texts.get(requirement.file) ?? '').slice(start, end).split(/\r?\n/);
  return lines.map((line) => `> ${line.trim()}`).join('\n');
}

function drivers({ analysis }: ProductAnalysis, { criteria }: RequirementResult): readonly string[] {
  const [first] = criteria;
  const claim = first?.claim;
  if (claim?.type !== 'comparison' && claim?.type !== 'within') return [];
  const found = driversOf(analysis.lowering.extremes, claim.value.term) ?? [];
  return found
    .filter(({ share, name }) => share >= 0.005 && name !== '')
    .map(({ name, share }) => `${name} (${Math.round(share * 100)} % of the spread)`);
}

function mends({ ranges }: ProductAnalysis, { requirement }: RequirementResult): readonly string[] {
  const needed = ranges?.needed.get(requirement) ?? [];
  return needed.length === 0 ? [] : mendLines(needed);
}

function factText(whole: ProductAnalysis, fact: Fact): string {
  const { analysis, ranges } = whole;
  const result = factResultOf(analysis, fact.name);
  const values =
    result === null ? ['stands in several places, so that none of them counts'] : valueLines(analysis, result);
  const written = writtenText(fact);
  const figures = ranges?.ofFact(fact.name) ?? [];
  const resting = analysis.requirements.filter(({ uses }) => uses.has(fact.name));
  return paragraphs([
    written === null ? `**${fact.name}**` : `**${fact.name}** \`${written}\``,
    values.length === 1 ? (values[0] ?? null) : list(values),
    titled(
      'why',
      (result?.reasons ?? []).map(({ message }) => message),
    ),
    list(figures.flatMap((figure) => allowedText(figure) ?? []).map((text) => `${text}, all else as it is`)),
    list(figures.flatMap((figure) => notCountedText(figure) ?? [])),
    titled(
      'rests on it',
      resting.map(({ requirement, verdict }) => `${requirement.id}: ${verdict}`),
    ),
    fact.source === null ? null : `source: ${fact.source}`,
    isHeld(whole, fact) ? '*held*: the front matter of its file cannot be read now, so this is as it last was' : null,
  ]);
}

/** As its author wrote it; null where the value says it all. */
function writtenText({ content }: Fact): string | null {
  if (content.type === 'expression') return `= ${printExpression(content.expression)}`;
  return content.type === 'value' ? valueText(content.value) : null;
}

function isHeld({ analysis }: ProductAnalysis, { file }: Fact): boolean {
  return analysis.product.documents.some((document) => document.file === file && document.held === true);
}

function rowText(whole: ProductAnalysis, { table, id, fields }: Row): string {
  const { analysis } = whole;
  const lines = [...fields].flatMap(([field, fact]) => {
    const result = factResultOf(analysis, fact.name);
    return field === 'id' || result === null ? [] : [`${field}: ${valueLines(analysis, result).join('; ')}`];
  });
  const names = [...fields.values()].map(({ name }) => name);
  const resting = analysis.requirements.filter(({ uses }) => names.some((name) => uses.has(name)));
  return paragraphs([
    `**${table}.${id}**`,
    list(lines),
    titled(
      'rests on it',
      resting.map(({ requirement, verdict }) => `${requirement.id}: ${verdict}`),
    ),
  ]);
}

function titled(title: string, lines: readonly string[]): string | null {
  if (lines.length === 0) return null;
  const shown = [...new Set(lines)];
  const more = shown.length > MOST_NAMED ? [`… and ${shown.length - MOST_NAMED} more`] : [];
  return `${title}:\n${list([...shown.slice(0, MOST_NAMED), ...more])}`;
}

function list(lines: readonly string[]): string | null {
  return lines.length === 0 ? null : lines.map((line) => `- ${line}`).join('\n');
}

function paragraphs(parts: readonly (string | null)[]): string {
  return parts.filter((part) => part !== null && part !== '').join('\n\n');
}

/** What a document lacks and its front matter could hold: a fact to be determined, a record, where a figure comes from. */
import type { Analysis, RequirementResult } from '../../engine/analysis';
import type { Finding } from '../../findings/finding';
import { VALUE_KEYS } from '../../model/fact';
import { type Edit, type Span, spanOf } from '../../syntax/span';
import { factResultOf } from '../figures';
import { type CodeAction, editAction } from './action';
import { factEntry, recordEntry } from './front-matter-entry';

export function designStubs(
  analysis: Analysis,
  finding: Finding,
  result: RequirementResult | null,
  text: string,
): readonly CodeAction[] {
  switch (finding.code) {
    case 'unchecked':
      return result === null ? [] : newFact(analysis, finding, result, text);
    case 'unknown-name':
      return missingFact(analysis, finding, text);
    case 'planned':
      return result === null ? [] : missingRecords(finding, result, text);
    case 'no-source':
      return sourceOf(analysis, finding, text);
    default:
      return [];
  }
}

/** The figure behind the words, under the requirement's title, to be determined; the name goes behind the words. */
function newFact({ product }: Analysis, finding: Finding, result: RequirementResult, text: string) {
  const { requirement } = result;
  const words = requirement.title.toLowerCase().match(/[\p{L}\p{N}]+/gu) ?? [];
  const base = words.join('-');
  if (base === '' || !/^\p{L}/u.test(base) || requirement.file !== finding.place.file) return [];
  const isTaken = (name: string) => [...product.facts.keys()].some((one) => one === name || one.startsWith(`${name}.`));
  const name = [base, ...[2, 3, 4, 5].map((number) => `${base}-${number}`)].find(
    (one) => !isTaken(one) && !VALUE_KEYS.has(one) && !product.modes.has(one) && !product.tables.has(one),
  );
  const entry = name === undefined ? null : factEntry(text, `${name}: TBD`);
  if (entry === null) return [];
  const { end } = finding.place.span;
  const edits = inOrder([{ span: spanOf(end, end), text: ` (\`${name}\`)` }, entry]);
  return [editAction(`Name the figure behind it: ${name}, to be determined`, finding, requirement.file, edits)];
}

/** Only of prose, where a name is a full one. */
function missingFact({ product }: Analysis, finding: Finding, text: string): readonly CodeAction[] {
  const { file, span } = finding.place;
  const name = text.slice(span.start, span.end);
  const parts = name.split('.');
  const isName = parts.every((part) => /^[\p{L}_][\p{L}\p{N}_-]*$/u.test(part) && !VALUE_KEYS.has(part));
  const inProse = product.requirements.some(
    (one) => one.file === file && one.span.start <= span.start && span.end <= one.span.end,
  );
  const isOfTable = product.tables.has(parts[0] ?? '') || product.facts.has(parts.slice(0, -1).join('.'));
  const entry = inProse && isName && !isOfTable ? factEntry(text, `${name}: TBD`) : null;
  return entry === null ? [] : [editAction(`Add the fact ${name}, to be determined`, finding, file, [entry])];
}

function missingRecords(finding: Finding, { requirement, evidence }: RequirementResult, text: string) {
  const missing = evidence.items.filter(({ verification, record }) => verification === null && record !== null);
  return missing.flatMap(({ method, record }) => {
    const fields = [
      `id: ${record}`,
      ...(method === null ? [] : [`method: ${method}`]),
      `verifies: [${requirement.id}]`,
    ];
    const entry = method === null ? null : recordEntry(text, `{${fields.join(', ')}}`);
    return entry === null ? [] : [editAction(`Add the record ${record}`, finding, finding.place.file, [entry])];
  });
}

/** An empty source is none yet: the finding stays until it is filled in. */
function sourceOf(analysis: Analysis, finding: Finding, text: string): readonly CodeAction[] {
  const { file, span } = finding.place;
  const fact = analysis.facts.find(({ fact: one }) => one.file === file && one.nameSpan.start === span.start)?.fact;
  if (fact === undefined || fact.row !== null || factResultOf(analysis, fact.name) === null) return [];
  const edits = sourceEdits(text, fact.span);
  return edits === null ? [] : [editAction(`Say where ${fact.name} comes from`, finding, file, edits)];
}

/** A mapping of its own gets one key more; a plain figure becomes one. */
function sourceEdits(text: string, { start, end }: Span): readonly Edit[] | null {
  const written = text.slice(start, end);
  if (written.startsWith('{'))
    return /[:,{]\s*(?:value|min|typ|max)\s*:/.test(written)
      ? [{ span: spanOf(end - 1, end - 1), text: ', source: ""' }]
      : null;
  if (/[\r\n#{}[\],]|: /.test(written)) return null;
  return [
    { span: spanOf(start, start), text: '{value: ' },
    { span: spanOf(end, end), text: ', source: ""}' },
  ];
}

function inOrder(edits: readonly Edit[]): readonly Edit[] {
  return edits.toSorted((a, b) => a.span.start - b.span.start);
}

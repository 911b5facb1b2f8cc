/** `plimsoll explain`: all that is known of one requirement, fact or part. */
import type { ProductAnalysis } from '../findings/product-analysis';
import type { Host } from '../host';
import { type Explanation, explainJson } from '../reports/explain/explain-json';
import { explainFact, explainRequirement, explainRow } from '../reports/explain/explanation';
import { factText, rowText } from '../reports/explain/fact-text';
import { requirementText } from '../reports/explain/requirement-text';
import { subjectNamed } from '../reports/explain/subject';
import { jsonText } from '../reports/json-text';
import type { TextStyle } from '../reports/text-style';
import { type Delivery, deliver, styleFor } from './deliver';
import type { ExitStatus } from './exit-status';
import { refuse } from './output';
import { checkProduct } from './product';

export interface ExplainOptions extends Delivery {
  readonly dir: string;
  readonly format: 'text' | 'json';
}

/** @param today the day that waivers and evidence are held against */
export async function runExplain(
  host: Host,
  name: string,
  options: ExplainOptions,
  today: string,
): Promise<ExitStatus> {
  const checked = await checkProduct(host, options.dir, today, 'ranges');
  if (checked === null) return 2;
  const explained = explain(checked.result, name);
  if ('nearest' in explained) {
    const near = explained.nearest.length === 0 ? '' : `; near it are ${explained.nearest.join(', ')}`;
    return refuse(`there is no requirement, fact or part “${name}”${near}`);
  }
  const content =
    options.format === 'json'
      ? { pieces: jsonText(explainJson(explained, checked.result)) }
      : `${explainText(explained, checked.result, styleFor(options))}\n`;
  return (await deliver(host, content, options)) && !checked.incomplete ? 0 : 2;
}

function explain(
  { analysis, ranges }: ProductAnalysis,
  name: string,
): Explanation | { readonly nearest: readonly string[] } {
  const subject = subjectNamed(analysis, name);
  if ('nearest' in subject) return subject;
  if (ranges === null) return { nearest: [] };
  switch (subject.type) {
    case 'requirement':
      return { type: 'requirement', explanation: explainRequirement(analysis, ranges, subject.result) };
    case 'fact':
      return { type: 'fact', explanation: explainFact(analysis, ranges, subject.result) };
    case 'row':
      return { type: 'row', explanation: explainRow(analysis, ranges, subject.row) };
  }
}

function explainText(explained: Explanation, whole: ProductAnalysis, style: TextStyle): string {
  switch (explained.type) {
    case 'requirement':
      return requirementText(explained.explanation, whole, style);
    case 'fact':
      return factText(explained.explanation, whole, style);
    case 'row':
      return rowText(explained.explanation, whole, style);
  }
}

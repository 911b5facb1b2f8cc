/** `plimsoll trial`: verdicts as if some figures had other values or a part were left out; nothing is written. */
import { trial } from '../engine/trial';
import { readTrial } from '../engine/trial-request';
import type { Host } from '../host';
import type { NamedText } from '../model/written-value';
import { jsonText } from '../reports/json-text';
import { trialJson, trialReport, trialText } from '../reports/trial';
import { type Delivery, deliver, styleFor } from './deliver';
import type { ExitStatus } from './exit-status';
import { refuse } from './output';
import { checkProduct } from './product';

export interface TrialOptions extends Delivery {
  readonly dir: string;
  readonly format: 'text' | 'json';
  readonly without: readonly string[];
}

/** @param today the day that waivers and evidence are held against */
export async function runTrial(
  host: Host,
  values: readonly NamedText[],
  options: TrialOptions,
  today: string,
): Promise<ExitStatus> {
  const checked = await checkProduct(host, options.dir, today, 'verdicts');
  if (checked === null) return 2;
  const { analysis } = checked.result;
  const request = readTrial(analysis, { values, without: options.without });
  if ('mistake' in request) return refuse(request.mistake);
  const report = trialReport(analysis, request, trial(analysis.product, analysis.requirements, request.changes));
  const content =
    options.format === 'json'
      ? { pieces: jsonText(trialJson(report, checked.name)) }
      : trialText(report, checked.name, styleFor(options));
  return (await deliver(host, content, options)) && !checked.incomplete ? 0 : 2;
}

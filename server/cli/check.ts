/** `plimsoll check`. */
import type { Severity } from '../../grammar/findings';
import { isAtLeast } from '../findings/severity';
import { type Host, today } from '../host';
import { checkJson } from '../reports/check-json';
import { checkText } from '../reports/check-text';
import { jsonText } from '../reports/json-text';
import { junitXml } from '../reports/junit';
import { sarifLog } from '../reports/sarif/sarif';
import { type Content, type Delivery, deliver, styleFor } from './deliver';
import type { ExitStatus } from './exit-status';
import { type CheckedProduct, checkProduct } from './product';

export const CHECK_FORMATS = ['text', 'json', 'sarif', 'junit'] as const;

export type CheckFormat = (typeof CHECK_FORMATS)[number];

export interface CheckOptions extends Delivery {
  readonly format: CheckFormat;
  readonly failOn: Severity;
  /** Every finding on a line of its own, hints among them. */
  readonly all?: boolean;
  /** The day to take for today, ISO 8601. */
  readonly date?: string;
}

export async function runCheck(host: Host, dir: string, options: CheckOptions): Promise<ExitStatus> {
  const checked = await checkProduct(host, dir, dayOf(host, options));
  return checked === null ? 2 : (await reportOn(host, checked, options)).status;
}

/** The day given, else today's. */
export function dayOf(host: Host, { date }: CheckOptions): string {
  return date ?? today(host);
}

/** Writes the report where it is asked for. `isWritten` is false where that failed. */
export async function reportOn(
  host: Host,
  checked: CheckedProduct,
  options: CheckOptions,
): Promise<{ readonly status: ExitStatus; readonly isWritten: boolean }> {
  const { result, incomplete } = checked;
  const isWritten = await deliver(host, await reportText(host, checked, options), options);
  if (result.badConfiguration)
    process.stderr.write('plimsoll: plimsoll.yaml has mistakes; what they concern was not applied\n');
  if (!isWritten || incomplete || result.badConfiguration) return { status: 2, isWritten };
  const hasFindings = result.findings.some(({ severity }) => isAtLeast(severity, options.failOn));
  return { status: hasFindings ? 1 : 0, isWritten };
}

async function reportText(
  host: Host,
  { result, name, root, incomplete }: CheckedProduct,
  options: CheckOptions,
): Promise<Content> {
  const { failOn, format } = options;
  switch (format) {
    case 'text':
      return checkText(result, name, styleFor(options), options.all ? 'all' : 'most');
    case 'json':
      return { pieces: jsonText(checkJson(result, name)) };
    case 'sarif':
      return { pieces: jsonText({ ...sarifLog(result, name, { prefix: await prefixOf(host, root), incomplete }) }) };
    case 'junit':
      return junitXml(result, name, { prefix: await prefixOf(host, root), failOn, incomplete });
  }
}

/** The product's folder below the top of its repository: what integrates continuously knows files from there. */
async function prefixOf(host: Host, root: string): Promise<string> {
  return (await host.repository(root))?.prefix ?? '';
}

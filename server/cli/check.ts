/** `plimsoll check`. */
import { SEVERITIES, type Severity } from '../../grammar/findings';
import { type Host, today } from '../host';
import { checkJson } from '../reports/check-json';
import { checkText } from '../reports/check-text';
import { type Delivery, deliver, styleFor } from './deliver';
import type { ExitStatus } from './exit-status';
import { type CheckedProduct, checkProduct } from './product';

export interface CheckOptions extends Delivery {
  readonly format: 'text' | 'json';
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
  { result, name, incomplete }: CheckedProduct,
  options: CheckOptions,
): Promise<{ readonly status: ExitStatus; readonly isWritten: boolean }> {
  const text =
    options.format === 'json'
      ? `${JSON.stringify(checkJson(result, name), null, 2)}\n`
      : checkText(result, name, styleFor(options), options.all ? 'all' : 'most');
  const isWritten = await deliver(host, text, options);
  if (result.badConfiguration)
    process.stderr.write('plimsoll: plimsoll.yaml has mistakes; what they concern was not applied\n');
  if (!isWritten || incomplete || result.badConfiguration) return { status: 2, isWritten };
  const hasFindings = result.findings.some(({ severity }) => isAtLeast(severity, options.failOn));
  return { status: hasFindings ? 1 : 0, isWritten };
}

function isAtLeast(severity: Severity, level: Severity): boolean {
  return SEVERITIES.indexOf(severity) <= SEVERITIES.indexOf(level);
}

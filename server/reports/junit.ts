/** `check --format junit`: a test case a requirement, in the JUnit XML that continuous integration reads. */

import { create } from 'xmlbuilder2';
import type { XMLBuilder } from 'xmlbuilder2/lib/interfaces';
import type { Severity } from '../../grammar/findings';
import type { RequirementResult } from '../engine/analysis';
import { figuresText } from '../findings/criterion-text';
import type { Finding } from '../findings/finding';
import type { ProductAnalysis } from '../findings/product-analysis';
import { shownTitle } from '../findings/requirement-text';
import { isAtLeast } from '../findings/severity';
import { groupBy } from '../model/group-by';
import { type Lines, lineIndexes } from './lines';
import { xmlText } from './well-formed';

export interface JunitSettings {
  /** The product's folder below the top of its repository, with `/` at its end. */
  readonly prefix: string;
  /** The mildest finding that fails a case, as it fails the check. */
  readonly failOn: Severity;
  /** Something could not be read, so that the verdicts are not the whole ones. */
  readonly incomplete: boolean;
}

/**
 * A suite a document. A case fails by the findings that fail the check; it passes only when the requirement is met, and
 * is skipped with its verdict otherwise, so that nothing unproved looks passed. Findings of no requirement have a case of
 * their own where they fail.
 */
export function junitXml(result: ProductAnalysis, productName: string, settings: JunitSettings): string {
  const lines = lineIndexes(result.texts);
  const suites = suitesOf(result, settings, lines);
  const all = suites.flatMap(({ cases }) => cases);
  const root = create({ version: '1.0', encoding: 'UTF-8' }).ele('testsuites', {
    name: xmlText(productName),
    ...counts(all),
  });
  for (const { name, cases } of suites) {
    const suite = root.ele('testsuite', { name: xmlText(name), ...counts(cases) });
    for (const one of cases) writeCase(suite, one, settings.prefix);
  }
  return `${root.end({ prettyPrint: true })}\n`;
}

interface Suite {
  /** The document. */
  readonly name: string;
  readonly cases: readonly Case[];
}

interface Case {
  readonly file: string;
  readonly name: string;
  readonly line: number | null;
  readonly outcome: 'passed' | 'failed' | 'skipped' | 'error';
  /** One line. */
  readonly message: string;
  /** All there is to say, line by line. */
  readonly details: string;
}

function suitesOf(result: ProductAnalysis, settings: JunitSettings, lines: Lines): readonly Suite[] {
  const { analysis, findings } = result;
  const ids = new Set(analysis.requirements.map(({ requirement }) => requirement.id));
  const ofRequirement = groupBy(findings, ({ requirement }) => requirement ?? '');
  const cases = analysis.requirements.map((requirement) => {
    const own = ofRequirement.get(requirement.requirement.id) ?? [];
    return requirementCase(requirement, own, settings.failOn, lines);
  });
  const others = findings.filter(
    ({ requirement, severity }) => !ids.has(requirement ?? '') && isAtLeast(severity, settings.failOn),
  );
  for (const [file, own] of groupBy(others, ({ place }) => place.file)) cases.push(documentCase(file, own, lines));
  if (settings.incomplete || result.badConfiguration) cases.push(UNREADABLE);
  return [...groupBy(cases, ({ file }) => file)]
    .map(([name, own]) => ({ name, cases: own }))
    .sort((a, b) => (a.name < b.name ? -1 : 1));
}

const UNREADABLE: Case = {
  file: 'plimsoll',
  name: 'input that could not be read',
  line: null,
  outcome: 'error',
  message: 'something could not be read; standard error says what',
  details: '',
};

function requirementCase(
  { requirement, verdict, criteria }: RequirementResult,
  findings: readonly Finding[],
  failOn: Severity,
  lines: Lines,
): Case {
  const failing = findings.filter(({ severity }) => isAtLeast(severity, failOn));
  const said = findings.filter(({ severity }) => severity !== 'hint').map((finding) => findingLine(finding, lines));
  return {
    file: requirement.file,
    name: `${requirement.id} ${shownTitle(requirement)}`.trim(),
    line: lines(requirement.file).positionAt(requirement.idSpan.start).line + 1,
    outcome: failing.length > 0 ? 'failed' : verdict === 'met' ? 'passed' : 'skipped',
    message: failing[0]?.message ?? verdict,
    details: [...criteria.map((one) => one.criterion.text + figuresText(one)), ...said].join('\n'),
  };
}

function documentCase(file: string, findings: readonly Finding[], lines: Lines): Case {
  return {
    file,
    name: 'findings of no requirement',
    line: null,
    outcome: 'failed',
    message: findings[0]?.message ?? '',
    details: findings.map((finding) => findingLine(finding, lines)).join('\n'),
  };
}

function findingLine({ severity, code, message, place }: Finding, lines: Lines): string {
  const { line, character } = lines(place.file).positionAt(place.span.start);
  return `${place.file}:${line + 1}:${character + 1}: ${severity} ${code}: ${message}`;
}

function counts(cases: readonly Case[]): Readonly<Record<string, string>> {
  const count = (outcome: Case['outcome']) => String(cases.filter((one) => one.outcome === outcome).length);
  return { tests: String(cases.length), failures: count('failed'), errors: count('error'), skipped: count('skipped') };
}

function writeCase(suite: XMLBuilder, { file, name, line, outcome, message, details }: Case, prefix: string): void {
  const element = suite.ele('testcase', {
    classname: xmlText(file),
    name: xmlText(name),
    file: xmlText(prefix + file),
    ...(line === null ? {} : { line: String(line) }),
  });
  if (outcome === 'skipped') element.ele('skipped', { message: xmlText(message) });
  if (outcome === 'failed' || outcome === 'error') {
    const tag = outcome === 'failed' ? 'failure' : 'error';
    element.ele(tag, { message: xmlText(message), type: outcome }).txt(xmlText(details));
  } else if (details !== '') element.ele('system-out').txt(xmlText(details));
}

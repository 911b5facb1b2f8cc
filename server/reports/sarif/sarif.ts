/** `check --format sarif`: the findings of a product as SARIF 2.1.0, for forges and editors. */
import type { Fix, Location, Log, Region, Result } from 'sarif';
import type { Finding, Related } from '../../findings/finding';
import type { ProductAnalysis } from '../../findings/product-analysis';
import type { Place } from '../../model/place';
import { type Lines, lineIndexes } from '../lines';
import { TOOL } from '../tool';
import { pathReference, wellFormed } from '../well-formed';
import { messageText } from './message';
import { LEVELS, ruleIndex, rules } from './rules';

export interface SarifSettings {
  /** The product's folder below the top of its repository, with `/` at its end; empty where it is the top, or in none. */
  readonly prefix: string;
  /** Something could not be read, so that the findings are not all there are. */
  readonly incomplete: boolean;
}

/** The name that forges give to the top of a checkout. */
const TOP = '%SRCROOT%';

/** Hints are left out: they are for whoever writes the text. */
export function sarifLog(result: ProductAnalysis, productName: string, settings: SarifSettings): Log {
  const places = { lines: lineIndexes(result.texts), prefix: settings.prefix };
  const findings = result.findings.filter(({ severity }) => severity !== 'hint');
  const numbers = occurrences(findings);
  return {
    $schema: 'https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json',
    version: '2.1.0',
    runs: [
      {
        tool: {
          driver: {
            name: TOOL.name,
            semanticVersion: TOOL.version,
            rules: rules(result.analysis.product.configuration.phase),
          },
        },
        // 3.14.6: one category a product, so that several products of a repository stand side by side.
        automationDetails: { id: `plimsoll/${wellFormed(settings.prefix)}` },
        invocations: [{ executionSuccessful: !settings.incomplete && !result.badConfiguration }],
        originalUriBaseIds: { [TOP]: { description: { text: 'The top of the repository.' } } },
        columnKind: 'utf16CodeUnits',
        newlineSequences: ['\r\n', '\n', '\r'],
        results: findings.map((finding, index) => resultOf(finding, numbers[index] ?? 1, places)),
        properties: { product: wellFormed(productName) },
      },
    ],
  };
}

interface Places {
  readonly lines: Lines;
  readonly prefix: string;
}

function resultOf(finding: Finding, number: number, places: Places): Result {
  const { code, severity, requirement, message, place, related, fixes } = finding;
  const logicalLocations =
    requirement === null ? {} : { logicalLocations: [{ name: requirement, kind: 'requirement' }] };
  return {
    ruleId: code,
    ruleIndex: ruleIndex(code),
    level: LEVELS[severity],
    message: { text: messageText(message) },
    locations: [{ ...locationOf(place, places), ...logicalLocations }],
    partialFingerprints: { 'finding/v1': fingerprint(finding, number) },
    ...(related.length === 0 ? {} : { relatedLocations: related.map((other) => relatedLocation(other, places)) }),
    ...(fixes.length === 0 ? {} : { fixes: fixes.map((fix) => fixOf(fix, place.file, places)) }),
  };
}

function relatedLocation({ place, message }: Related, places: Places): Location {
  return { ...locationOf(place, places), message: { text: messageText(message) } };
}

function locationOf({ file, span }: Place, { lines, prefix }: Places): Location {
  return { physicalLocation: { artifactLocation: artifact(prefix, file), region: regionOf(span, file, lines) } };
}

function artifact(prefix: string, file: string) {
  return { uri: pathReference(prefix + file), uriBaseId: TOP };
}

/** Lines and columns from 1, the end exclusive (3.30.5 to 3.30.8). */
function regionOf({ start, end }: Place['span'], file: string, lines: Lines): Region {
  const index = lines(file);
  const [from, to] = [index.positionAt(start), index.positionAt(Math.max(start, end))];
  return {
    startLine: from.line + 1,
    startColumn: from.character + 1,
    endLine: to.line + 1,
    endColumn: to.character + 1,
  };
}

function fixOf({ title, edits }: Finding['fixes'][number], file: string, { lines, prefix }: Places): Fix {
  const replacements = edits.map(({ span, text }) => ({
    deletedRegion: regionOf(span, file, lines),
    insertedContent: { text: wellFormed(text) },
  }));
  return {
    description: { text: messageText(title) },
    artifactChanges: [{ artifactLocation: artifact(prefix, file), replacements }],
  };
}

/** The same finding keeps it when lines move or its figures change (3.27.17). */
function fingerprint({ code, requirement, place }: Finding, number: number): string {
  return wellFormed([code, requirement ?? place.file, number].join(' '));
}

/** For each finding, which of those with the same code and subject it is, from 1. */
function occurrences(findings: readonly Finding[]): readonly number[] {
  const counts = new Map<string, number>();
  return findings.map((finding) => {
    const key = fingerprint(finding, 0);
    const count = (counts.get(key) ?? 0) + 1;
    counts.set(key, count);
    return count;
  });
}

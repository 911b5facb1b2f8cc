/** Words under *Verify* that are no method, records of another method than is named, and documents of evidence that are not there. */
import type { Analysis } from '../engine/analysis';
import type { AnalysisPart } from '../engine/parts';
import { type EvidenceFile, whyNoDigest } from '../model/evidence-file';
import { nearestWords } from '../model/nearest';
import { attributesOf, type Requirement } from '../model/requirement';
import { METHODS } from '../model/verification';
import { methodsOf } from '../model/verify-methods';
import type { Draft } from './finding';

export function* methodFindings({ product }: Analysis, part: AnalysisPart): Iterable<Draft> {
  for (const { requirement } of part.requirements) {
    const { methods, unread } = methodsOf(requirement, (word) => product.verifications.has(word));
    for (const { words, nearest, span } of unread)
      yield bad(
        requirement,
        span,
        `“${words}” is no method of verification: ${nearest === null ? METHODS.join(', ') : `did you mean “${nearest}”?`}`,
      );
    for (const { method, records, span } of methods)
      for (const id of records) {
        const record = product.verifications.get(id);
        if (record === undefined) yield* misspelt(requirement, id, span, [...product.verifications.keys()]);
        else if (method !== null && record.method !== method)
          yield bad(requirement, span, `${id} is recorded as ${record.method}, not as ${method}`);
      }
  }
  const evidenceFiles = part.document?.evidenceFiles ?? [];
  yield* withoutLink(part, evidenceFiles);
  for (const { requirement, file, span, path, destination } of evidenceFiles) {
    const digest = path === null ? undefined : product.surroundings.digests.get(path);
    if (digest === undefined || typeof digest === 'string') continue;
    yield {
      code: 'bad-value',
      requirement,
      message: `${requirement} points at ${destination} as evidence, ${whyNoDigest(digest)}`,
      place: { file, span },
    };
  }
}

function* withoutLink({ requirements }: AnalysisPart, evidenceFiles: readonly EvidenceFile[]): Iterable<Draft> {
  const linked = new Set(evidenceFiles.map(({ file, attribute }) => `${file} ${attribute.start}`));
  for (const { requirement } of requirements)
    for (const { span, valueSpan } of attributesOf(requirement, 'Evidence'))
      if (!linked.has(`${requirement.file} ${span.start}`))
        yield bad(requirement, valueSpan, 'Evidence points at a document by a link: [report](reports/ingress.pdf)');
}

/** A record that is not there yet is planned; one whose name is nearly that of another is a slip of the pen. */
function* misspelt(
  requirement: Requirement,
  id: string,
  span: Draft['place']['span'],
  known: readonly string[],
): Iterable<Draft> {
  const [nearest] = nearestWords(
    id,
    known.filter((other) => other.length === id.length && other.replace(/\d/g, '0') !== id.replace(/\d/g, '0')),
  );
  if (nearest === undefined) return;
  yield {
    code: 'unknown-name',
    requirement: requirement.id,
    message: `there is no record ${id}; the nearest is ${nearest}`,
    place: { file: requirement.file, span },
  };
}

function bad({ id, file }: Requirement, span: Draft['place']['span'], message: string): Draft {
  return { code: 'bad-value', requirement: id, message: `${id}: ${message}`, place: { file, span } };
}

/** Puts the parts of a statement (a lead-in and the items of its list) together as one prose. */
import type { CodeSpan, Prose, ProseRun } from '../markdown/block';
import { spanOf } from '../span';

/** One prose with a line break between the parts; code spans are numbered through. */
export function joinProse(parts: readonly Prose[]): Prose {
  const [only] = parts;
  if (only && parts.length === 1) return only;
  const codes: CodeSpan[] = [];
  const runs: ProseRun[] = [];
  let offset = 0;
  for (const [index, part] of parts.entries()) {
    if (index > 0) {
      const end = runs.at(-1)?.documentSpan.end ?? 0;
      runs.push({ start: offset, length: 1, documentSpan: spanOf(end, end), verbatim: false });
      offset += 1;
    }
    const shift = offset;
    codes.push(...part.codes.map((code) => ({ ...code, at: code.at + shift })));
    runs.push(...part.runs.map((run) => ({ ...run, start: run.start + shift })));
    offset += part.text.length;
  }
  return { text: parts.map(({ text }) => text).join('\n'), codes, runs };
}

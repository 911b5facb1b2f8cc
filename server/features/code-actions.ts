/** The fixes of findings that touch a part of a document, as edits that an editor offers. */
import type { Finding } from '../findings/finding';
import type { ProductAnalysis } from '../findings/product-analysis';
import type { Edit, Span } from '../syntax/span';

export interface CodeAction {
  readonly title: string;
  readonly finding: Finding;
  /** In the document that was asked about. */
  readonly edits: readonly Edit[];
  /** The only right edit for its finding. */
  readonly isPreferred: boolean;
}

export function codeActionsIn({ findings }: ProductAnalysis, file: string, span: Span): readonly CodeAction[] {
  return findings
    .filter(({ place }) => place.file === file && touches(place.span, span))
    .flatMap((finding) =>
      finding.fixes.map(({ title, edits }) => ({ title, finding, edits, isPreferred: finding.fixes.length === 1 })),
    );
}

/** A cursor at either end of a finding is on it. */
function touches(a: Span, b: Span): boolean {
  return a.start <= b.end && b.start <= a.end;
}

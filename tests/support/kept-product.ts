/** A product that is kept from one analysis to the next, beside the same one read from nothing. */
import { lensesIn } from '../../server/features/lenses';
import { occurrencesIn } from '../../server/features/occurrences';
import { documentSymbols } from '../../server/features/symbols';
import { tokensIn } from '../../server/features/tokens';
import { checkJson } from '../../server/reports/check-json';
import type { Span } from '../../server/syntax/span';
import { createProductWorkspace, type ProductWorkspace } from '../../server/workspace';
import type { Files } from './random-edits';

/** The day that everything is held against. */
export const ON = '2026-11-15';

/** Gives what is other than before, as an editor would. */
export function give(workspace: ProductWorkspace, before: Files, files: Files): void {
  const configuration = files.get('plimsoll.yaml') ?? null;
  if (configuration !== (before.get('plimsoll.yaml') ?? null)) workspace.setConfiguration(configuration);
  for (const path of before.keys()) if (!files.has(path)) workspace.removeDocument(path);
  for (const [path, text] of files)
    if (path.endsWith('.md') && before.get(path) !== text) workspace.setDocument(path, text);
  for (const path of new Set([...before.keys(), ...files.keys()]))
    if (path.endsWith('.csv') && before.get(path) !== files.get(path)) workspace.setData(path, files.get(path) ?? null);
  for (const path of workspace.missingData()) workspace.setData(path, files.get(path) ?? null);
  for (const path of workspace.missingDigests()) workspace.setDigest(path, null);
}

export function fromNothing(files: Files): ProductWorkspace {
  const workspace = createProductWorkspace();
  give(workspace, new Map(), files);
  return workspace;
}

/** All that the command line says of it. */
export function checked(workspace: ProductWorkspace, ranges = false): string {
  return JSON.stringify(checkJson(workspace.analysis({ today: ON, ranges }), 'Small'), null, 1);
}

/** Every place that findings and what an editor asks for lead to, with what stands there. */
export function places(workspace: ProductWorkspace): readonly string[] {
  const whole = workspace.analysis({ today: ON });
  const { analysis, texts } = whole;
  const shown = (what: string, file: string, { start, end }: Span) =>
    `${what} ${file} ${start} ${end} ${(texts.get(file) ?? '').slice(start, end)}`;
  const found = whole.findings.flatMap(({ code, place, related, fixes }) => [
    shown(code, place.file, place.span),
    ...related.map((one) => shown(`${code}, related`, one.place.file, one.place.span)),
    ...fixes.flatMap(({ edits }) => edits.map(({ span }) => shown(`${code}, fix`, place.file, span))),
  ]);
  const judged = analysis.requirements.flatMap(({ requirement, criteria }) =>
    criteria.flatMap(({ criterion: { place, namePlace } }) => [
      shown(`${requirement.id}, limit`, place.file, place.span),
      shown(`${requirement.id}, name`, namePlace.file, namePlace.span),
    ]),
  );
  const asked = analysis.product.documents.flatMap(({ file }) => [
    ...occurrencesIn(whole, file).map(({ span, target }) => shown(target.type, file, span)),
    ...lensesIn(analysis, file).map(({ span }) => shown('lens', file, span)),
    ...tokensIn(whole, file).map(({ span, type }) => shown(type, file, span)),
    ...documentSymbols(analysis, file).map(({ span }) => shown('symbol', file, span)),
  ]);
  return [...found, ...judged, ...asked];
}

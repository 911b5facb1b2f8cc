/** An analysis → the matrix as plain records. */
import type { ProductAnalysis } from '../../findings/product-analysis';
import { coverageOf, documentCoverage } from './coverage';
import { openPoints } from './open-points';
import type { Matrix, Revision } from './record';
import { matrixRows } from './rows';
import { createScene } from './scene';
import { factUses, partUses } from './uses';
import { waiverEntries } from './waivers';

export interface MatrixSettings {
  readonly product: string;
  readonly revision: Revision | null;
}

export function matrixOf(result: ProductAnalysis, { product, revision }: MatrixSettings): Matrix {
  const scene = createScene(result);
  const requirements = matrixRows(scene);
  const { configuration } = result.analysis.product;
  return {
    product,
    phase: configuration.phase,
    date: result.today,
    revision,
    coverage: coverageOf(requirements),
    documents: documentCoverage(requirements),
    requirements,
    facts: factUses(scene),
    parts: partUses(scene),
    openPoints: openPoints(scene),
    waivers: waiverEntries(scene),
  };
}

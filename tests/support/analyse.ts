/** The one helper through which tests reach the product: texts in, analysis and findings out. */
import type { ProductAnalysis } from '../../server/findings/product-analysis';
import { CONFIGURATION_FILE } from '../../server/model/configuration';
import { sha256OfText } from '../../server/model/digest';
import { createProductWorkspace } from '../../server/workspace';

/** Judges a product whose files are given by path; `plimsoll.yaml` among them is its configuration. `ranges`: as `check` does. */
export function analyseFiles(
  files: Readonly<Record<string, string>>,
  asked: 'verdicts' | 'ranges' = 'verdicts',
): ProductAnalysis {
  const workspace = createProductWorkspace();
  const configuration = files[CONFIGURATION_FILE];
  if (configuration !== undefined) workspace.setConfiguration(configuration);
  for (const [path, text] of Object.entries(files)) if (path.endsWith('.md')) workspace.setDocument(path, text);
  for (const path of workspace.missingData()) workspace.setData(path, files[path] ?? null);
  for (const path of workspace.missingDigests()) workspace.setDigest(path, digestOf(files[path]));
  return workspace.analysis({ today: TODAY, ranges: asked === 'ranges' });
}

/** The day that waivers are held against. */
export const TODAY = '2026-11-15';

function digestOf(text: string | undefined): string | null {
  return text === undefined ? null : sha256OfText(text);
}

/** Judges one file with facts (YAML lines below `facts:`) and requirements (Markdown). */
export function analyseText(
  facts: string,
  requirements: string,
  asked: 'verdicts' | 'ranges' = 'verdicts',
): ProductAnalysis {
  const indented = facts.split('\n').map((line) => `  ${line}`);
  const text = ['---', 'requirements: Test', 'facts:', ...indented, '---', requirements].join('\n');
  return analyseFiles({ 'product.md': text }, asked);
}

/** The verdict of each requirement by id. */
export function verdictsOf({ analysis }: ProductAnalysis): Readonly<Record<string, string>> {
  return Object.fromEntries(analysis.requirements.map(({ requirement, verdict }) => [requirement.id, verdict]));
}

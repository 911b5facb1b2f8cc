/** The one helper through which tests reach the product: texts in, analysis and findings out. */
import type { ProductAnalysis } from '../../server/findings/product-analysis';
import { CONFIGURATION_FILE } from '../../server/model/configuration';
import { createProductWorkspace } from '../../server/workspace';

/** Judges a product whose files are given by path; `plimsoll.yaml` among them is its configuration. */
export function analyseFiles(files: Readonly<Record<string, string>>): ProductAnalysis {
  const workspace = createProductWorkspace();
  const configuration = files[CONFIGURATION_FILE];
  if (configuration !== undefined) workspace.setConfiguration(configuration);
  for (const [path, text] of Object.entries(files)) if (path.endsWith('.md')) workspace.setDocument(path, text);
  for (const path of workspace.missingData()) workspace.setData(path, files[path] ?? null);
  return workspace.analysis();
}

/** Judges one file with facts (YAML lines below `facts:`) and requirements (Markdown). */
export function analyseText(facts: string, requirements: string): ProductAnalysis {
  const indented = facts.split('\n').map((line) => `  ${line}`);
  return analyseFiles({
    'product.md': ['---', 'requirements: Test', 'facts:', ...indented, '---', requirements].join('\n'),
  });
}

/** The verdict of each requirement by id. */
export function verdictsOf({ analysis }: ProductAnalysis): Readonly<Record<string, string>> {
  return Object.fromEntries(analysis.requirements.map(({ requirement, verdict }) => [requirement.id, verdict]));
}

/** What continuous integration gets: SARIF and JUnit XML with places below the top of the repository, and a status. */
import { describe, expect, test } from 'vitest';
import { inFolder, plimsoll } from '../support/command-line';
import { git } from '../support/folder';

const TEXT =
  '---\nrequirements: My product\nfacts:\n  supply: {draw: 65 W}\n---\n## P-1 Power\nThe product shall draw no more than 60 W (`supply.draw`).\n';

function inRepository<Result>(work: (folder: string) => Result): Result {
  return inFolder(
    { 'tools/readme.txt': '', 'products/one/plimsoll.yaml': 'product: One', 'products/one/a.md': TEXT },
    (folder) => {
      git(folder, 'init', '--quiet');
      return work(folder);
    },
  );
}

describe('a gate', () => {
  test('SARIF has places below the top of the repository, and findings give status 1', () => {
    const run = inRepository((folder) => plimsoll(['check', `${folder}/products/one`, '--format', 'sarif']));
    const [{ results }] = JSON.parse(run.out).runs;
    const unmet = results.find(({ ruleId }: { ruleId: string }) => ruleId === 'unmet');
    expect(unmet.locations[0].physicalLocation.artifactLocation.uri).toBe('products/one/a.md');
    expect(run.status).toBe(1);
  });

  test('JUnit XML has a failing case, placed below the top of the repository', () => {
    const run = inRepository((folder) => plimsoll(['check', `${folder}/products/one`, '--format', 'junit']));
    expect(run.out).toContain('name="P-1 Power" file="products/one/a.md" line="6"');
    expect(run.out).toContain('<failure message="P-1: supply.draw is 65 W, 5 W above');
    expect(run.status).toBe(1);
  });
});

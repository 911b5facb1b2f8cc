/** The server over real standard input and output: diagnostics while typing, unsaved text, closed documents. */
import { expect, test } from 'vitest';
import { type Diagnostic, finish, startClient } from '../support/language-client';

const REQUIREMENT = `---
requirements: Test
---
## P-1 Power

The product shall draw no more than 60 W (\`supply.draw\`).

- Verify: analysis
`;
const design = (draw: string) => `---
design: Power
facts:
  supply:
    draw: ${draw}
---
`;
const codesOf = (diagnostics: readonly Diagnostic[]) => diagnostics.map(({ code }) => code);
const FILES = { 'requirements.md': REQUIREMENT, 'design.md': design('45 W') };

test('an unsaved figure breaks the requirement of another file, each related to the other', async () => {
  const client = await startClient(FILES);
  client.open('design.md', FILES['design.md']);
  client.change('design.md', '65', { start: { line: 4, character: 10 }, end: { line: 4, character: 12 } });
  const unmet = (await client.diagnostics('requirements.md')).find(({ code }) => code === 'unmet');
  expect(unmet).toMatchObject({ code: 'unmet', severity: 1 });
  expect(unmet?.message).toContain('supply.draw is 65 W, 5 W above the limit of at most 60 W');
  expect(unmet?.relatedInformation?.[0]?.location.uri).toBe(client.uri('design.md'));
  const figure = (await client.diagnostics('design.md')).find(({ code }) => code === 'unmet');
  expect(figure).toMatchObject({ code: 'unmet', severity: 3, range: { start: { line: 4, character: 10 } } });
  expect(figure?.relatedInformation?.[0]?.location.uri).toBe(client.uri('requirements.md'));
  client.close('design.md');
  expect(codesOf(await client.diagnostics('requirements.md'))).not.toContain('unmet');
  expect(codesOf(await client.diagnostics('design.md'))).not.toContain('unmet');
  await finish(client);
});

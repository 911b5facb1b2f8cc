/** Products that several tests begin with, and what holds of the extension wherever it runs. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect } from 'vitest';
import type { Workbench } from './workbench';

/** Two requirements, both met, that rest on one figure. */
export const TWO_PROMISES = `---
requirements: My product
facts:
  supply: {draw: 45 W}
  bank: {energy: 360 Wh}
  autonomy: = bank.energy / supply.draw
---
# My product

## P-1 Power
The product shall draw no more than 60 W (\`supply.draw\`).

## P-2 Autonomy
The product shall run for at least 7 h (\`autonomy\`).
`;

/** In Tern: a figure typed in one document breaks a sentence of another before anything is saved, until it is undone. */
export async function unsavedFigureMarksAnother(workbench: Workbench, picture: string): Promise<void> {
  await workbench.openFile('design/power.md');
  const saved = readFileSync(join(workbench.folder, 'design/power.md'), 'utf8');
  await workbench.replace('0.91', '0.81');
  await workbench.problem(/TRN-031: supply\.draw in mode record is .* above the limit of at most 60 W/).waitFor();
  await workbench.treeRow(/TRN-031 Draw.*unmet/).waitFor();
  await workbench.picture(picture);
  expect(readFileSync(join(workbench.folder, 'design/power.md'), 'utf8')).toBe(saved);
  await workbench.page.keyboard.press('Control+Z');
  await workbench.treeRow(/TRN-031 Draw.*at risk/).waitFor();
}

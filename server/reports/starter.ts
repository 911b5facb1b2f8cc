/** The five-minute file: one requirement beside the figure it depends on, ready to be changed. */

export const STARTER_FILE = 'requirements.md';

/** What a newcomer changes first; it stands in the text once. */
export const STARTER_FIGURE = '45 W';

export const STARTER_TEXT = `---
requirements: My product
facts:
  supply: {draw: ${STARTER_FIGURE}}
---
# My product

## P-1 Power
The product shall draw no more than 60 W (\`supply.draw\`).

Rationale: the supply that is at hand gives 65 W.
`;

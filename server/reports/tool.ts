/** What reports call the program that made them. */

export const TOOL = { name: 'Plimsoll', version: '0.1.0' } as const;

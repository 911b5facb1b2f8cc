/** The attributes of a requirement: list items `Key: value`, as data. */

export interface AttributeDefinition {
  /** As shown to people; matched without regard to case. */
  readonly key: string;
  /** One line for completion and the language reference. */
  readonly meaning: string;
  /** The words it may hold, where they are fixed. */
  readonly values?: readonly string[];
  readonly example: string;
}

export const ATTRIBUTES: readonly AttributeDefinition[] = [
  {
    key: 'Check',
    meaning: 'A condition on design facts that decides the requirement, apart from the prose.',
    example: '- Check: `supply.draw <= 60 W`',
  },
  {
    key: 'Verify',
    meaning: 'How it is verified: inspection, analysis, demonstration or test, with a procedure where there is one.',
    example: '- Verify: analysis; test TP-03',
  },
  { key: 'Derives from', meaning: 'The requirements it was derived from.', example: '- Derives from: TRN-001' },
  {
    key: 'Rationale',
    meaning: 'Why the requirement exists.',
    example: 'Rationale: the island is reached once a week.',
  },
  { key: 'Source', meaning: 'Who or what asked for it.', example: '- Source: survey plan, section 2' },
  { key: 'Owner', meaning: 'Who answers for it.', example: '- Owner: power team' },
  {
    key: 'Priority',
    meaning: 'How much it matters; could is never reported above information.',
    values: ['must', 'should', 'could'],
    example: '- Priority: should',
  },
  {
    key: 'Headroom',
    meaning: 'Surplus allowed before a figure counts as over-specified.',
    example: '- Headroom: 50 %',
  },
  {
    key: 'Applies when',
    meaning: 'A condition; while it is false the requirement is not applicable.',
    example: '- Applies when: `radio.fitted`',
  },
  {
    key: 'Judge by',
    meaning: 'Which spread decides.',
    values: ['worst case', 'rss'],
    example: '- Judge by: worst case',
  },
  {
    key: 'Safety',
    meaning: 'Whether people can be hurt if it is not met.',
    values: ['yes', 'no'],
    example: '- Safety: yes',
  },
  {
    key: 'Not limits',
    meaning: 'Words of the statement that are no limits, separated by semicolons.',
    example: '- Not limits: 5 V rail; `boot.cfg`',
  },
  {
    key: 'Evidence',
    meaning: 'A link to a document that proves it.',
    example: '- Evidence: [report](reports/ingress.pdf)',
  },
  {
    key: 'Waived',
    meaning: 'An exception that was granted: extent; reason; who; until.',
    example: '- Waived: to 97 EUR; first build; A. Person; until 2027-03-31',
  },
  {
    key: 'Agreed',
    meaning: 'Who agreed to the text, when, and to which text.',
    example: '- Agreed: A. Person; 2026-11-02; 7c1f3a',
  },
];

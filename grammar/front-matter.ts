/** The keys of front matter, and of the values, rows and tables below them, as data. */

export interface KeyDefinition {
  readonly key: string;
  /** One line for completion, hovers and the schema. */
  readonly meaning: string;
  /** The words it may hold, where they are fixed. */
  readonly values?: readonly string[];
}

/** At the top of a document's front matter (records of verification apart). */
export const DOCUMENT_KEYS: readonly KeyDefinition[] = [
  { key: 'requirements', meaning: 'The document holds requirements; what the product is called.' },
  { key: 'ids', meaning: 'Only these begin an id here.' },
  { key: 'design', meaning: 'The title of a document of the design.' },
  { key: 'facts', meaning: 'Named values of the design, given or derived.' },
  { key: 'parts', meaning: 'The table of parts: rows with an id each.' },
  { key: 'rails', meaning: 'The supply tree.' },
  { key: 'connections', meaning: 'Lines between two parts over an interface.' },
  { key: 'option', meaning: 'What this alternative is called.' },
  { key: 'of', meaning: 'The group that the alternative is one of.' },
  { key: 'verification', meaning: 'One procedure with its runs.' },
  { key: 'verifications', meaning: 'A list of procedures with their runs.' },
];

/** Parts of a value that is written as a mapping. */
export const VALUE_PARTS: readonly KeyDefinition[] = [
  { key: 'value', meaning: 'The value itself, where more is said of it.' },
  { key: 'min', meaning: 'The least value.' },
  { key: 'typ', meaning: 'The typical value: with it the ends are a tolerance, without it a range.' },
  { key: 'max', meaning: 'The greatest value.' },
  { key: 'choices', meaning: 'The values that it may take.' },
  { key: 'source', meaning: 'Where it comes from.' },
  { key: 'note', meaning: 'Anything else that is worth knowing.' },
  { key: 'at', meaning: 'A curve: y by x.' },
  { key: 'of', meaning: 'What the x of a curve is.' },
  {
    key: 'between',
    meaning: 'How a curve runs: steps hold to the next x, lines run straight to it.',
    values: ['steps', 'lines'],
  },
];

/** Fields that mean something wherever a table has them; all others are free. */
export const ROW_FIELDS: readonly KeyDefinition[] = [
  { key: 'id', meaning: 'What names and other rows call it.' },
  { key: 'name', meaning: 'What people call it.' },
  { key: 'kind', meaning: 'What it is: processor, connector, memory.' },
  { key: 'quantity', meaning: 'How many there are; one where it is not written.' },
  { key: 'cost', meaning: 'What one costs.' },
  { key: 'power', meaning: 'What one draws, where it is not the sum of its draws.' },
  { key: 'mass', meaning: 'What one weighs.' },
  { key: 'draws', meaning: 'The current that one draws from each rail.' },
  { key: 'interfaces', meaning: 'What it offers to others, and how many.' },
  { key: 'lane-sets', meaning: 'The combinations of interfaces that its data sheet allows.' },
  { key: 'uses', meaning: 'Rows that it does not work without.' },
  { key: 'satisfies', meaning: 'Requirements that it is there for.' },
  { key: 'optional', meaning: 'Whether the product works without it.', values: ['yes', 'no'] },
  { key: 'source', meaning: 'Where its figures come from.' },
  { key: 'note', meaning: 'Anything else that is worth knowing.' },
];

export const RAIL_FIELDS: readonly KeyDefinition[] = [
  { key: 'id', meaning: 'What draws and other rails call it.' },
  { key: 'volts', meaning: 'Its voltage.' },
  { key: 'from', meaning: 'The rail that it is made from; without it, it comes from outside.' },
  { key: 'efficiency', meaning: 'Of its converter; linear for a series regulator.' },
  { key: 'limit', meaning: 'The most current that it gives.' },
  { key: 'by', meaning: 'The part that makes it.' },
];

export const CONNECTION_FIELDS: readonly KeyDefinition[] = [
  { key: 'from', meaning: 'The part at one end.' },
  { key: 'to', meaning: 'The part at the other end.' },
  { key: 'over', meaning: 'The interface that both ends have.' },
  { key: 'count', meaning: 'How many of it; one where it is not written.' },
  { key: 'optional', meaning: 'Whether the product works without it.', values: ['yes', 'no'] },
];

/** Of a table that is written as a mapping. */
export const TABLE_PARTS: readonly KeyDefinition[] = [
  { key: 'defaults', meaning: 'Fields of the rows of this file that do not say otherwise.' },
  { key: 'rows', meaning: 'The rows.' },
  { key: 'from', meaning: 'A CSV file that rows are read from.' },
  { key: 'id', meaning: 'Its column with the ids of the rows.' },
  { key: 'fields', meaning: 'Its column for each field.' },
  { key: 'units', meaning: 'Units of fields whose cells hold plain numbers.' },
];

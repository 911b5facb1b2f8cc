/** JSON Schema of front matter, from the language's own data: what may stand where, for editors that check YAML. */
import {
  CONNECTION_FIELDS,
  DOCUMENT_KEYS,
  type KeyDefinition,
  RAIL_FIELDS,
  ROW_FIELDS,
  TABLE_PARTS,
  VALUE_PARTS,
} from '../../grammar/front-matter';
import { DIALECT } from './configuration-reading';
import { RECORD_SHAPE, recordJsonSchema } from './read-verifications';

type JsonSchema = Readonly<Record<string, unknown>>;

const TEXT: JsonSchema = { type: ['string', 'number'] };
/** A plain scalar of YAML 1.2 may be taken for a number, yes or no, or nothing; the source text is what counts. */
const SCALAR: JsonSchema = { type: ['string', 'number', 'boolean', 'null'] };
const ENTRY: JsonSchema = { $ref: '#/definitions/entry' };
const TABLE: JsonSchema = { $ref: '#/definitions/table' };
const CONTENTS: JsonSchema = { type: 'object', additionalProperties: ENTRY };

/** Keys of other programs may stand beside those of ours. */
export function frontMatterJsonSchema(): JsonSchema {
  return {
    $schema: DIALECT,
    title: 'Front matter of a Plimsoll document',
    type: 'object',
    properties: { ...propertiesOf(DOCUMENT_KEYS, DOCUMENT_SCHEMAS), ...singleRecord() },
    dependencies: { option: ['of'] },
    definitions: {
      entry: { anyOf: [SCALAR, SET, mapping()] },
      value: valueSchema(),
      row: { ...CONTENTS, required: ['id'], properties: propertiesOf(ROW_FIELDS, { id: TEXT }) },
      rail: { ...CONTENTS, required: ['id'], properties: propertiesOf(RAIL_FIELDS, { id: TEXT }) },
      table: tableOf('row'),
      record: recordJsonSchema(),
    },
  };
}

const CURVES = VALUE_PARTS.find(({ key }) => key === 'between')?.values ?? [];
const SET: JsonSchema = { type: 'array', items: { anyOf: [SCALAR, { $ref: '#/definitions/row' }] } };
const RECORDS: JsonSchema = { type: ['array', 'null'], items: { $ref: '#/definitions/record' } };
const CONNECTION: JsonSchema = { ...CONTENTS, properties: propertiesOf(CONNECTION_FIELDS, {}) };

const DOCUMENT_SCHEMAS: Readonly<Record<string, JsonSchema>> = {
  requirements: SCALAR,
  ids: { anyOf: [TEXT, { type: 'array', items: TEXT }] },
  design: SCALAR,
  facts: { ...CONTENTS, type: ['object', 'null'] },
  parts: TABLE,
  rails: tableOf('rail'),
  connections: { type: 'array', items: CONNECTION },
  option: TEXT,
  of: TEXT,
  verification: { anyOf: [TEXT, { $ref: '#/definitions/record' }] },
  verifications: RECORDS,
};

/** Keys that stand beside `verification: TP-03`; where it is not there they are anybody's. */
function singleRecord(): JsonSchema {
  const { properties } = recordJsonSchema() as {
    readonly properties: Readonly<Record<string, { description?: string }>>;
  };
  const own = Object.keys(RECORD_SHAPE).filter((key) => key !== 'id');
  return Object.fromEntries(own.map((key) => [key, { description: properties[key]?.description }]));
}

/** What has a part of a value is one value, what has rows is a table, all else is a group of facts or a value per mode. */
function mapping(): JsonSchema {
  const has = (key: string): JsonSchema => ({ required: [key] });
  const isTable = { anyOf: [{ ...has('rows') }, { ...has('from'), properties: { from: SCALAR } }] };
  const isValue = { anyOf: ['value', 'min', 'typ', 'max', 'at', 'choices'].map(has) };
  return {
    type: 'object',
    if: isTable,
    // biome-ignore lint/suspicious/noThenProperty: a keyword of JSON Schema
    then: TABLE,
    else: {
      if: isValue,
      // biome-ignore lint/suspicious/noThenProperty: a keyword of JSON Schema
      then: { $ref: '#/definitions/value' },
      else: CONTENTS,
    },
  };
}

function valueSchema(): JsonSchema {
  return {
    type: 'object',
    properties: propertiesOf(VALUE_PARTS, {
      choices: { type: 'array', items: SCALAR },
      source: SCALAR,
      note: {},
      at: { type: 'object' },
      of: TEXT,
      between: { enum: CURVES },
    }),
    additionalProperties: false,
  };
}

function tableOf(row: string): JsonSchema {
  const rows = { type: 'array', items: { $ref: `#/definitions/${row}` } };
  const texts = { type: 'object', additionalProperties: TEXT };
  const parts = { defaults: CONTENTS, rows, from: TEXT, id: TEXT, fields: texts, units: texts };
  return {
    anyOf: [
      rows,
      {
        type: 'object',
        properties: propertiesOf(TABLE_PARTS, parts),
        additionalProperties: false,
        anyOf: [{ required: ['rows'] }, { required: ['from'] }],
      },
    ],
  };
}

function propertiesOf(keys: readonly KeyDefinition[], schemas: Readonly<Record<string, JsonSchema>>): JsonSchema {
  return Object.fromEntries(
    keys.map(({ key, meaning, values }) => [key, { description: meaning, ...(schemas[key] ?? entryOf(values)) }]),
  );
}

/** Words are offered; an expression may stand in their place. */
function entryOf(words: readonly string[] | undefined): JsonSchema {
  return words === undefined ? ENTRY : { anyOf: [{ enum: words }, ENTRY] };
}

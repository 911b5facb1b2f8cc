/** The matrix as Markdown, CSV, workbook and JSON, each read back by a library that is none of ours. */
import { parse } from 'csv-parse/sync';
import { strFromU8, unzipSync } from 'fflate';
import { fromMarkdown } from 'mdast-util-from-markdown';
import { gfmFromMarkdown } from 'mdast-util-gfm';
import { gfm } from 'micromark-extension-gfm';
import { readSheet } from 'read-excel-file/node';
import { describe, expect, test, vi } from 'vitest';
import { matrixCsv } from '../../../server/reports/matrix/csv';
import { matrixJson } from '../../../server/reports/matrix/json';
import { matrixMarkdown } from '../../../server/reports/matrix/markdown';
import type { Matrix } from '../../../server/reports/matrix/record';
import { sheetsOf } from '../../../server/reports/matrix/sheets';
import { matrixXlsx } from '../../../server/reports/matrix/xlsx';
import { HOSTILE_TEXTS, hostileFiles, matrixOfFiles, VARIED } from '../../support/matrix';

const MATRIX = matrixOfFiles(VARIED);
const HOSTILE = matrixOfFiles(hostileFiles(HOSTILE_TEXTS), HOSTILE_TEXTS[0]);

describe('CSV', () => {
  const rows = (text: string) => parse(text, { columns: true }) as readonly Readonly<Record<string, string>>[];

  test('a row a requirement, with the figures of the criterion that decides it', () => {
    const read = rows(matrixCsv(MATRIX));
    expect(read.map(({ ID }) => ID)).toEqual(MATRIX.requirements.map(({ id }) => id));
    expect(read.find(({ ID }) => ID === 'P-1')).toMatchObject({
      Verdict: 'at risk',
      'Criterion as read': 'supply.draw <= 60 W',
      Relation: '<=',
      'Limit, greatest': '60',
      'Value, least': '49.5',
      'Value, greatest': '60.5',
      Unit: 'W',
      Margin: '-0.5',
      Evidence: 'verified',
      Methods: 'test TP-01: verified, passed 2026-10-02',
      File: 'requirements.md',
      Line: '5',
    });
    expect(read.find(({ ID }) => ID === 'P-6')).toMatchObject({
      'Criterion as read': 'box.mass <= 3 kg',
      'Other criteria': 'store.days >= 7 d',
    });
  });

  test('no text begins a formula; negative numbers stay numbers', () => {
    const cells = rows(matrixCsv(HOSTILE)).flatMap((row) => Object.values(row));
    const risky = cells.filter((cell) => /^\s*[=+\-@]/.test(cell) && !/^-?\d+(?:\.\d+)?(?:e-?\d+)?$/.test(cell));
    expect(risky).toEqual([]);
    expect(cells.some((cell) => cell.startsWith("'=HYPERLINK"))).toBe(true);
    expect(matrixCsv(MATRIX)).toContain(',-0.5,W,');
  });
});

describe('workbook', () => {
  const sheet = async (matrix: Matrix, name: string) => readSheet(Buffer.from(await matrixXlsx(matrix)), name);

  test('numbers are numbers and texts are texts', async () => {
    const [head = [], ...rows] = await sheet(MATRIX, 'Requirements');
    const first = Object.fromEntries(head.map((name, index) => [name, rows[0]?.[index]]));
    expect(first).toMatchObject({ ID: 'P-1', Margin: -0.5, 'Value, greatest': 60.5, Line: 5, Unit: 'W' });
  });

  test('every sheet is there, with a header that stays and filters over all its rows', async () => {
    const files = unzipSync(await matrixXlsx(MATRIX));
    const sheets = sheetsOf(MATRIX);
    const names = [...strFromU8(files['xl/workbook.xml'] as Uint8Array).matchAll(/<sheet [^>]*name="([^"]+)"/g)];
    expect(names.map(([, name]) => name)).toEqual(sheets.map(({ name }) => name));
    for (const [index, { rows }] of sheets.entries()) {
      const xml = strFromU8(files[`xl/worksheets/sheet${index + 1}.xml`] as Uint8Array);
      expect(xml).toMatch(/<pane [^>]*ySplit="1"[^>]*state="frozen"/);
      expect(xml).toMatch(new RegExp(`</sheetData><autoFilter ref="A1:[A-Z]+${rows.length + 1}"/>`));
    }
  });

  test('is the same bytes at any time, which a reader of ZIP reads', async () => {
    const bytes = await matrixXlsx(MATRIX);
    vi.useFakeTimers({ now: new Date('2031-05-06T07:08:09Z'), toFake: ['Date'] });
    const later = await matrixXlsx(MATRIX);
    vi.useRealTimers();
    expect(Buffer.from(later).equals(Buffer.from(bytes))).toBe(true);
    const dates = new Set<string>();
    unzipSync(bytes, { filter: ({ name }) => dates.add(name).size > 0 });
    expect(dates.size).toBeGreaterThan(5);
  });

  test('hostile texts are cells of text, cut to what a cell holds, and no formula is anywhere', async () => {
    const files = unzipSync(await matrixXlsx(HOSTILE));
    for (const [path, bytes] of Object.entries(files)) {
      if (!path.startsWith('xl/worksheets/')) continue;
      expect(strFromU8(bytes)).not.toMatch(/<f[ >]/);
    }
    const titles = (await sheet(HOSTILE, 'Requirements')).map((row) => String(row[1]));
    expect(titles.some((title) => title.startsWith('=HYPERLINK'))).toBe(true);
    expect(Math.max(...titles.map(({ length }) => length))).toBeLessThanOrEqual(32_767);
  });
});

describe('Markdown', () => {
  const tree = (text: string) => fromMarkdown(text, { extensions: [gfm()], mdastExtensions: [gfmFromMarkdown()] });

  test('has a table of requirements with statement, criterion, worst case and margin', () => {
    const text = matrixMarkdown(MATRIX, { base: 'docs/' });
    expect(text).toContain(
      '| [P-1](<docs/requirements.md#L5>) | **Draw**<br>The recorder shall draw no more than 60 W from the bank (`supply.draw`). | at risk | `supply.draw <= 60 W` | 49.5 W to 60.5 W, in mode busy | -0.5 W |',
    );
    expect(text).toContain('| waived (else unmet) |');
    expect(text).toContain('neither a safety nor a compliance certificate');
  });

  test('whatever a document holds, tables keep their columns and nothing becomes HTML, a heading or an image', () => {
    const root = tree(matrixMarkdown(HOSTILE, { base: '' }));
    const kinds = new Set<string>();
    const visit = (node: { type: string; value?: string; children?: readonly unknown[] }) => {
      if (node.type !== 'html' || node.value !== '<br>') kinds.add(node.type);
      for (const child of node.children ?? []) visit(child as never);
    };
    visit(root as never);
    expect([...kinds].sort()).toEqual([
      'blockquote',
      'heading',
      'inlineCode',
      'link',
      'paragraph',
      'root',
      'strong',
      'table',
      'tableCell',
      'tableRow',
      'text',
    ]);
    const headings = root.children.filter(({ type }) => type === 'heading');
    expect(headings).toHaveLength(7);
    for (const table of root.children.filter((node) => node.type === 'table'))
      expect(new Set(table.children.map((row) => row.children.length)).size).toBe(1);
  });
});

test('JSON has the records, the statement as text, and no value that JSON cannot hold', () => {
  const json = JSON.parse(JSON.stringify(matrixJson(MATRIX)));
  expect(json.schema).toBe(1);
  expect(json.requirements[0].statement).toBe(
    'The recorder shall draw no more than 60 W from the bank (`supply.draw`).',
  );
  expect(Object.keys(json)).toEqual([
    'schema',
    'product',
    'phase',
    'date',
    'revision',
    'coverage',
    'documents',
    'requirements',
    'facts',
    'parts',
    'openPoints',
    'waivers',
  ]);
});

/** What is an id of a requirement, what only looks like one, and which is free next. */
import { describe, expect, test } from 'vitest';
import { idOfHeading, isId, nextFreeId } from '../../server/model/requirement-id';
import { processorTime } from '../support/processor-time';

describe('headings that begin with an id', () => {
  test.each([
    ['TRN-020 Retention', 'TRN-020', 'Retention'],
    ['SYS-PWR-3b Reserve', 'SYS-PWR-3b', 'Reserve'],
    ['TRN-1: Title', 'TRN-1', 'Title'],
    ['[TRN-1] Title', 'TRN-1', 'Title'],
    ['TRN-1 — Title', 'TRN-1', 'Title'],
    ['TRN-1 – Title', 'TRN-1', 'Title'],
    ['TRN-1', 'TRN-1', ''],
    ['A1-2 Title', 'A1-2', 'Title'],
  ])('%s', (text, id, title) => {
    expect(idOfHeading(text, null)).toMatchObject({ id, title, at: text.indexOf(id) });
  });

  test.each([
    'Trn-1 Title',
    'TRN1 Title',
    'TRN- 1',
    '802-3 Ethernet',
    'USB-2.0 port',
    'IEC-60529:2013',
    '[TRN-1 Title',
    'A TRN-1',
    '',
  ])('%s is none', (text) => {
    expect(idOfHeading(text, null)).toBeNull();
  });

  test('with prefixes only those count', () => {
    expect(idOfHeading('RS-485 bus', ['TRN'])).toBeNull();
    expect(isId('TRN-2', ['TRN'])).toBe(true);
    expect(isId('TRNX-2', ['TRN'])).toBe(false);
  });

  test('a long heading takes linear time', () => {
    const start = processorTime();
    idOfHeading(`${'A-'.repeat(50_000)}1 x`, null);
    idOfHeading(`${'A1-'.repeat(50_000)}x`, null);
    expect(processorTime() - start).toBeLessThan(500);
  });
});

describe('the next free id', () => {
  test.each([
    [['TRN-019', 'TRN-020'], 'TRN-021'],
    [['TRN-021', 'TRN-020'], 'TRN-022'],
    [['P-9'], 'P-10'],
    [['SYS-PWR-3b'], 'SYS-PWR-4'],
    [[], 'REQ-1'],
  ])('after %j it is %s', (ids, next) => {
    expect(nextFreeId(ids)).toBe(next);
  });
});

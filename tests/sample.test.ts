/** Tern, the sample product: what a newcomer is shown is what the documents say it shows. */
import { describe, expect, test } from 'vitest';
import { plimsoll } from './support/command-line';

const json = JSON.parse(
  plimsoll(['check', 'sample-workspace', '--format', 'json', '--date', '2026-11-20'], {
    cwd: `${import.meta.dirname}/..`,
  }).out,
);
const verdicts: Readonly<Record<string, string>> = Object.fromEntries(
  json.requirements.map(({ id, verdict }: { id: string; verdict: string }) => [id, verdict]),
);

describe('Tern', () => {
  test('has the size of a real small product', () => {
    const files = new Set(json.requirements.map(({ file }: { file: string }) => file));
    const parts = new Set(
      json.facts.flatMap(({ name }: { name: string }) => (name.startsWith('parts.') ? [name.split('.')[1]] : [])),
    );
    const design = new Set(json.facts.map(({ file }: { file: string }) => file));
    expect(json.requirements.length).toBeGreaterThanOrEqual(30);
    expect(files.size).toBeGreaterThanOrEqual(4);
    expect(parts.size).toBeGreaterThanOrEqual(20);
    expect(design.size).toBeGreaterThanOrEqual(4);
  });

  test('is honest about its problems, and has no others', () => {
    const notMet = Object.entries(verdicts).filter(([, verdict]) => verdict !== 'met');
    expect(Object.fromEntries(notMet)).toEqual({
      'TRN-001': 'open',
      'TRN-031': 'at-risk',
      'TRN-033': 'waived',
      'TRN-045': 'undecided',
      'TRN-046': 'not-applicable',
      'TRN-055': 'unmet',
    });
  });

  test('has exactly these findings, besides what is still to be verified', () => {
    const lacking = ['planned', 'untested'];
    const found = json.findings
      .filter(
        ({ severity, code }: { severity: string; code: string }) => severity !== 'hint' && !lacking.includes(code),
      )
      .map(({ code, requirement }: { code: string; requirement: string | null }) => `${code} ${requirement}`);
    expect(found.sort()).toEqual([
      'at-risk TRN-031',
      'failed TRN-054',
      'no-source null',
      'no-source null',
      'off-model TRN-054',
      'open TRN-001',
      'open-point TRN-045',
      'open-point null',
      'over-specified TRN-053',
      'partial TRN-041',
      'stale TRN-020',
      'unmet TRN-055',
      'unneeded null',
    ]);
  });

  test('says what the fast uplink costs, and that the thermometer is not needed', () => {
    const message = (wanted: string) => json.findings.find(({ code }: { code: string }) => code === wanted).message;
    expect(message('over-specified')).toContain('uplink.rate could be 2.5 Gbit/s instead of 5 Gbit/s');
    expect(message('over-specified')).toContain('that would save 15.2 EUR of cost');
    expect(message('unneeded')).toContain('parts.thermometer: nothing that is needed leans on it');
  });

  test('leaves alone the memory that looks generous, since the pre-roll leans on it', () => {
    const memory = json.requirements.find(({ id }: { id: string }) => id === 'TRN-050');
    // Headroom of 50 %, twice as much as is asked for.
    expect(memory.criteria[0].surplus).toBe(1);
    expect(memory.overSpecified).toBe(false);
    const capacity = json.facts.find(({ name }: { name: string }) => name === 'memory.capacity');
    expect(capacity.allowed).toMatchObject({ min: 8, bindsMin: 'TRN-022', unit: 'GiB' });
  });

  test('has every state of evidence, and one requirement that only evidence can prove', () => {
    const states = (wanted: string) =>
      json.requirements
        .filter(({ evidence }: { evidence: string }) => evidence === wanted)
        .map(({ id }: { id: string }) => id);
    expect(states('untested')).toEqual(['TRN-001']);
    expect(states('failed')).toEqual(['TRN-054']);
    expect(states('stale')).toEqual(['TRN-020']);
    expect(states('partial')).toEqual(['TRN-041']);
    expect(states('calculated')).toEqual(['TRN-051', 'TRN-062', 'TRN-034', 'TRN-023']);
    expect(states('planned')).toContain('TRN-031');
    expect(states('verified')).toEqual(
      expect.arrayContaining(['TRN-010', 'TRN-030', 'TRN-032', 'TRN-035', 'TRN-042', 'TRN-047']),
    );
    const colour = json.requirements.find(({ id }: { id: string }) => id === 'TRN-047');
    expect(colour).toMatchObject({ verdict: 'met', basis: 'evidence' });
    const waived = json.requirements.find(({ id }: { id: string }) => id === 'TRN-033');
    expect(waived.withoutWaiver).toBe('at-risk');
  });

  test('says where its figures come from but for two, and who is to settle what', () => {
    const messages = json.findings.flatMap(({ code, message }: { code: string; message: string }) =>
      code === 'no-source' ? [message.split(' ')[0]] : [],
    );
    expect(messages).toEqual(['processor.resistance', 'panel.converter']);
    expect(
      json.openPoints.map(({ owner, subject }: { owner: string; subject: string }) => `${owner}: ${subject}`),
    ).toEqual(['housing team: enclosure.torque', 'power team: supply.efficiency']);
  });
});

/** Published limits as verdicts with their margins: what passes, what fails, and by how much. */
import Fraction from 'fraction.js';
import { describe, expect, test } from 'vitest';
import { analyseText, verdictsOf } from '../support/analyse';

interface PublishedVerdict {
  readonly id: string;
  readonly source: string;
  readonly facts: readonly string[];
  readonly check: string;
  readonly verdict: string;
  /** In base units; null where there is none. */
  readonly margin: string | null;
}

const VERDICTS: readonly PublishedVerdict[] = [
  {
    id: 'power-60W-limit',
    source: 'margin = limit − value; 2.1 W, 15.3 W at 90 % and 4.04 W',
    facts: ['draw: = 2.1 W + 15.3 W / 0.9 + 4.04 W'],
    check: 'draw <= 60 W',
    verdict: 'met',
    margin: '36.86',
  },
  {
    id: 'gsfc-cpu-check CDR',
    source: 'GSFC-STD-1000 table 3.07-1: 40 % of the processor is left at the critical design review',
    facts: ['use: 55 %'],
    check: '1 - use >= 40 %',
    verdict: 'met',
    margin: '0.05',
  },
  {
    id: 'gsfc-cpu-check PDR',
    source: 'GSFC-STD-1000 table 3.07-1: 50 % at the preliminary design review',
    facts: ['use: 55 %'],
    check: '1 - use >= 50 %',
    verdict: 'unmet',
    margin: '-0.05',
  },
  {
    id: 'gsfc-mass-margin SRR',
    source: 'GSFC-STD-1000 Rev H, table 1.06-1: more than 15 % to the system requirements review',
    facts: ['allowable: 120 kg', 'predicted: 108 kg', 'basic: 100 kg'],
    check: '(allowable - predicted) / basic > 15 %',
    verdict: 'unmet',
    margin: '-0.03',
  },
  {
    id: 'gsfc-mass-margin PDR',
    source: 'GSFC-STD-1000 Rev H, table 1.06-1: more than 10 % to the preliminary design review',
    facts: ['allowable: 120 kg', 'predicted: 108 kg', 'basic: 100 kg'],
    check: '(allowable - predicted) / basic > 10 %',
    verdict: 'met',
    margin: '0.02',
  },
  {
    id: 'pcie-10g-nic x2',
    source: 'IEEE 802.3; PCI Express 3.0: two ports of 10 Gbit/s need 2.5 GB/s each way',
    facts: ['lanes: 2', 'link: = lanes * 8 GT/s * 128 / 130 * 1 bit/transfer'],
    check: 'link >= 2.5 GB/s',
    verdict: 'unmet',
    margin: '-55200000000/13',
  },
  {
    id: 'pcie-10g-nic x4',
    source: 'IEEE 802.3; PCI Express 3.0: four lanes are enough',
    facts: ['lanes: 4', 'link: = lanes * 8 GT/s * 128 / 130 * 1 bit/transfer'],
    check: 'link >= 2.5 GB/s',
    verdict: 'met',
    margin: '149600000000/13',
  },
  {
    id: 'sum of decimals',
    source: 'IEEE 754-2019: as doubles 0.1 + 0.2 is above 0.3',
    facts: ['a: 0.1 A', 'b: 0.2 A'],
    check: 'a + b <= 0.3 A',
    verdict: 'met',
    margin: '0',
  },
  {
    id: 'stack, worst case',
    source: 'a published stack: a gap of 0.005 in to 0.035 in against at least 0.01 in',
    facts: ['gap: = (4.020 in ± 0.005 in) - (2.000 in ± 0.005 in) - (1.500 in ± 0.003 in) - (0.500 in ± 0.002 in)'],
    check: 'gap >= 0.01 in',
    verdict: 'at risk',
    margin: '-0.000127',
  },
];

describe.each(VERDICTS)('$source', ({ id, facts, check, verdict, margin }) => {
  test(id, () => {
    const result = analyseText(facts.join('\n'), `## V-1\n- Check: \`${check}\``);
    expect(verdictsOf(result)).toEqual({ 'V-1': verdict });
    const found = result.analysis.requirements[0]?.criteria[0]?.figures?.margin ?? null;
    expect(found && new Fraction(found.numerator, found.denominator).toFraction()).toBe(
      margin && new Fraction(margin).toFraction(),
    );
  });
});

describe('what cannot be compared is refused', () => {
  // SI Brochure, 9th ed., 5.4 (quantity calculus), from memory.
  test.each(['3 m + 2 s <= 5 m', '60 W <= 5 A', '5 EUR + 5 USD <= 10 EUR'])('%s', (check) => {
    const result = analyseText('a: 1', `## V-1\n- Check: \`${check}\``);
    expect(verdictsOf(result)).toEqual({ 'V-1': 'undecided' });
    expect(result.findings.map(({ code }) => code)).toContain('unit-mismatch');
  });

  test('8 bit and 1 B are equal (IEC 80000-13)', () => {
    expect(verdictsOf(analyseText('a: 8 bit', '## V-1\n- Check: `a = 1 B`'))).toEqual({ 'V-1': 'met' });
  });
});

/** Published and worked values that a design's figures must come to. "From memory" where the source was not at hand. */

/** One figure: the design facts, what is computed of them, and what it must be. */
export interface PublishedCheck {
  readonly id: string;
  readonly facts: Readonly<Record<string, string>>;
  readonly result: string;
  /** Its least and greatest value, decimals or fractions; one value where they are the same. */
  readonly low: string;
  readonly high?: string;
  readonly unit: string;
  /** Relative slack; exact without it. */
  readonly within?: number;
}

export interface PublishedGroup {
  readonly source: string;
  readonly checks: readonly PublishedCheck[];
}

function check(
  id: string,
  facts: Readonly<Record<string, string>>,
  result: string,
  value: string | readonly [low: string, high: string],
  unit: string,
  within?: number,
): PublishedCheck {
  const [low, high] = typeof value === 'string' ? [value, value] : value;
  return { id, facts, result, low, high, unit, ...(within !== undefined && { within }) };
}

export const EXACTNESS: readonly PublishedGroup[] = [
  {
    source: 'decimal arithmetic (IEEE 754-2019: the double sum of 0.1 and 0.2 is not 0.3)',
    checks: [
      check('iv-0.1-0.2', { a: '0.1', b: '0.2' }, 'a + b', '0.3', '1'),
      check('third', { a: '3 W' }, 'a * (1 / 3)', '1', 'W'),
    ],
  },
  {
    source: 'SI Brochure, 9th ed., table 4: products and quotients of derived units, from memory',
    checks: [
      check('dim-der-VA-W', { u: '5 V', i: '12 A' }, 'u * i', '60', 'W'),
      check('dim-der-W-s-J', { p: '10 W', t: '10 s' }, 'p * t', '100', 'J'),
      check('dim-der-ohm', { u: '5 V', i: '20 mA' }, 'u / i', '250', 'Ω'),
      check('dim-juxtaposition', {}, '5 V / 20 mA', '250', 'Ω'),
      check('dim-der-F', { q: '1 C', u: '1 V' }, 'q / u', '1', 'F'),
      check('dim-der-Hz-bit', { f: '156.25 MHz', w: '64 bit' }, 'f * w', '10000000000', 'bit/s'),
      check('dim-der-W-per-K', { rise: '65 K', p: '26 W' }, 'rise / p', '2.5', 'K/W'),
    ],
  },
  {
    source: 'IEC 80000-13: bytes, bits and binary multiples',
    checks: [
      check('mb-vs-Mb', { size: '100 MB', rate: '100 Mb/s' }, 'size / rate', '8', 's'),
      check('gb-gib-64', { size: '64 GB' }, 'size', '59.604644775390625', 'GiB'),
      check('tb-tib-1', { size: '1 TB' }, 'size', '931.322574615478515625', 'GiB'),
      check('floppy-mixed', { sector: '512 B' }, '2 * 80 * 18 * sector', '1440', 'KiB'),
    ],
  },
];

export const TOLERANCES: readonly PublishedGroup[] = [
  {
    source:
      'interval dependency (Moore, Kearfott & Cloud, Introduction to Interval Analysis, 2009, ch. 2), from memory',
    checks: [
      check('dep-x-x', { x: '1 to 2' }, 'x - x', '0', '1'),
      check('unc-self-sub', { x: '10 ± 1' }, 'x - x', '0', '1'),
      check('unc-indep-sub', { x: '10 ± 1', y: '10 ± 1' }, 'x - y', ['-2', '2'], '1'),
      check('dep-x2x', { x: '-1 to 1' }, 'x^2 + x', ['-1/4', '2'], '1', 1e-9),
      check('dep-x-times-x', { x: '-1 to 1' }, 'x * x + x', ['-1/4', '2'], '1', 1e-9),
    ],
  },
  {
    source:
      'a published worked example of worst-case tolerance stacks (a housing with three parts; gap 0.005 to 0.035 in)',
    checks: [
      check(
        'stack-housing',
        {
          housing: '4.020 in ± 0.005 in',
          a: '2.000 in ± 0.005 in',
          b: '1.500 in ± 0.003 in',
          c: '0.500 in ± 0.002 in',
        },
        'housing - a - b - c',
        ['0.005', '0.035'],
        'in',
      ),
      check('stack-ten', { part: '0 mm ± 0.1 mm' }, `${'(0 mm ± 0.1 mm) + '.repeat(9)}part`, ['-1', '1'], 'mm'),
    ],
  },
  {
    source: 'extreme value analysis of circuits (ECSS-Q-HB-30-01, from memory; values computed)',
    checks: [
      check(
        'divider-wc',
        { input: '5 V', upper: '10 kΩ ± 1 %', lower: '20 kΩ ± 1 %' },
        'input * lower / (upper + lower)',
        ['990/299', '1010/301'],
        'V',
      ),
      check(
        'parallel-wc',
        { first: '10 kΩ ± 5 %', second: '10 kΩ ± 5 %' },
        'first * second / (first + second)',
        ['4750', '5250'],
        'Ω',
      ),
      check('led', { supply: '5 V', drop: '2 V', current: '20 mA' }, '(supply - drop) / current', '150', 'Ω'),
      check('led-power', { supply: '5 V', drop: '2 V', current: '20 mA' }, '(supply - drop) * current', '0.06', 'W'),
    ],
  },
  {
    source: 'a published worked example of worst-case analysis: v = √(v₀² + 2 a x), 17.98 m/s to 21.09 m/s',
    checks: [
      check(
        'wca-speed',
        { start: '2 m/s ± 10 %', rate: '0.2 m/s^2', way: '{min: 0.8 km, typ: 1 km, max: 1.1 km}' },
        'sqrt(start^2 + 2 * rate * way)',
        ['17.97887649437528', '21.091230405075944'],
        'm/s',
        1e-12,
      ),
    ],
  },
  {
    source: 'a published lesson on measurement: 10 ± 1 mm by 5 ± 1 mm is 36 to 66 mm²',
    checks: [check('rect-area', { a: '10 mm ± 1 mm', b: '5 mm ± 1 mm' }, 'a * b', ['36', '66'], 'mm^2')],
  },
  {
    source: 'ISO 286-1 and -2:2010, 18 mm to 30 mm: H7 and g6, from memory',
    checks: [
      check(
        'tol-iso286-h7',
        { hole: '25 mm +0.021 mm / -0 mm', shaft: '{min: 24.980 mm, max: 24.993 mm}' },
        'hole - shaft',
        ['0.007', '0.041'],
        'mm',
      ),
      check('tol-asym', { rail: '5 V +0.1 V / -0.05 V' }, 'rail', ['4.95', '5.1'], 'V'),
    ],
  },
  {
    source: 'IEEE 802.3 clause 22 and RFC 5180, appendix A: clocks of ±100 ppm; arithmetic',
    checks: [
      check('ppm-range', { clock: '25 MHz ± 50 ppm' }, 'clock', ['24998750', '25001250'], 'Hz'),
      check('eth-ppm-100', { rate: '1 Gbit/s ± 100 ppm' }, 'rate', ['999900000', '1000100000'], 'bit/s'),
      check(
        'pll-100x50',
        { reference: '100 MHz ± 20 ppm', factor: '50' },
        'reference * factor',
        ['4999900000', '5000100000'],
        'Hz',
      ),
      check('ppm-10-day', { error: '10 ppm' }, 'error * 1 d', '0.864', 's'),
      check('ppm-30-day', { error: '30 ppm' }, 'error * 1 d', '2.592', 's'),
      check('ppm-50-day', { error: '50 ppm' }, 'error * 1 d', '4.32', 's'),
      check('ppm-100-year', { error: '100 ppm' }, 'error * 365 d', '52.56', 'min'),
      check('rtc-2-15', { crystal: '32.768 kHz' }, 'crystal / 2^15', '1', 'Hz'),
    ],
  },
  {
    source: 'JEDEC JESD51-2: Tj = Ta + θJA × P, from memory',
    checks: [
      check('thermal-tj1', { ambient: '85 °C', theta: '20 K/W', power: '2 W' }, 'ambient + theta * power', '125', '°C'),
      check(
        'thermal-tj2',
        { ambient: '60 °C', theta: '12.5 K/W', power: '4.8 W' },
        'ambient + theta * power',
        '120',
        '°C',
      ),
      check(
        'thermal-interval',
        { ambient: '-40 °C to 85 °C', theta: '{min: 18 K/W, typ: 20 K/W, max: 22 K/W}', power: '1.5 W to 2 W' },
        'ambient + theta * power',
        ['-13', '129'],
        '°C',
      ),
    ],
  },
];

export const POWER: readonly PublishedGroup[] = [
  {
    source: 'η = P out / P in; W h = V × A h',
    checks: [
      check('buck-input', { out: '3.3 V', load: '2 A', efficiency: '90 %' }, 'out * load / efficiency', '22/3', 'W'),
      check(
        'buck-current',
        { out: '3.3 V', load: '2 A', efficiency: '90 %', input: '12 V' },
        'out * load / efficiency / input',
        '11/18',
        'A',
      ),
      check(
        'buck-loss',
        { out: '3.3 V', load: '2 A', efficiency: '90 %' },
        'out * load / efficiency - out * load',
        '11/15',
        'W',
      ),
      check('battery', { volts: '3.6 V', charge: '2.6 Ah' }, 'volts * charge', '9.36', 'Wh'),
      check('battery-J', { volts: '3.6 V', charge: '2600 mAh' }, 'volts * charge', '33696', 'J'),
      check(
        'battery-hours',
        { volts: '3.6 V', charge: '2.6 Ah', load: '0.5 W' },
        'volts * charge / load',
        '18.72',
        'h',
      ),
    ],
  },
  {
    source: 'USB Power Delivery R3.1, fixed supplies; USB 2.0 and Type-C ports from memory',
    checks: [
      check('usb-pd-5v-3a', { volts: '5 V', current: '3 A' }, 'volts * current', '15', 'W'),
      check('usb-pd-9v-3a', { volts: '9 V', current: '3 A' }, 'volts * current', '27', 'W'),
      check('usb-pd-20v-5a', { volts: '20 V', current: '5 A' }, 'volts * current', '100', 'W'),
      check('usb-pd-36v-5a', { volts: '36 V', current: '5 A' }, 'volts * current', '180', 'W'),
      check('usb-port-usb2-lp', { volts: '5 V', current: '100 mA' }, 'volts * current', '0.5', 'W'),
    ],
  },
  {
    source: 'IEEE 802.3-2018 table 33-1 and 802.3bt-2018 clause 145: P − (P / V min)² × R of the channel',
    checks: [
      check(
        'poe-class1',
        { supply: '4 W', volts: '44 V', channel: '20 Ω' },
        'supply - (supply / volts)^2 * channel',
        '3.834710743801653',
        'W',
        1e-12,
      ),
      check(
        'poe-class4',
        { supply: '30 W', volts: '50 V', channel: '12.5 Ω' },
        'supply - (supply / volts)^2 * channel',
        '25.5',
        'W',
      ),
      check(
        'poe-class6',
        { supply: '60 W', volts: '50 V', channel: '6.25 Ω' },
        'supply - (supply / volts)^2 * channel',
        '51',
        'W',
      ),
      check(
        'poe-class7',
        { supply: '75 W', volts: '52 V', channel: '6.25 Ω' },
        'supply - (supply / volts)^2 * channel',
        '61.99842825443787',
        'W',
        1e-12,
      ),
      check('poe-budget-48port', { ports: '48', each: '30 W' }, 'ports * each', '1440', 'W'),
      check('poe-ports-served', { bank: '740 W', each: '30 W' }, 'floor(bank / each)', '24', '1'),
    ],
  },
  {
    source: 'IPC-2221A section 6.2 (one of two sets of constants in circulation); IEC 60028 for copper, from memory',
    checks: [
      check(
        'cu-resistance',
        { length: '100 mm', width: '0.25 mm', thickness: '35 µm', resistivity: '1.72e-8 Ω·m' },
        'resistivity * length / (width * thickness)',
        '0.1965714285714286',
        'Ω',
        1e-12,
      ),
    ],
  },
  {
    source: 'JCGM 100:2008 F.2.2.1: resolution and its uncertainty, from memory',
    checks: [
      check('adc-lsb', { reference: '3.3 V', bits: '12' }, 'reference / 2^bits', '0.8056640625', 'mV'),
      check('adc-u', { reference: '3.3 V' }, 'reference / 2^12 / sqrt(12)', '0.23257518168039126', 'mV', 1e-12),
    ],
  },
  {
    source: 'arithmetic: availability in a year of 365 days',
    checks: [
      check('avail-5nines', { availability: '99.999 %' }, '(100 % - availability) * 365 d', '5.256', 'min'),
      check('avail-995', { availability: '99.5 %' }, '(1 - availability) * 365 d', '43.8', 'h'),
    ],
  },
];

export const RATES: readonly PublishedGroup[] = [
  {
    source: 'RFC 5180 (May 2008), appendix A.1: line rate / (8 × (size + 20)), rounded down',
    checks: [
      ['64', '148809'],
      ['128', '84459'],
      ['256', '45289'],
      ['512', '23496'],
      ['1024', '11973'],
      ['1280', '9615'],
      ['1518', '8127'],
      ['1522', '8106'],
      ['2048', '6044'],
      ['4096', '3036'],
      ['8192', '1522'],
      ['9216', '1353'],
    ].map(([size, frames]) =>
      check(
        `rfc5180-100M-${size}`,
        { line: '100 Mbit/s', size: `${size} B` },
        'floor(line / (size + 20 B) * 1 s)',
        `${frames}`,
        '1',
      ),
    ),
  },
  {
    source: 'IEEE 802.3: preamble, frame, gap; RFC 5180, appendix A.1 for the rates',
    checks: [
      check('eth-fps-64-1G', { line: '1 Gbit/s' }, 'floor(line / 84 B * 1 s)', '1488095', '1'),
      check('eth-fps-64-10G', { line: '10 Gbit/s' }, 'floor(line / 84 B * 1 s)', '14880952', '1'),
      check('eth-tag-1522', { line: '10 Gbit/s' }, 'floor(line / 1542 B * 1 s)', '810635', '1'),
      check('eth-payload-1500', { payload: '1500 B' }, 'payload / (payload + 38 B)', '750/769', '1'),
      check('eth-tcp-1448', { line: '1 Gbit/s' }, 'line * 1448 / 1538', '724000000000/769', 'bit/s'),
    ],
  },
  {
    source: 'IEEE 802.3 clauses 24, 36, 49, 107, 127: data rate × line code',
    checks: [
      check('line-1000basex', { data: '1 Gbit/s' }, 'data * 10 / 8 * 1 symbol/bit', '1.25', 'GBd'),
      check('line-2500basex', { data: '2.5 Gbit/s' }, 'data * 10 / 8 * 1 symbol/bit', '3.125', 'GBd'),
      check('line-100basex', { data: '100 Mbit/s' }, 'data * 5 / 4 * 1 symbol/bit', '0.125', 'GBd'),
      check('line-5gbaser', { data: '5 Gbit/s' }, 'data * 66 / 64 * 1 symbol/bit', '5.15625', 'GBd'),
      check('line-10gbaser', { data: '10 Gbit/s' }, 'data * 66 / 64 * 1 symbol/bit', '10.3125', 'GBd'),
      check('line-25gbaser', { data: '25 Gbit/s' }, 'data * 66 / 64 * 1 symbol/bit', '25.78125', 'GBd'),
    ],
  },
  {
    source: 'IEEE 802.3 clauses 22, 35, 46 and the RMII and RGMII specifications, from memory',
    checks: [
      check('mii-rmii', { clock: '50 MHz', width: '2 bit' }, 'clock * width', '100', 'Mbit/s'),
      check('mii-rgmii', { clock: '125 MHz', width: '4 bit' }, 'clock * width * 2', '1', 'Gbit/s'),
      check('mii-xgmii64', { clock: '156.25 MHz', width: '64 bit' }, 'clock * width', '10', 'Gbit/s'),
      check('mii-mii10', { clock: '2.5 MHz', width: '4 bit' }, 'clock * width', '10', 'Mbit/s'),
    ],
  },
  {
    source: 'PCI Express Base Specification 1.0 to 5.0: rates and encodings',
    checks: [
      check('pcie-gen1-x1', { lane: '2.5 GT/s' }, 'lane * 0.8 * 1 bit/transfer', '250', 'MB/s'),
      check('pcie-gen2-x1', { lane: '5 GT/s' }, 'lane * 0.8 * 1 bit/transfer', '500', 'MB/s'),
      check('pcie-gen3-x1', { lane: '8 GT/s' }, 'lane * 128 / 130 * 1 bit/transfer', '12800/13', 'MB/s'),
      check(
        'pcie-narrow',
        { lane: '8 GT/s', lanes: '2' },
        'lane * lanes * 128 / 130 * 1 bit/transfer',
        '25600/13',
        'MB/s',
      ),
    ],
  },
  {
    source: 'JEDEC JESD79-3, -4, -5 and JESD209-4: data rates; DDR5 and LPDDR4 from memory',
    checks: [
      check('mem-DDR3-1600', { rate: '1600 MT/s', width: '64 bit/transfer' }, 'rate * width', '12800', 'MB/s'),
      check('mem-DDR4-2133', { rate: '2133 MT/s', width: '64 bit/transfer' }, 'rate * width', '17064', 'MB/s'),
      check('mem-DDR4-3200', { rate: '3200 MT/s', width: '64 bit/transfer' }, 'rate * width', '25600', 'MB/s'),
      check('mem-DDR5-4800', { rate: '4800 MT/s', width: '64 bit/transfer' }, 'rate * width', '38400', 'MB/s'),
      check('mem-LPDDR4-4266x32', { rate: '4266 MT/s', width: '32 bit/transfer' }, 'rate * width', '17064', 'MB/s'),
      check('mem-DDR3-2133-exact', { width: '64 bit/transfer' }, '6400 MT/s / 3 * width', '51200/3', 'MB/s'),
      check('mem-ecc-width', { bus: '72 bit', data: '64 bit' }, 'bus / data', '1.125', '1'),
    ],
  },
  {
    source: 'SATA 2.x and 3.x, USB 2.0 and 3.2, TIA-232 framing, CTA-861 VIC 16, ISO 11898-1, from memory',
    checks: [
      check('rate-sata3', { line: '6 Gbit/s' }, 'line * 8 / 10', '600', 'MB/s'),
      check('rate-sata2', { line: '3 Gbit/s' }, 'line * 8 / 10', '300', 'MB/s'),
      check('usb-rate-usb32-g1', { line: '5 Gbit/s' }, 'line * 8 / 10', '4000', 'Mbit/s'),
      check('rate-uart-115200', { line: '115200 Bd' }, 'line / 10 symbol * 1 B', '11520', 'B/s'),
      check('rate-uart-8E2', { line: '115200 Bd' }, 'line / 12 symbol * 1 B', '9600', 'B/s'),
      check('rate-uart-9600', { line: '9600 Bd' }, 'line / 10 symbol * 1 B', '960', 'B/s'),
      check('rate-qspi-80', { clock: '80 MHz' }, 'clock * 4 bit', '40', 'MB/s'),
      check('rate-hdmi', { refresh: '60 Hz' }, '2200 * 1125 * refresh', '148.5', 'MHz'),
      check('rate-video-24', { refresh: '60 Hz' }, '1920 * 1080 * 24 bit * refresh', '2.985984', 'Gbit/s'),
      check('rate-can-classic', { line: '500 kbit/s' }, 'line / 135 bit', '100000/27', 'Hz'),
    ],
  },
];

export const BUDGETS: readonly PublishedGroup[] = [
  {
    source: 'GSFC-STD-1000 Rev H, table 1.06-1: (allowable − predicted) / basic',
    checks: [
      check(
        'gsfc-mass-margin',
        { allowable: '120 kg', predicted: '108 kg', basic: '100 kg' },
        '(allowable - predicted) / basic',
        '12',
        '%',
      ),
    ],
  },
  {
    source: 'a published mass budget of a small satellite, with growth allowances a row (AIAA S-120A)',
    checks: [
      check(
        'mass-growth-rollup',
        {},
        '280 g * 1.05 + 24 g * 1.05 + 48 g * 1.05 + 10 g * 1.05 + 30 g * 1.15 + 72 g * 1.05 + 8 g * 1.05',
        '498.6',
        'g',
      ),
    ],
  },
  {
    source: 'arithmetic of money, rounded once and at the end only',
    checks: [check('cost-rollup', {}, '3 * 1.35 EUR + 12 * 0.042 EUR + 1 * 18.90 EUR', '23.454', 'EUR')],
  },
];

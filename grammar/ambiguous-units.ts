/** Words that the trade uses for more than one unit: they are refused, with the unambiguous spellings to choose from. */

/** [words separated by commas, what to write instead]. Sources of the sizes: NIST SP 811 (2008), appendix B.8. */
export const AMBIGUOUS_UNITS: readonly (readonly [words: string, message: string])[] = [
  [
    'hp, HP, horsepower',
    'can be 745.7 W (550 ft·lbf/s), 735.5 W (metric) or 746 W (electric): write hp_550, hp_metric or hp_electric',
  ],
  [
    'cal, calorie, calories',
    'can be 4.184 J (thermochemical) or 4.1868 J (International Table): write cal_th or cal_IT',
  ],
  [
    'Cal, kcal, kilocalorie, kilocalories',
    'can be 4184 J (thermochemical) or 4186.8 J (International Table): write kcal_th or kcal_IT',
  ],
  ['Btu, BTU', 'can be 1055.06 J (International Table) or 1054.35 J (thermochemical): write Btu_IT or Btu_th'],
  ['ton, tons', 'can be 1000 kg, 2000 lb or 2240 lb: write t, ton_US or ton_UK'],
  ['gal, gallon, gallons', 'can be 3.785 L (US) or 4.546 L (imperial): write gal_US or gal_UK'],
  ['pint, pints, pt, quart, quarts, qt', 'differs between the US and the UK: write mL or L'],
  ['month, months, mo', 'has no fixed length: write days (30 d) or years (1/12 year is 30.4375 d)'],
  ['pound, pounds', 'can be mass, force or money: write lb, lbf or GBP'],
  ['dollar, dollars, $', 'can be many currencies: write the ISO 4217 code, for example USD or AUD'],
  ['KB, Kbyte, Kbytes', 'can be 1000 or 1024 bytes: write kB or KiB'],
  ['Kb, Kbit, Kbits', 'can be 1000 or 1024 bits: write kbit or Kibit'],
  ['Kbps', 'can be 1000 or 1024 bit/s: write kbit/s or Kibit/s'],
  ['G', 'can be gauss or standard gravity: write Gs or gn'],
  ['kt, kts', 'can be knots or kilotonnes: write kn or 1000 t'],
  ['mb', 'can be millibar or megabit: write mbar or Mbit'],
];

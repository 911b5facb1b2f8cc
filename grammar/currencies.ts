/** Money: the codes and signs that a figure may carry. */

/**
 * Active alphabetic codes of ISO 4217, list one (from memory). Left out: the codes for testing and for no
 * currency, and AWG (Aruban florin), which in this trade is the American wire gauge: a florin there would be a wrong reading.
 */
export const CURRENCY_CODES: readonly string[] = [
  'AED AFN ALL AMD AOA ARS AUD AZN BAM BBD BDT BHD BIF BMD BND BOB BOV BRL BSD BTN BWP BYN BZD',
  'CAD CDF CHE CHF CHW CLF CLP CNY COP COU CRC CUP CVE CZK DJF DKK DOP DZD EGP ERN ETB EUR FJD FKP',
  'GBP GEL GHS GIP GMD GNF GTQ GYD HKD HNL HTG HUF IDR ILS INR IQD IRR ISK JMD JOD JPY KES KGS KHR KMF KPW KRW KWD',
  'KYD KZT LAK LBP LKR LRD LSL LYD MAD MDL MGA MKD MMK MNT MOP MRU MUR MVR MWK MXN MXV MYR MZN NAD NGN NIO NOK NPR',
  'NZD OMR PAB PEN PGK PHP PKR PLN PYG QAR RON RSD RUB RWF SAR SBD SCR SDG SEK SGD SHP SLE SOS SRD SSP STN SVC SYP',
  'SZL THB TJS TMT TND TOP TRY TTD TWD TZS UAH UGX USD USN UYI UYU UYW UZS VED VES VND VUV WST XAF XAG XAU XBA XBB',
  'XBC XBD XCD XCG XDR XOF XPD XPF XPT XSU XUA YER ZAR ZMW ZWG',
].flatMap((line) => line.split(' '));

/** Signs and names that stand for one code (common practice, no source). A bare `$` or "dollars" stands for none. */
export const CURRENCY_SIGNS: ReadonlyMap<string, string> = new Map([
  ['€', 'EUR'],
  ['£', 'GBP'],
  ['¥', 'JPY'],
  ['US$', 'USD'],
  ['A$', 'AUD'],
  ['AU$', 'AUD'],
  ['C$', 'CAD'],
  ['CA$', 'CAD'],
  ['NZ$', 'NZD'],
  ['HK$', 'HKD'],
  ['S$', 'SGD'],
  ['euro', 'EUR'],
  ['euros', 'EUR'],
]);

/** What everyone who reads a verdict has to know of it; shown on pages, beside safety requirements, and in the README. */

export const CAUTIONS: readonly string[] = [
  'The figures are those that the authors of the design declared; whether they are true is not checked.',
  'A met verdict is no certificate of safety or of compliance.',
  'Mains, batteries, lasers, radio, and whatever else can hurt someone, need review by qualified people under the applicable standards and local codes.',
];

/** Stands beside every requirement with `Safety: yes`. */
export const SAFETY_CAUTION =
  'A safety requirement: calculation alone does not prove it. Have it reviewed by qualified people under the applicable standards and local codes.';

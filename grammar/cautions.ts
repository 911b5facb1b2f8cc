/** What every page and hand-over says of its figures. */

export const CAUTIONS: readonly string[] = [
  'The figures here are declared by the authors of the design.',
  'A met verdict is neither a safety nor a compliance certificate.',
  'Mains, batteries, lasers, radio and anything that can hurt someone need review by qualified people under the applicable standards and local codes.',
];

/** What a requirement with `Safety: yes` says in its own row. */
export const SAFETY_CAUTION =
  'Safety requirement: it is never proved by calculation alone, and needs review by qualified people under the applicable standards and local codes.';

/** Texts that other formats can hold: what a document may contain and no encoding or XML can. */

const REPLACEMENT = '\uFFFD';

/** Without lone surrogates, which UTF-8 cannot hold (Unicode Standard, 3.9, D76). */
export function wellFormed(text: string): string {
  return text.replace(/\p{Surrogate}/gu, REPLACEMENT);
}

/** Without what XML 1.0 has no character for (2.2, Char), lone surrogates among them. */
export function xmlText(text: string): string {
  // biome-ignore lint/suspicious/noControlCharactersInRegex: these are the characters meant
  return wellFormed(text).replace(/[\u0000-\u0008\u000B\u000C\u000E-\u001F\uFFFE\uFFFF]/g, REPLACEMENT);
}

/** A path with `/` as a relative reference (RFC 3986, 4.2); its parts are encoded. */
export function pathReference(path: string): string {
  const encoded = wellFormed(path).split('/').map(encodeURIComponent).join('/');
  return encoded.startsWith('/') ? `.${encoded}` : encoded;
}

/** Sentences of plain words and simple code spans, as most are, read without the parser to what the parser gives. */

export type PlainPart = { readonly type: 'text' | 'code'; readonly text: string };

/** No block starts with a letter or a code span; of inline constructs none is left (CommonMark 0.31.2, 4 and 6; GFM 0.29, 6.9). */
const PLAIN = /^(?=[\p{L}`])(?:[^\\&<>[\]*_~|@`\n\r\t\0]|(?<!`)`[^`\s](?:[^`\n\r\t\0\\|]*[^`\s])?`(?!`))*$/u;
/** Addresses become links by themselves. */
const ADDRESS = /www\.|:\/\//i;
const CODE = /`([^`]+)`/g;

/** Null where the parser must decide. */
export function plainParts(markdown: string): readonly PlainPart[] | null {
  if (!PLAIN.test(markdown) || ADDRESS.test(markdown) || /\s$/.test(markdown)) return null;
  const parts: PlainPart[] = [];
  let end = 0;
  const addText = (text: string) => {
    if (text !== '') parts.push({ type: 'text', text });
  };
  for (const match of markdown.matchAll(CODE)) {
    addText(markdown.slice(end, match.index));
    parts.push({ type: 'code', text: match[1] ?? '' });
    end = match.index + match[0].length;
  }
  addText(markdown.slice(end));
  return parts;
}

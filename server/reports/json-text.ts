/** A report as JSON in lines, piece by piece: the whole text of a great product is never held at once. */

/** Characters of one piece, about. */
const PIECE = 65_536;

/** What `JSON.stringify(report, null, 2)` gives, and a line end. */
export function* jsonText(report: Readonly<Record<string, unknown>>): Generator<string> {
  let piece = '{';
  let separator = '\n';
  for (const [key, value] of Object.entries(report)) {
    if (value === undefined) continue;
    piece += `${separator}  ${JSON.stringify(key)}: `;
    separator = ',\n';
    if (!Array.isArray(value) || value.length === 0) {
      piece += indented(value, '  ');
      continue;
    }
    let between = '[\n';
    for (const item of value) {
      piece += `${between}    ${indented(item, '    ')}`;
      between = ',\n';
      if (piece.length < PIECE) continue;
      yield piece;
      piece = '';
    }
    piece += '\n  ]';
  }
  yield separator === '\n' ? '{}\n' : `${piece}\n}\n`;
}

/** Text in JSON holds no line end of its own; nothing at all is null in a list (ECMA-262, 25.5.2.6 SerializeJSONArray). */
function indented(value: unknown, indent: string): string {
  return (JSON.stringify(value, null, 2) ?? 'null').replaceAll('\n', `\n${indent}`);
}

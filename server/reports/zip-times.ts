/** A ZIP archive whose members all bear one time, so that equal content gives equal bytes. */

/** Signatures of the records (APPNOTE.TXT 6.3.10 of the ZIP format, 4.3), read as little-endian numbers. */
const END_OF_DIRECTORY = 0x06054b50;
const DIRECTORY_ENTRY = 0x02014b50;

/** 1 January 1980, the first day that the format can say (4.4.6); midnight is 0. */
const FIRST_DAY = 0x21;

/** The same archive, its members dated to the first day of the format; one that cannot be read stays as it is. */
export function withoutTimes(archive: Uint8Array): Uint8Array {
  const bytes = archive.slice();
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const end = endOfDirectory(view);
  if (end === null) return bytes;
  const count = view.getUint16(end + 10, true);
  let entry = view.getUint32(end + 16, true);
  for (let index = 0; index < count && view.getUint32(entry, true) === DIRECTORY_ENTRY; index += 1) {
    const member = view.getUint32(entry + 42, true);
    setTime(view, entry + 12);
    setTime(view, member + 10);
    entry +=
      46 + view.getUint16(entry + 28, true) + view.getUint16(entry + 30, true) + view.getUint16(entry + 32, true);
  }
  return bytes;
}

function setTime(view: DataView, offset: number): void {
  view.setUint16(offset, 0, true);
  view.setUint16(offset + 2, FIRST_DAY, true);
}

/** It stands at the end, before a comment that is mostly not there. */
function endOfDirectory(view: DataView): number | null {
  for (let offset = view.byteLength - 22; offset >= 0; offset -= 1)
    if (view.getUint32(offset, true) === END_OF_DIRECTORY) return offset;
  return null;
}

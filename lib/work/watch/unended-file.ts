import { open, stat } from 'node:fs/promises';

/** How gzip files, zip archives (workbooks) and old workbooks begin: their last byte says nothing of lines. */
const NO_TEXT = [
  [0x1f, 0x8b],
  [0x50, 0x4b],
  [0xd0, 0xcf],
];

/** A number that was cut is a number all the same: nobody but a person can tell. */
export const PERHAPS_CUT = 'the last line has no line end; see that the file was not cut';

/** Whether a text file ends in the middle of a line: it is still being written, it was cut, or its writer leaves the last line end out. */
export async function isUnended(path: string): Promise<boolean> {
  const status = await stat(path);
  // A pipe can be read once only.
  if (!status.isFile() || status.size < 2) return false;
  const file = await open(path);
  try {
    const twoAt = async (position: number) => {
      const bytes = new Uint8Array(2);
      await file.read(bytes, 0, 2, position);
      return bytes;
    };
    const first = await twoAt(0);
    if (NO_TEXT.some(([a, b]) => first[0] === a && first[1] === b)) return false;
    const [before, last] = await twoAt(status.size - 2);
    // The last byte of a line end in UTF-16 may be a zero.
    return !isLineEnd(last!) && !(last === 0 && isLineEnd(before!));
  } finally {
    await file.close();
  }
}

function isLineEnd(byte: number): boolean {
  return byte === 0x0a || byte === 0x0d;
}

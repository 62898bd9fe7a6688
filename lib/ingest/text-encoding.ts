import { AppError } from '@/lib/contract/app-error';

export type Encoding = 'utf-8' | 'utf-16le' | 'utf-16be' | 'latin-1';

/** Share of control characters in the first bytes above which a file is no text. */
const CONTROL_SHARE_OF_BINARY = 0.01;

/**
 * The encoding of a text file from its first bytes: by byte-order mark, else UTF-8 where that is valid, else Latin-1.
 * Refuses what is no text.
 */
export function sniffEncoding(head: Uint8Array): Encoding {
  if (head.length === 0) throw unreadable('The file is empty; it needs a header line and rows below it');
  if (head[0] === 0xfe && head[1] === 0xff) return 'utf-16be';
  if (head[0] === 0xff && head[1] === 0xfe) return 'utf-16le';
  refuseBinary(head);
  try {
    // As a stream, so that a character cut by the end of the head is no fault.
    new TextDecoder('utf-8', { fatal: true }).decode(head, { stream: true });
    return 'utf-8';
  } catch {
    return 'latin-1';
  }
}

/** Turns pieces of bytes into pieces of text, without the byte-order mark; characters cut by a piece's end are kept. */
export function makeDecoder(encoding: Encoding): (bytes: Uint8Array | null) => string {
  // Not TextDecoder's "latin1", which is windows-1252 and slower; the degree, micro, and power signs are the same.
  if (encoding === 'latin-1')
    return (bytes) =>
      bytes === null ? '' : Buffer.from(bytes.buffer, bytes.byteOffset, bytes.length).toString('latin1');
  const decoder = new TextDecoder(encoding);
  return (bytes) => (bytes === null ? decoder.decode() : decoder.decode(bytes, { stream: true }));
}

function refuseBinary(head: Uint8Array): void {
  if (head[0] === 0x50 && head[1] === 0x4b && head[2] === 3 && head[3] === 4) {
    throw unreadable(
      'This is a spreadsheet or a zip archive; save the sheet as CSV, or unpack the archive first',
    );
  }
  let controls = 0;
  for (const byte of head) {
    if (byte === 0) throw unreadable('This is no text file; export the readings as CSV in UTF-8');
    if (byte < 0x20 && byte !== 0x09 && byte !== 0x0a && byte !== 0x0d) controls++;
  }
  if (controls > head.length * CONTROL_SHARE_OF_BINARY) {
    throw unreadable('This is no text file; export the readings as CSV in UTF-8');
  }
}

/** A refusal of the file as a whole. */
export function unreadable(message: string, field = 'file'): AppError {
  return new AppError('not-readable', message, [{ field, line: 1, message }]);
}

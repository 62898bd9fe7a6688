import { AppError } from '@/lib/contract/app-error';

const ZIP = [0x50, 0x4b, 3, 4];
/** Compound file (MS-CFB 2.2): an old workbook, or a new one encrypted inside it (MS-OFFCRYPTO 1.3.2). */
const COMPOUND_FILE = [0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1];
const ENCRYPTED_STREAM = Buffer.from('EncryptedPackage', 'utf16le');

export function isZip(head: Uint8Array): boolean {
  return ZIP.every((byte, i) => head[i] === byte);
}

/** Refuses a workbook of a kind that is not read, with the remedy. */
export function refuseOldWorkbook(head: Uint8Array): void {
  if (!COMPOUND_FILE.every((byte, i) => head[i] === byte)) return;
  const isEncrypted = Buffer.from(head.buffer, head.byteOffset, head.length).includes(ENCRYPTED_STREAM);
  const message = isEncrypted
    ? 'The workbook is protected by a password; save it without one'
    : 'This is an old workbook (.xls), or one protected by a password; save it as .xlsx without a password, or as CSV';
  throw new AppError('not-readable', message, [{ field: 'file', message }]);
}

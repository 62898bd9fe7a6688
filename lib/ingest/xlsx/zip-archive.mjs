// A workbook is a zip archive of XML. Nothing of it is unpacked before the directory at its end has been judged
// (APPNOTE.TXT 6.3.10, 4.3.6 to 4.3.16), and nothing is unpacked to more than that directory declares.
import { crc32, inflateRawSync } from 'node:zlib';
import { damaged, tooLarge, WorkbookFault } from './workbook-fault.mjs';

const MEBIBYTE = 1_048_576;
const END_SIGNATURE = 0x06054b50;
const ENTRY_SIGNATURE = 0x02014b50;
const LOCAL_SIGNATURE = 0x04034b50;
const END_LENGTH = 22;
const ENTRY_LENGTH = 46;
const LOCAL_LENGTH = 30;
const MAX_COMMENT = 0xffff;
/** Marks a size that stands elsewhere, as it needs more than 32 bits. */
const ZIP64 = 0xffffffff;
const ENCRYPTED = 1;
const STORED = 0;
const DEFLATED = 8;
/** Parts larger than this are held to `maxRatio` [bytes]; small ones compress as they like. */
const RATIO_FROM = MEBIBYTE;

/** @returns {{ name: string, method: number, crc: number, packed: number, size: number, at: number }[]} */
export function readDirectory(archive, limits) {
  const end = endOf(archive);
  const count = archive.readUInt16LE(end + 10);
  if (count > limits.maxEntries) throw tooLarge(`holds more than ${limits.maxEntries} parts`);
  const entries = [];
  for (let at = archive.readUInt32LE(end + 16), i = 0; i < count; i++) {
    if (at + ENTRY_LENGTH > end || archive.readUInt32LE(at) !== ENTRY_SIGNATURE) throw damaged();
    const nameLength = archive.readUInt16LE(at + 28);
    entries.push({
      name: archive.toString('utf8', at + ENTRY_LENGTH, at + ENTRY_LENGTH + nameLength),
      flags: archive.readUInt16LE(at + 8),
      method: archive.readUInt16LE(at + 10),
      crc: archive.readUInt32LE(at + 16),
      packed: archive.readUInt32LE(at + 20),
      size: archive.readUInt32LE(at + 24),
      at: archive.readUInt32LE(at + 42),
    });
    at += ENTRY_LENGTH + nameLength + archive.readUInt16LE(at + 30) + archive.readUInt16LE(at + 32);
  }
  return entries;
}

/** Refuses by the declared sizes alone what would unpack to too much. */
export function refuseBomb(entries, limits) {
  const size = entries.reduce((sum, entry) => sum + entry.size, 0);
  if (size > limits.maxUnpacked || entries.some((entry) => entry.size === ZIP64)) {
    throw tooLarge(`unpacks to more than ${limits.maxUnpacked / MEBIBYTE} MiB`);
  }
  for (const { size: unpacked, packed } of entries) {
    if (unpacked > RATIO_FROM && unpacked > packed * limits.maxRatio) {
      throw tooLarge(`holds a part that unpacks to more than ${limits.maxRatio} times its size`);
    }
  }
}

/** The bytes of one part: as many as declared, or the archive is refused. */
export function unpack(archive, { flags, method, crc, packed, size, at }) {
  if (flags & ENCRYPTED) {
    throw new WorkbookFault('not-readable', 'The workbook is protected by a password; save it without one');
  }
  if (at + LOCAL_LENGTH > archive.length || archive.readUInt32LE(at) !== LOCAL_SIGNATURE) throw damaged();
  const begin = at + LOCAL_LENGTH + archive.readUInt16LE(at + 26) + archive.readUInt16LE(at + 28);
  if (begin + packed > archive.length) throw damaged();
  const content = inflate(archive.subarray(begin, begin + packed), method, size);
  if (content.length !== size || crc32(content) !== crc) throw damaged();
  return content;
}

function inflate(packed, method, size) {
  if (method === STORED) return packed;
  if (method !== DEFLATED) throw damaged();
  try {
    return inflateRawSync(packed, { maxOutputLength: Math.max(size, 1) });
  } catch {
    throw damaged();
  }
}

function endOf(archive) {
  const last = archive.length - END_LENGTH;
  for (let at = last; at >= 0 && at >= last - MAX_COMMENT; at--) {
    if (archive.readUInt32LE(at) === END_SIGNATURE) return at;
  }
  throw damaged();
}

/** The parts as an archive that is not compressed, so that whoever reads it meets exactly what was judged here. */
export function packStored(parts) {
  const pieces = [];
  const directory = [];
  let length = 0;
  for (const { name, content } of parts) {
    const encoded = Buffer.from(name);
    directory.push(storedEntry(encoded, content, length), encoded);
    pieces.push(storedHeader(encoded, content), encoded, content);
    length += LOCAL_LENGTH + encoded.length + content.length;
  }
  const end = Buffer.alloc(END_LENGTH);
  end.writeUInt32LE(END_SIGNATURE, 0);
  end.writeUInt16LE(parts.length, 8);
  end.writeUInt16LE(parts.length, 10);
  end.writeUInt32LE(
    directory.reduce((sum, piece) => sum + piece.length, 0),
    12,
  );
  end.writeUInt32LE(length, 16);
  return Buffer.concat([...pieces, ...directory, end]);
}

function storedHeader(name, content) {
  const header = Buffer.alloc(LOCAL_LENGTH);
  header.writeUInt32LE(LOCAL_SIGNATURE, 0);
  header.writeUInt32LE(content.length, 18);
  header.writeUInt32LE(content.length, 22);
  header.writeUInt16LE(name.length, 26);
  return header;
}

function storedEntry(name, content, at) {
  const entry = Buffer.alloc(ENTRY_LENGTH);
  entry.writeUInt32LE(ENTRY_SIGNATURE, 0);
  entry.writeUInt32LE(content.length, 20);
  entry.writeUInt32LE(content.length, 24);
  entry.writeUInt16LE(name.length, 28);
  entry.writeUInt32LE(at, 42);
  return entry;
}

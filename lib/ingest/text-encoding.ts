import { AppError } from '@/lib/contract/app-error';

/** `cp850` stands for 437 too: the signs of units are the same in both. */
export type Encoding = 'utf-8' | 'utf-16le' | 'utf-16be' | 'windows-1252' | 'cp850';

/** Share of control characters in the first bytes above which a file is no text. */
const CONTROL_SHARE_OF_BINARY = 0.01;

/**
 * The encoding of a text file from its first bytes: by byte-order mark, else UTF-16 where every other byte is zero, else
 * UTF-8 where that is valid, else one of a byte per character. Digits and signs of numbers are the same bytes in all of
 * those, so that a wrong guess costs a letter of a name and never a number. Refuses what is no text.
 */
export function sniffEncoding(head: Uint8Array): Encoding {
  if (head.length === 0) throw unreadable('The file is empty; it needs a header line and rows below it');
  if (head[0] === 0xfe && head[1] === 0xff) return 'utf-16be';
  if (head[0] === 0xff && head[1] === 0xfe) return 'utf-16le';
  const unmarked = unmarkedUtf16(head);
  if (unmarked !== null) return unmarked;
  refuseBinary(head);
  try {
    // As a stream, so that a character cut by the end of the head is no fault.
    new TextDecoder('utf-8', { fatal: true }).decode(head, { stream: true });
    return 'utf-8';
  } catch {
    return byteEncoding(head);
  }
}

/** Turns pieces of bytes into pieces of text, without the byte-order mark; characters cut by a piece's end are kept. */
export function makeDecoder(encoding: Encoding): (bytes: Uint8Array | null) => string {
  // By hand, as TextDecoder is slower at the one and does not know the other.
  if (encoding === 'windows-1252') return decodeBytes(/[\x80-\x9f]/g, WINDOWS_1252);
  if (encoding === 'cp850') return decodeBytes(/[\x80-\xff]/g, CP_850);
  const decoder = new TextDecoder(encoding);
  return (bytes) => (bytes === null ? decoder.decode() : decoder.decode(bytes, { stream: true }));
}

/** Characters from 0x80 on. Windows-1252 differs from Latin-1 in these alone; five stand for nothing. */
const WINDOWS_1252 = '€\x81‚ƒ„…†‡ˆ‰Š‹Œ\x8dŽ\x8f\x90‘’“”•–—˜™š›œ\x9džŸ';
const CP_850 =
  'ÇüéâäàåçêëèïîìÄÅÉæÆôöòûùÿÖÜø£Ø×ƒáíóúñÑªº¿®¬½¼¡«»░▒▓│┤ÁÂÀ©╣║╗╝¢¥┐' +
  '└┴┬├─┼ãÃ╚╔╩╦╠═╬¤ðÐÊËÈıÍÎÏ┘┌█▄¦Ì▀ÓßÔÒõÕµþÞÚÛÙýÝ¯´\xad±‗¾¶§÷¸°¨·¹³²■\xa0';

function decodeBytes(special: RegExp, characters: string): (bytes: Uint8Array | null) => string {
  return (bytes) => {
    if (bytes === null) return '';
    const text = Buffer.from(bytes.buffer, bytes.byteOffset, bytes.length).toString('latin1');
    return text.replace(special, (character) => characters[character.charCodeAt(0) - 0x80]!);
  };
}

/** Bytes looked at for the zeros of UTF-16, an even number. */
const UTF16_BYTES = 4096;
/** Share of characters with a zero byte, on one side only, that makes a text UTF-16: letters and digits have one. */
const ZERO_SHARE_OF_UTF16 = 0.5;

function unmarkedUtf16(head: Uint8Array): Encoding | null {
  const pairs = Math.min(head.length, UTF16_BYTES) >> 1;
  let first = 0;
  let second = 0;
  for (let i = 0; i < pairs; i++) {
    if (head[2 * i] === 0) first++;
    if (head[2 * i + 1] === 0) second++;
  }
  if (first === 0 && second > pairs * ZERO_SHARE_OF_UTF16) return 'utf-16le';
  return second === 0 && first > pairs * ZERO_SHARE_OF_UTF16 ? 'utf-16be' : null;
}

/** A degree sign before C or F, or a cubic metre, as the old encodings of terminals write them: no word has those. */
const TERMINAL_UNITS = /(^|[^A-Za-z\xc0-\xff])\xf8 ?[CF]\b|\bm\xfc\/(h|s|min)\b/;
const WINDOWS_DEGREES = /\xb0 ?[CF]\b/;

function byteEncoding(head: Uint8Array): Encoding {
  const text = Buffer.from(head.buffer, head.byteOffset, head.length).toString('latin1');
  return TERMINAL_UNITS.test(text) && !WINDOWS_DEGREES.test(text) ? 'cp850' : 'windows-1252';
}

function refuseBinary(head: Uint8Array): void {
  let controls = 0;
  for (let i = 0; i < head.length; i++) {
    const byte = head[i]!;
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

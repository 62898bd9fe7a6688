import type { KeptFileType } from '@/lib/contract/cleaning-files';

const ascii = (text: string) => [...text].map((letter) => letter.charCodeAt(0));

/** First bytes by type, with the place they begin at (JFIF; PNG, ISO/IEC 15948 5.2; WebP, RFC 9649 2.4; PDF, ISO 32000-1 7.5.2). */
const SIGNATURES: { type: KeptFileType; parts: { at: number; bytes: number[] }[] }[] = [
  { type: 'image/jpeg', parts: [{ at: 0, bytes: [0xff, 0xd8, 0xff] }] },
  { type: 'image/png', parts: [{ at: 0, bytes: [0x89, ...ascii('PNG'), 0x0d, 0x0a, 0x1a, 0x0a] }] },
  {
    type: 'image/webp',
    parts: [
      { at: 0, bytes: ascii('RIFF') },
      { at: 8, bytes: ascii('WEBP') },
    ],
  },
  { type: 'application/pdf', parts: [{ at: 0, bytes: ascii('%PDF-') }] },
];

/** What a file is by its first bytes, whatever its name says; null for anything that is not kept. */
export function keptFileType(content: Uint8Array): KeptFileType | null {
  const found = SIGNATURES.find(({ parts }) =>
    parts.every(({ at, bytes }) => bytes.every((byte, index) => content[at + index] === byte)),
  );
  return found?.type ?? null;
}

import type { WorkbookLimits } from './workbook';

type Entry = {
  name: string;
  flags: number;
  method: number;
  crc: number;
  packed: number;
  size: number;
  at: number;
};

export function readDirectory(archive: Buffer, limits: Pick<WorkbookLimits, 'maxEntries'>): Entry[];
export function refuseBomb(entries: Entry[], limits: Pick<WorkbookLimits, 'maxUnpacked' | 'maxRatio'>): void;
export function unpack(archive: Buffer, entry: Entry): Buffer;
export function packStored(parts: { name: string; content: Uint8Array }[]): Buffer;

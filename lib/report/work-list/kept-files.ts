import type { CleaningFileRecord } from '@/lib/contract/cleaning-files';
import { formatNumber } from '@/lib/report/format/figure';

/** A kept file as a link says it. */
export type KeptFile = { id: number; name: string; size: string; href: string };

const KIBIBYTE = 1024;

export function keptFiles(files: readonly CleaningFileRecord[] | undefined): KeptFile[] {
  return (files ?? []).map(({ id, name, bytes }) => ({
    id,
    name,
    size: sizeInWords(bytes),
    href: `/api/v1/cleaning-files/${id}`,
  }));
}

function sizeInWords(bytes: number): string {
  const kibibytes = bytes / KIBIBYTE;
  return kibibytes < KIBIBYTE
    ? `${formatNumber(Math.max(1, kibibytes), 0)} KiB`
    : `${formatNumber(kibibytes / KIBIBYTE, 1)} MiB`;
}

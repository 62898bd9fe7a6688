import type { Withdrawn } from '@/lib/contract/withdrawal';
import { isoInZone } from '@/lib/time/local-day';

/** Who withdrew something, with the instant as the site's clocks showed it; null while it holds. */
export function withdrawnInZone(withdrawn: Withdrawn | null, timeZone: string) {
  return withdrawn === null ? null : { ...withdrawn, at: isoInZone(withdrawn.at, timeZone) };
}

import type { SupplyRecord } from '@/lib/report/records';

/**
 * What holds of everything stated: of the rows of one supply and day the last one stated, and none where that one states
 * neither price nor factor. By day within a supply.
 *
 * @param stated the oldest statement first
 */
export function suppliesInForce(stated: readonly SupplyRecord[]): SupplyRecord[] {
  const last = new Map<string, SupplyRecord>();
  for (const row of stated) last.set(JSON.stringify([row.siteId, row.supply, row.fromDay]), row);
  return [...last.values()]
    .filter(({ price, carbon }) => price !== null || carbon !== null)
    .sort((a, b) => a.siteId - b.siteId || a.supply.localeCompare(b.supply) || a.fromDay - b.fromDay);
}

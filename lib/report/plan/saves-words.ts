import { formatMoney, MISSING } from '@/lib/report/format/figure';

/** Where a unit has no price nobody can say what its cleaning saves. */
export const NO_PRICE = `${MISSING} no price`;

/** Money that a cleaning is projected to save; null: the unit has no price. */
export function savesInWords(saves: number | null, currency: string): string {
  return saves === null ? NO_PRICE : formatMoney(saves, currency);
}

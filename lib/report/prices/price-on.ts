import type { Unit } from '@/lib/contract/fleet-file';
import { formatDay } from '@/lib/report/format/time';
import type { SupplyRecord } from '@/lib/report/records';
import { factorText, priceText } from './price-words';

/** Price and factor of a day in words, and where they come from; null where nothing is stated. */
type PriceOn = { price: string | null; carbon: string | null; whence: string };

type Priced = { unit: Pick<Unit, 'energy' | 'pumping'>; supplies: readonly SupplyRecord[]; currency: string };

/** What the heat, or with `part` the work of the pumps, cost and emitted on a local day. */
export function priceOn(
  { unit, supplies, currency }: Priced,
  day: number,
  part: 'energy' | 'pumping' = 'energy',
): PriceOn {
  const stated = unit[part];
  const own = supplies.filter(({ supply, fromDay }) => supply === stated?.supply && fromDay <= day);
  const priced = own.findLast(({ price }) => price !== null);
  const counted = own.findLast(({ carbon }) => carbon !== null);
  const price = priced?.price ?? stated?.price ?? null;
  const carbon = counted?.carbon ?? stated?.carbon ?? null;
  return {
    price: price === null ? null : priceText(price, currency),
    carbon: carbon === null ? null : factorText(carbon),
    whence:
      priced !== undefined
        ? `Price of ${priced.supply} from ${formatDay(priced.fromDay)} on.`
        : price === null
          ? 'No price is known of that day.'
          : 'Price as the datasheet states it, without a date.',
  };
}

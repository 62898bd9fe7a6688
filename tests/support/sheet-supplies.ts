import type { Supply } from '@/lib/contract/fleet-file';

/** Two supplies of each site, one with a price and a factor, one with a factor in another unit. */
export const SUPPLIES_FROM = (site: string): Supply[] => [
  {
    name: `natural gas of ${site}`,
    dated: [{ from: '2026-01-01', price: { amount: 0.061, per: 'kW.h' }, carbon: { kg: 0.2, per: 'kW.h' } }],
  },
  { name: 'electricity', dated: [{ from: '2026-03-01', carbon: { kg: 55.5, per: 'GJ' } }] },
];

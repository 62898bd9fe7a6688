import { openPage } from '@/app/access/open-page';
import type { SearchParams } from '@/app/ui/preferences';
import { readPricesAddress } from '@/lib/report/prices/prices-address';
import { pricesView } from '@/lib/report/prices/prices-view';
import { readPrices } from '@/lib/work/read-prices';
import { PricesScreen } from './prices-screen';

export const metadata = { title: 'Energy prices' };

export default async function Page({ searchParams }: { searchParams: Promise<SearchParams> }) {
  const [records, given] = await Promise.all([openPage('/energy/prices').then(readPrices), searchParams]);
  return <PricesScreen view={pricesView(records, readPricesAddress(given))} />;
}

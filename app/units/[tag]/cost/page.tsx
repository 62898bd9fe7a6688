import { notFound } from 'next/navigation';
import { openPage } from '@/app/access/open-page';
import { readUnitSystem, type SearchParams } from '@/app/ui/preferences';
import { readCostAddress } from '@/lib/report/unit-cost/cost-address';
import { costView } from '@/lib/report/unit-cost/cost-view';
import { readUnit } from '@/lib/work/read-unit';
import { CostScreen } from './cost-screen';

type Props = { params: Promise<{ tag: string }>; searchParams: Promise<SearchParams> };

/** An empty stretch of time: the stored results without any readings. */
const NO_READINGS = { from: 0, to: -1 };

export default async function Page({ params, searchParams }: Props) {
  const [tag, asked] = [decodeURIComponent((await params).tag), await searchParams];
  const [records, system] = await Promise.all([
    openPage('/units/[tag]/cost').then((context) => readUnit(context, tag, NO_READINGS)),
    readUnitSystem(asked),
  ]);
  return records === null ? (
    notFound()
  ) : (
    <CostScreen view={costView(records, readCostAddress(tag, asked), system)} />
  );
}

export const generateMetadata = async ({ params }: Props) => ({
  title: `Cost of ${decodeURIComponent((await params).tag)}`,
});

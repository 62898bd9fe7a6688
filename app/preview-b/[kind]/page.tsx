import { UnitScreen } from '@/app/units/[tag]/unit-screen';
import { readUnitSystem, type SearchParams } from '@/app/ui/preferences';
import { parseUnitAddress } from '@/lib/report/unit/unit-address';
import { periodOf } from '@/lib/report/unit/unit-period';
import { unitView } from '@/lib/report/unit-view';
import { evaluateReadings } from '@/lib/core/fouling/evaluate-readings';
import { freshRecords, rowsOf, unitRecords } from '@/tests/support/unit-records';
import { withNoise } from '@/tests/support/forward-readings';

export default async function Page({ params, searchParams }: { params: Promise<{ kind: string }>; searchParams: Promise<SearchParams> }) {
  const { kind } = await params;
  const address = parseUnitAddress('HX-1', await searchParams);
  let records = kind === 'fresh' ? freshRecords() : unitRecords((readings) => {
    if (kind === 'gaps') {
      readings.hotIn.fill(Number.NaN, 1800, 1900); readings.coldOut.fill(Number.NaN, 1800, 1900);
      readings.hotFlow.fill(0, 2200, 2260); readings.coldFlow.fill(0, 2200, 2260);
      readings.coldOut[2500] = 70;
    }
  });
  if (kind !== 'fresh') {
    const { daily, trend, record, now } = records;
    const { from, to } = periodOf(address, { daily, cycles: trend?.cycles ?? [], timeZone: record.site.timeZone, now });
    const a = records.readings.time.findIndex((t) => t >= from);
    const e = records.readings.time.findIndex((t) => t >= to);
    const noisy = withNoise(records.readings, record.exchanger, 3, 0.0001);
    const readings = rowsOf(noisy, Math.max(a, 0), e < 0 ? records.readings.time.length : e);
    records = { ...records, readings, evaluation: evaluateReadings({ exchanger: record.exchanger, settings: record.settings, readings }) };
  }
  return <UnitScreen view={unitView(records, address, await readUnitSystem(await searchParams))} />;
}

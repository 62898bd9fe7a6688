import { openPage } from '@/app/access/open-page';
import type { UnitRecords } from '@/lib/report/records';
import type { UnitAddress } from '@/lib/report/unit/unit-address';
import { periodOf } from '@/lib/report/unit/unit-period';
import { readUnit } from '@/lib/work/read-unit';

/** An empty stretch of time: the stored results without any readings. */
const NO_READINGS = { from: 0, to: -1 };

/** The unit with its readings in the period the address asks for, which may hang on its cycles. */
export async function loadUnit(address: UnitAddress): Promise<UnitRecords | null> {
  const context = await openPage('/units/[tag]');
  const bare = await readUnit(context, address.tag, NO_READINGS);
  if (bare === null) return null;
  const { daily, trend, record, now } = bare;
  const { from, to } = periodOf(address, {
    daily,
    cycles: trend?.cycles ?? [],
    timeZone: record.site.timeZone,
    now,
  });
  return readUnit(context, address.tag, { from, to });
}

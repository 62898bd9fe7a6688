import type { UnitRecords } from '@/lib/report/records';
import type { UnitAddress } from '@/lib/report/unit/unit-address';
import { periodOf } from '@/lib/report/unit/unit-period';
import type { Context } from './context';
import { readUnit } from './read-unit';

/** The unit with its readings in the period an address of its page asks for, which may hang on its cycles. Null for an unknown tag. */
export function readUnitAt(context: Context, address: UnitAddress): Promise<UnitRecords | null> {
  return readUnit(context, address.tag, ({ daily, trend, record, now }) =>
    periodOf(address, { daily, cycles: trend?.cycles ?? [], timeZone: record.site.timeZone, now }),
  );
}

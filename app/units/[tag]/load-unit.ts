import { openPage } from '@/app/access/open-page';
import type { UnitRecords } from '@/lib/report/records';
import type { UnitAddress } from '@/lib/report/unit/unit-address';
import { readUnitAt } from '@/lib/work/read-unit-at';

/** The unit with its readings in the period the address asks for. */
export async function loadUnit(address: UnitAddress): Promise<UnitRecords | null> {
  return readUnitAt(await openPage('/units/[tag]'), address);
}

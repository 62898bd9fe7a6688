import { localDateTime, localInstant } from '@/lib/time/local-instant';
import { type DraftReader, orNothing } from './draft-reader';
import { CLEAN_TEST_SENSORS, type UnitDraft } from './unit-draft';

/** The clean test as far as it is filled in; undefined where nothing of it is. */
export function cleanTestDocument(read: DraftReader, { cleanTest, site }: UnitDraft) {
  const values = CLEAN_TEST_SENSORS.map((sensor) => {
    const field = `unit.cleanTest.${sensor}`;
    const typed = cleanTest[sensor];
    return [sensor, sensor.endsWith('Flow') ? read.positive(field, typed) : read.quantity(field, typed)];
  });
  const isStill = cleanTest.stated !== '' && cleanTest.at === textOf(cleanTest.stated, site.timeZone);
  const at = isStill ? cleanTest.stated : readTime(read, 'unit.cleanTest.at', cleanTest.at, site.timeZone);
  return orNothing({ at, ...Object.fromEntries(values) });
}

/** Since when the equipment is as the form says: as it was for a correction, else the time of the change. */
export function validFromDocument(read: DraftReader, { validity, site }: UnitDraft): string | undefined {
  const field = 'unit.validFrom';
  if (validity.kind === 'correction') return validity.kept === '' ? undefined : validity.kept;
  if (validity.at === '') return read.fault(field, 'say since when the equipment is as stated here');
  return readTime(read, field, validity.at, site.timeZone);
}

function textOf(instant: string, timeZone: string): string | null {
  try {
    return localDateTime(Date.parse(instant), timeZone);
  } catch {
    // A time zone that is being typed is none yet; its own field says so.
    return null;
  }
}

function readTime(read: DraftReader, field: string, typed: string, timeZone: string): string | undefined {
  if (typed === '') return undefined;
  const instant = localInstant(typed, timeZone);
  if (typeof instant === 'number') return new Date(instant).toISOString();
  return read.fault(
    field,
    instant === 'no-time'
      ? 'give day and time, such as 2026-05-04 08:00'
      : 'this local time occurs twice or never (the clocks change); give one an hour away',
  );
}

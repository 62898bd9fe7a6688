import { type CalendarCleaning, calendarOf } from './calendar';
import type { WorkRecords } from './work-records';

/** The calendar of the work list: what is planned or done, and what was called off as cancelled. */
export function calendarOfWork({ fleet, work }: WorkRecords): string {
  const units = new Map(fleet.units.map(({ record }) => [record.tag, record.unit]));
  const cleanings = work.map((piece): CalendarCleaning => {
    const unit = units.get(piece.tag);
    return {
      ...piece,
      start: piece.from,
      end: piece.to,
      service: unit?.service ?? null,
      isolation: unit?.cleaning?.isolation ?? null,
      compatibility: unit?.cleaning?.compatibility ?? null,
      standing: piece.state === 'called-off' ? 'called-off' : 'planned',
    };
  });
  return calendarOf(cleanings, { stamp: fleet.clock });
}

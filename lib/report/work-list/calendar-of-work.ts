import { type CalendarCleaning, calendarOf } from './calendar';
import { workAsDone } from './work-done';
import type { WorkRecords } from './work-records';

/** The calendar of the work list: what is planned, what was done and when in fact, and what was called off as cancelled. */
export function calendarOfWork({ fleet, work }: WorkRecords): string {
  const units = new Map(fleet.units.map((unit) => [unit.record.id, unit]));
  const cleanings = work.map((piece): CalendarCleaning => {
    const analysed = units.get(piece.unitId);
    const unit = analysed?.record.unit;
    const done = workAsDone(piece, analysed);
    return {
      ...piece,
      start: done?.from ?? piece.from,
      end: done?.to ?? piece.to,
      method: done?.method ?? piece.method,
      service: unit?.service ?? null,
      isolation: unit?.cleaning?.isolation ?? null,
      compatibility: unit?.cleaning?.compatibility ?? null,
      standing: STANDING[piece.state],
    };
  });
  return calendarOf(cleanings, { stamp: fleet.clock });
}

const STANDING = { open: 'planned', done: 'done', 'called-off': 'called-off' } as const;

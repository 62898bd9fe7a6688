import type { Unit } from '@/lib/contract/fleet-file';
import type { Quantity } from '@/lib/contract/quantity';
import { fleetToday } from '@/lib/report/cleanings/fleet-today';
import { formatDay } from '@/lib/report/format/time';
import { ucumInWords } from '@/lib/report/format/ucum-words';
import type { UnitSystem } from '@/lib/report/format/unit-system';
import { fluidInWords } from '@/lib/report/unit/datasheet';
import type { WorkRecords } from './work-records';
import { type WorkRow, workRow } from './work-row';
import { plansInWords } from './work-view';

/** One side of a unit as its datasheet states it: what is inside, how hot, under what pressure. */
export type SheetStream = { side: string; fluid: string; temperatures: string; pressure: string };

/** One cleaning as the crew takes it along. */
export type WorkSheet = {
  row: WorkRow;
  streams: SheetStream[];
  /** Null where the datasheet does not say: a line is left to write on. */
  isolation: string | null;
  compatibility: string | null;
};

export type WorkSheets = { today: string; plans: string[]; sheets: WorkSheet[] };

export const NOT_STATED = 'not stated';

/** What a crew signs before it opens a unit, and after it closes it again. */
export const SHEET_BOXES = [
  'Isolated and locked out',
  'Depressurised',
  'Drained',
  'Cooled',
  'Verified: no pressure, no flow, no heat',
  'Chemical checked against the materials',
  'Rinsed, closed and tested for leaks',
  'Locks removed, back in service',
] as const;

/** Open work as sheets to print, the earliest first. */
export function workSheets(records: WorkRecords, system: UnitSystem): WorkSheets {
  const { fleet, work } = records;
  const units = new Map(fleet.units.map(({ record }) => [record.id, record.unit]));
  return {
    today: formatDay(fleetToday(fleet)),
    plans: plansInWords(fleet),
    sheets: work
      .filter(({ state }) => state === 'open')
      .map((piece) => {
        const unit = units.get(piece.unitId)!;
        return {
          row: workRow(piece, records, system),
          streams: [streamOf(unit, 'hot'), streamOf(unit, 'cold')],
          isolation: unit.cleaning?.isolation?.trim() || null,
          compatibility: unit.cleaning?.compatibility?.trim() || null,
        };
      }),
  };
}

function streamOf(unit: Unit, side: 'hot' | 'cold'): SheetStream {
  const { design } = unit;
  const [inlet, outlet] = side === 'hot' ? [design.hotIn, design.hotOut] : [design.coldIn, design.coldOut];
  const { pressure } = unit[side];
  return {
    side: side === 'hot' ? 'Hot side' : 'Cold side',
    fluid: fluidInWords(unit[side]),
    temperatures: `${asStated(inlet)} in, ${asStated(outlet)} out`,
    pressure: pressure === undefined ? NOT_STATED : asStated(pressure),
  };
}

function asStated({ value, unit }: Quantity): string {
  return `${value} ${ucumInWords(unit)}`;
}

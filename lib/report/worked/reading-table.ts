import {
  COLD_FLOW_IS_VOLUME,
  HOT_FLOW_IS_VOLUME,
  type ReadingColumns,
} from '@/lib/core/series/reading-columns';
import type { DisplayKind } from '@/lib/report/format/display-unit';
import { formatFigureText, MISSING } from '@/lib/report/format/figure';
import type { UnitSystem } from '@/lib/report/format/unit-system';
import { SENSOR_WORDS } from '@/lib/report/format/words';
import { BALANCE_SENSORS, NONE_INFERRED, type WorkedState } from './worked-state';

/** One sensor of the reading: as read, and what closing the balance made of it. */
export type ReadingRow = {
  label: string;
  read: string;
  uncertainty: string;
  reconciled: string;
  change: string;
};

/** The six values of a reading as read, beside their reconciled values where there is an evaluation. */
export function readingTable(
  readings: ReadingColumns,
  row: number,
  { state, system }: { state: WorkedState | null; system: UnitSystem },
): ReadingRow[] {
  return BALANCE_SENSORS.map((sensor, place) => {
    const kind = kindAsRead(sensor, readings.flowBasis[row]!);
    const read = readings[sensor][row]!;
    const common = { label: SENSOR_WORDS[sensor], read: formatFigureText(read, kind, system, { digits: 5 }) };
    if (state === null) return { ...common, uncertainty: MISSING, reconciled: MISSING, change: MISSING };
    const isTemperature = kind === 'temperature';
    const after = isTemperature ? 'temperature' : 'massFlow';
    const spread = state.uncertainty[place]!;
    const change = (state.reconciled[place]! - state.measured[place]!) / spread;
    return {
      ...common,
      read: sourceOf(state, place, Number.isNaN(read)) ?? common.read,
      uncertainty: formatFigureText(spread, isTemperature ? 'temperatureDifference' : 'massFlow', system, {
        digits: 2,
      }),
      reconciled: formatFigureText(state.reconciled[place]!, after, system, { digits: 5 }),
      change: Number.isFinite(change)
        ? formatFigureText(change, 'number', system, { decimals: 2, signed: true })
        : MISSING,
    };
  });
}

/** What stands in the place of a value that no sensor gave; null where one did. */
function sourceOf(
  { inferred, nominal, model }: WorkedState,
  place: number,
  isUnread: boolean,
): string | null {
  if (place === inferred && inferred !== NONE_INFERRED) return 'not measured: inferred';
  if ((nominal & (1 << place)) !== 0) return 'not measured: typed in';
  if (!isUnread || (model.plan.known & (1 << place)) === 0) return null;
  return (model.plan.liquid & (1 << place)) === 0 ? 'by the stated pressure' : 'not measured: saturated';
}

function kindAsRead(sensor: (typeof BALANCE_SENSORS)[number], basis: number): DisplayKind {
  if (sensor !== 'hotFlow' && sensor !== 'coldFlow') return 'temperature';
  const isVolume = (basis & (sensor === 'hotFlow' ? HOT_FLOW_IS_VOLUME : COLD_FLOW_IS_VOLUME)) !== 0;
  return isVolume ? 'volumeFlow' : 'massFlow';
}

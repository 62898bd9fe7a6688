import { AppError } from '@/lib/contract/app-error';
import type { ReplacedReadings } from '@/lib/contract/replaced-readings';
import { SENSORS, type Sensor } from '@/lib/core/exchange/exchanger';
import { COLD_FLOW_IS_VOLUME, HOT_FLOW_IS_VOLUME } from '@/lib/core/series/reading-columns';
import { findBatch } from '@/lib/store/entities/batches';
import { listUnits, type StoredUnit } from '@/lib/store/entities/units';
import type { ReplacedRow } from '@/lib/store/series/series-store';
import { isoInZone } from '@/lib/time/local-day';
import type { Context } from './context';

/** Readings that are given out at once. */
const MOST_READINGS = 50_000;

type Shown = ReplacedReadings['rows'][number];

/** The values that an import replaced, as they stood before and as it left them. @throws AppError 'not-found' */
export async function showReplaced(context: Context, batch: number): Promise<ReplacedReadings> {
  const { entities, series } = context.store;
  const known = await findBatch(entities, batch);
  if (known === null) throw new AppError('not-found', `There is no import ${batch}`);
  const [rows, units] = await Promise.all([
    series.replacedReadings(batch, MOST_READINGS + 1),
    listUnits(entities),
  ]);
  const byId = new Map(units.map((unit) => [unit.id, unit]));
  return {
    batch,
    file: known.source,
    replaced: known.replaced,
    isComplete: rows.length <= MOST_READINGS,
    rows: rows.slice(0, MOST_READINGS).flatMap((row) => changedValues(row, byId.get(row.unitId)!)),
  };
}

/** A row of several sensors: only values that were there and are others since. */
function changedValues(row: ReplacedRow, { tag, site }: StoredUnit): Shown[] {
  const { time, before, after, beforeBatch, isChangedSince } = row;
  return SENSORS.flatMap((sensor, index) => {
    const [old, now] = [before[index]!, after === null ? null : after[index]!];
    const unit = unitOf(sensor, row.basisBefore);
    const unitAfter = unitOf(sensor, row.basisAfter);
    if (old === null || (after !== null && old === now && unit === unitAfter)) return [];
    return [
      {
        tag,
        time: isoInZone(time, site.timeZone),
        sensor,
        unit,
        before: old,
        after: now,
        unitAfter,
        beforeImport: beforeBatch,
        isChangedSince,
      },
    ];
  });
}

function unitOf(sensor: Sensor, basis: number): string {
  if (sensor.endsWith('PressureDrop')) return 'Pa';
  if (!sensor.endsWith('Flow')) return 'Cel';
  const bit = sensor === 'hotFlow' ? HOT_FLOW_IS_VOLUME : COLD_FLOW_IS_VOLUME;
  return (basis & bit) === 0 ? 'kg/s' : 'm3/s';
}

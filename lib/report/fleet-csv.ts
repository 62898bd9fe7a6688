import { isoDay } from '@/lib/time/calendar-day';
import type { FleetFigures } from './fleet-row';
import { csvText } from './format/csv';
import { type DisplayUnit, toDisplay } from './format/display-unit';
import { STATE_WORDS } from './format/words';

/** The line of names of the fleet's CSV. */
export function fleetCsvHead(lostUnit: DisplayUnit): string {
  const head = [
    'tag',
    'service',
    'site',
    'state',
    'allowance_used',
    'allowance_used_uncertainty',
    'over_limit_since',
    'clean_by_p10',
    'clean_by_p50',
    'clean_by_p90',
    'chance_within_horizon',
    `lost_duty[${lostUnit.ucum}]`,
    'cost_per_day',
    'currency',
    'usable_readings',
    'suspect_since',
    'probable_cleanings',
    'note',
  ];
  return csvText([head]);
}

/** Some of the shown rows, in their order, in the reader's units: a large file is made piece by piece. */
export function fleetCsvRows(rows: FleetFigures[], lostUnit: DisplayUnit): string {
  const day = (value: number | null) => (value === null ? null : isoDay(value));
  const body = rows.map((row) => [
    row.tag,
    row.service,
    row.site,
    STATE_WORDS[row.state],
    rounded(row.used, 4),
    rounded(row.usedUncertainty, 4),
    day(row.days.crossed),
    day(row.days.p10),
    day(row.days.p50),
    day(row.days.p90),
    rounded(row.withinHorizon, 3),
    row.lostDuty === null ? null : rounded(toDisplay(row.lostDuty, lostUnit), 3),
    rounded(row.perDay, 2),
    row.currency,
    rounded(row.usable, 4),
    day(row.days.suspect),
    row.probable.length,
    `${row.cleanBy.main}, ${row.cleanBy.detail}`,
  ]);
  return csvText(body);
}

function rounded(value: number | null, decimals: number): number | null {
  return value === null ? null : Number(value.toFixed(decimals));
}

import type { FleetKeys } from './fleet-row';
import { formatFigureText, formatMoney, formatNumber } from './format/figure';
import type { UnitSystem } from './format/unit-system';

/** Units whose P50 falls within this many days are counted as needing a look [days]. */
const SOON_DAYS = 30;

/**
 * What a person must look at this week, in parts to be joined: how many are over, soon due, without data; what the fleet
 * wastes now.
 */
export function fleetSummary(
  rows: readonly FleetKeys[],
  { today, system }: { today: number; system: UnitSystem },
): string[] {
  const over = rows.filter((row) => row.state === 'over-limit').length;
  const absent = rows.filter((row) => row.state === 'no-data').length;
  const soon = rows.filter((row) => isDueBy(row, today + SOON_DAYS)).length;
  const look = [
    over > 0 ? `${counted(over)} over ${over === 1 ? 'its' : 'their'} limit` : 'none over its limit',
    soon > 0
      ? `${counted(soon)} ${soon === 1 ? 'reaches' : 'reach'} it within ${SOON_DAYS} days`
      : `none reaches it within ${SOON_DAYS} days`,
    ...(absent > 0 ? [`${counted(absent)} without data`] : []),
  ].join(', ');
  const waste = wasteInWords(rows, system);
  return waste === null ? [look] : [look, waste];
}

const counted = (count: number) => formatNumber(count, 0);

function isDueBy(row: FleetKeys, day: number): boolean {
  return (
    row.state !== 'over-limit' && row.state !== 'no-data' && row.days.p50 !== null && row.days.p50 <= day
  );
}

function wasteInWords(rows: readonly FleetKeys[], system: UnitSystem): string | null {
  const known = rows.filter((row) => row.lostDuty !== null);
  if (known.length === 0) return null;
  const duty = known.reduce((sum, row) => sum + row.lostDuty!, 0);
  const money = new Map<string, number>();
  for (const row of rows)
    if (row.perDay !== null) money.set(row.currency, (money.get(row.currency) ?? 0) + row.perDay);
  const costs = [...money].map(([currency, amount]) => `${formatMoney(amount, currency)} per day`);
  const whose = known.length === rows.length ? 'the fleet' : `the ${counted(known.length)} with figures`;
  const verb = known.length === rows.length ? 'wastes' : 'waste';
  return [`${whose} ${verb} ${formatFigureText(duty, 'power', system)}`, ...costs].join(', ');
}

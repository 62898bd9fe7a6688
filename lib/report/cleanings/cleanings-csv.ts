import type { FleetCleanings } from '@/lib/contract/fleet-cleanings';
import { csvText } from '@/lib/report/format/csv';

const JOULES_PER_MWH = 3.6e9;

/** Every cleaning of the period as a row, the latest first. */
export function cleaningsCsv({ cleanings }: FleetCleanings): string {
  return csvText([
    [
      'tag',
      'service',
      'site',
      'at',
      'method',
      'fouling_before[m2.K/W]',
      'fouling_before_uncertainty',
      'fouling_after[m2.K/W]',
      'fouling_after_uncertainty',
      'share_recovered',
      'share_recovered_uncertainty',
      'partial',
      'no_result_because',
      'energy_so_far[MW.h]',
      'days_counted',
      'days_elapsed',
      'days_until_as_fouled_as_before',
      'worth_so_far',
      'cost',
      'cost_is_usual',
      'net',
      'currency',
    ],
    ...cleanings.map(({ effect, ...cleaning }) => [
      cleaning.tag,
      cleaning.service,
      cleaning.site,
      cleaning.at,
      cleaning.method,
      digits(effect?.before),
      digits(effect?.beforeUncertainty),
      digits(effect?.after),
      digits(effect?.afterUncertainty),
      digits(effect?.shareRecovered),
      digits(effect?.shareRecoveredUncertainty),
      yesNo(effect?.isPartial),
      cleaning.reason,
      digits(effect?.energySoFar == null ? null : effect.energySoFar / JOULES_PER_MWH),
      effect?.daysCounted ?? null,
      effect?.daysElapsed ?? null,
      effect?.daysUntilBack ?? null,
      cents(cleaning.worth),
      cents(cleaning.cost),
      yesNo(cleaning.isUsualCost),
      cents(cleaning.net),
      cleaning.currency,
    ]),
  ]);
}

function digits(value: number | null | undefined): number | null {
  return value == null ? null : Number(value.toPrecision(6));
}

function cents(value: number | null): number | null {
  return value === null ? null : Number(value.toFixed(2));
}

function yesNo(value: boolean | null | undefined): string | null {
  return value == null ? null : value ? 'yes' : 'no';
}

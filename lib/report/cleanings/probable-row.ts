import type { StepDown } from '@/lib/core/cycles/find-step-downs';
import { formatFigureText } from '@/lib/report/format/figure';
import { formatDay } from '@/lib/report/format/time';
import type { UnitSystem } from '@/lib/report/format/unit-system';
import type { AnalysedUnit } from '@/lib/report/records';
import { parseUnitAddress, unitHref } from '@/lib/report/unit/unit-address';

/** A fall of the fouling that nobody has explained yet, waiting for a person. */
export type ProbableRow = {
  key: string;
  tag: string;
  service: string;
  day: string;
  fell: string;
  share: string;
  /** Where it is answered. */
  href: string;
};

const DAYS_BESIDE = 45;

/** Probable cleanings of all units, the latest first. */
export function probableRows(
  fleet: readonly AnalysedUnit[],
  { system, units }: { system: UnitSystem; units: string | null },
): ProbableRow[] {
  return fleet
    .flatMap(({ record, trend }) => (trend?.probableCleanings ?? []).map((fall) => ({ record, fall })))
    .sort((a, b) => b.fall.day - a.fall.day || a.record.tag.localeCompare(b.record.tag, 'en'))
    .map(({ record, fall }) => ({
      key: `${record.tag} ${fall.day}`,
      tag: record.tag,
      service: record.unit.service ?? '',
      day: formatDay(fall.day),
      fell: formatFigureText(fall.fall, 'foulingResistance', system, { uncertainty: fall.fallUncertainty }),
      share: shareInWords(fall),
      href: unitHref(
        { ...parseUnitAddress(record.tag, {}), units },
        { period: 'custom', fromDay: fall.day - DAYS_BESIDE, toDay: fall.day + DAYS_BESIDE },
        'cycles',
      ),
    }));
}

function shareInWords({ share, fall, fallUncertainty }: StepDown): string {
  const uncertainty = share === null ? null : Math.abs((share / fall) * fallUncertainty);
  return formatFigureText(share, 'fraction', 'si', { uncertainty });
}

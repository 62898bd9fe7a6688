import { FILM_STEP, type FilmVariant } from '@/lib/core/clean/film-variants';
import { displayUnit, toDisplay } from '@/lib/report/format/display-unit';
import { formatFigureText, formatNumber, MISSING } from '@/lib/report/format/figure';
import { formatDay } from '@/lib/report/format/time';
import type { UnitSystem } from '@/lib/report/format/unit-system';
import type { FilmSensitivity } from '@/lib/report/records';

/** What hangs on the exponents and on the split of the films, one row for each assumption moved. */
export type SensitivityView = {
  lead: string;
  rows: { label: string; fouling: string; change: string; share: string }[];
};

/** Places after the first digit of the allowance. */
const PLACES = 3;

const NAMES: Record<FilmVariant['name'], string> = {
  hotExponent: 'Exponent of the hot film',
  coldExponent: 'Exponent of the cold film',
  hotShare: 'Share of the hot film',
};
const ORDER: FilmVariant['name'][] = ['hotExponent', 'coldExponent', 'hotShare'];

export function sensitivityView(sensitivity: FilmSensitivity, system: UnitSystem): SensitivityView {
  const { day, films, foulingResistance, allowance, rows } = sensitivity;
  const shown = displayUnit('foulingResistance', system, allowance ?? foulingResistance);
  const size = toDisplay(allowance ?? foulingResistance ?? shown.factor, shown);
  // Changes and values stand in the same places: a ten-thousandth of the allowance is the last.
  const decimals = PLACES - Math.floor(Math.log10(Math.abs(size) || 1));
  const text = (value: number | null, signed = false) =>
    formatFigureText(value, 'foulingResistance', system, { decimals, shown, signed });
  const share = (value: number | null) =>
    value === null || allowance === null ? MISSING : `${formatNumber((value / allowance) * 100, 0)} %`;
  const moved = [...rows].sort((a, b) => ORDER.indexOf(a.name) - ORDER.indexOf(b.name));
  return {
    lead: `Median of ${formatDay(day)}, with each exponent, and the hot film’s share of the clean resistance, moved by ${FILM_STEP} either way. A learned or tested reference is worked out anew each time from its own readings.`,
    rows: [
      {
        label: 'As they stand',
        fouling: text(foulingResistance),
        change: '',
        share: share(foulingResistance),
      },
      ...moved.map((row) => ({
        label: `${NAMES[row.name]} ${formatNumber(row.value, 2)} instead of ${formatNumber(films[row.name], 2)}`,
        fouling: text(row.foulingResistance),
        change:
          row.foulingResistance === null || foulingResistance === null
            ? MISSING
            : text(row.foulingResistance - foulingResistance, true),
        share: share(row.foulingResistance),
      })),
    ],
  };
}

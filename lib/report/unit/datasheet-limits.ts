import type { Unit } from '@/lib/contract/fleet-file';
import { formatNumber } from '@/lib/report/format/figure';
import type { UnitRecord } from '@/lib/report/records';
import { type DatasheetRow, quantityRow, wordsRow } from './datasheet-row';

/** The limits as stated: the earliest to be reached is the unit's. */
export function datasheetLimits({ unit }: UnitRecord): DatasheetRow[] {
  return unit.limits.flatMap((limit) => limitRows(limit));
}

function limitRows(limit: Unit['limits'][number]): DatasheetRow[] {
  switch (limit.kind) {
    case 'fouling-resistance':
      return [quantityRow('Fouling resistance above', limit.value, 'foulingResistance')];
    case 'cleanliness':
      return [wordsRow('Cleanliness below', `${formatNumber(limit.below * 100, 0)} %`)];
    case 'outlet-temperature': {
      const word = limit.above === undefined ? 'below' : 'above';
      const given = limit.above ?? limit.below;
      return given === undefined
        ? []
        : [quantityRow(`${title(limit.stream)} outlet ${word}`, given, 'temperature')];
    }
    case 'pressure-drop':
      return [quantityRow(`${title(limit.stream)}-side pressure drop above`, limit.above, 'pressure')];
  }
}

function title(stream: 'hot' | 'cold'): string {
  return stream === 'hot' ? 'Hot' : 'Cold';
}

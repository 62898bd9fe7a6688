import type { Limit } from '@/lib/core/exchange/exchanger';
import { formatFigureText } from '@/lib/report/format/figure';
import type { UnitSystem } from '@/lib/report/format/unit-system';

/** A limit as the object of "reaches …", with its own figure where that is not a fouling resistance. */
export function limitInWords(limit: Limit, system: UnitSystem): string {
  switch (limit.kind) {
    case 'fouling-resistance':
      return 'its fouling allowance';
    case 'cleanliness':
      return `a cleanliness of ${formatFigureText(limit.below, 'fraction', system, { digits: 2 })}`;
    case 'outlet-temperature': {
      const [word, value] = limit.above === null ? ['below', limit.below] : ['above', limit.above];
      return `a ${limit.stream} outlet ${word} ${formatFigureText(value, 'temperature', system)}`;
    }
    case 'pressure-drop':
      return `a ${limit.stream}-side pressure drop of ${formatFigureText(limit.above, 'pressure', system)}`;
  }
}

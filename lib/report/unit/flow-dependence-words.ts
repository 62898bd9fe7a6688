import type { UnitTrend } from '@/lib/core/pipeline/unit-trend';
import { formatFigureText } from '@/lib/report/format/figure';
import type { UnitSystem } from '@/lib/report/format/unit-system';

/** What of the daily figures followed the flows, and was taken out before growth was fitted; null where nothing did. */
export function flowDependenceInWords(
  { flowDependence }: Pick<UnitTrend, 'flowDependence'>,
  system: UnitSystem,
): string | null {
  if (flowDependence === null) return null;
  const parts = (['hot', 'cold'] as const)
    .filter((side) => flowDependence[side] !== 0)
    .map((side) => {
      const onDoubling = flowDependence[side] * Math.LN2;
      const figure = formatFigureText(Math.abs(onDoubling), 'foulingResistance', system, { digits: 2 });
      return `${onDoubling > 0 ? 'up' : 'down'} by ${figure} when the ${side} flow doubles`;
    });
  return `The daily fouling resistance goes ${parts.join(' and ')}. No deposit follows the flow from day to day, so the film exponents of the clean reference are off; this was taken out before growth was fitted. A reference learned with the two films apart would mend it.`;
}

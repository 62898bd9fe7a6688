import type { Side } from '@/lib/core/exchange/exchanger';
import { pressureDropAtReference } from '@/lib/core/series/pressure-drop';
import { formatFigureText } from '@/lib/report/format/figure';
import type { UnitSystem } from '@/lib/report/format/unit-system';
import { SENSOR_WORDS } from '@/lib/report/format/words';
import type { CheckedReading } from './spot-check-records';

/** A pressure drop as read, and moved to the design flow, where it can be compared with others and with its limit. */
export type PressureDropRow = { label: string; read: string; atDesignFlow: string; limit: string };

/** One row per side whose pressure drop was typed in. */
export function pressureDropRows(checked: CheckedReading, system: UnitSystem): PressureDropRow[] {
  return (['hot', 'cold'] as const).flatMap((side) => pressureDropRow(checked, side, system));
}

function pressureDropRow(
  { record, readings, evaluation }: CheckedReading,
  side: Side,
  system: UnitSystem,
): PressureDropRow[] {
  const sensor = `${side}PressureDrop` as const;
  const read = readings[sensor][0]!;
  if (!Number.isFinite(read)) return [];
  const { design, limits, pressureDropExponents } = record.exchanger;
  const flowRatio = evaluation[`${side}MassFlow`][0]! / design[`${side}Flow`];
  const atDesign = pressureDropAtReference(read, flowRatio, pressureDropExponents[side]);
  const limit = limits.find((own) => own.kind === 'pressure-drop' && own.stream === side);
  const text = (value: number | null) => formatFigureText(value, 'pressure', system);
  return [
    {
      label: SENSOR_WORDS[sensor],
      read: text(read),
      atDesignFlow: text(atDesign),
      limit: limit?.kind === 'pressure-drop' ? text(limit.above) : 'none stated',
    },
  ];
}

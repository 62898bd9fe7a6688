import type { Side } from '@/lib/core/exchange/exchanger';
import { standardUncertainty } from '@/lib/core/fouling/unit-model';
import { pressureDropAtReference } from '@/lib/core/series/pressure-drop';
import type { UnitRecords } from '@/lib/report/records';
import { exponentInWords } from '@/lib/report/unit/pressure-exponent-words';
import type { WorkedLine, WorkedStep, Writer } from './worked-step';

/** How the pressure drops of a reading are brought to the design flow; null where none is measured. */
export function pressureDropStep(records: UnitRecords, row: number, write: Writer): WorkedStep | null {
  const sides = (['hot', 'cold'] as const).filter((side) => isMeasured(records, row, side));
  if (sides.length === 0) return null;
  return {
    id: 'pressure-drop',
    title: 'Pressure drop at reference flow',
    lines: sides.map((side) => pressureDropLine(records, row, { side, write })),
    notes: sides.map((side) => exponentInWords(records.record, side, records.pressureExponents[side])),
  };
}

function isMeasured({ readings, evaluation }: UnitRecords, row: number, side: Side): boolean {
  return readings[`${side}PressureDrop`][row]! > 0 && evaluation[`${side}MassFlow`][row]! > 0;
}

function pressureDropLine(
  { record, readings, evaluation }: UnitRecords,
  row: number,
  { side, write }: { side: Side; write: Writer },
): WorkedLine {
  const { exchanger } = record;
  const letter = side === 'hot' ? 'h' : 'c';
  const measured = readings[`${side}PressureDrop`][row]!;
  const flow = evaluation[`${side}MassFlow`][row]!;
  const reference = exchanger.design[`${side}Flow`];
  const exponent = exchanger.pressureDropExponents[side];
  const scaled = pressureDropAtReference(measured, flow / reference, exponent);
  const ratio = `(frac{${write.text(reference, 'massFlow')}}{${write.text(flow, 'massFlow')}})`;
  return {
    symbols: `Δp_{${letter},ref} = Δp_{${letter}} · (frac{ṁ_{${letter},ref}}{ṁ_{${letter}}})^{m}`,
    figures: `${write.text(measured, 'pressure')} · ${ratio}^{${exponent}}`,
    result: write.text(
      scaled,
      'pressure',
      standardUncertainty(exchanger.sensors[`${side}PressureDrop`], scaled),
    ),
  };
}

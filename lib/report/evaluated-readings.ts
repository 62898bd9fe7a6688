import type { EvaluatedReading } from '@/lib/contract/readings';
import { reasonsOf } from '@/lib/core/checks/reasons';
import { SENSORS } from '@/lib/core/exchange/exchanger';
import { type EvaluationColumns, sensorsOf } from '@/lib/core/fouling/evaluation-columns';
import { MISSING_TOGETHER } from '@/lib/core/fouling/sensor-plan';

/** Evaluated readings as the contract states them: null where there is no number, reasons by name. */
export function evaluatedReadings(
  columns: EvaluationColumns,
  reference: EvaluatedReading['reference'],
): EvaluatedReading[] {
  return Array.from(columns.time, (time, i) => {
    const figure = (column: Float64Array) => (Number.isNaN(column[i]!) ? null : column[i]!);
    return {
      time: new Date(time).toISOString(),
      accepted: columns.reasons[i] === 0,
      reasons: reasonsOf(columns.reasons[i]!),
      hotDuty: figure(columns.hotDuty),
      coldDuty: figure(columns.coldDuty),
      duty: figure(columns.duty),
      balance: figure(columns.balance),
      lmtd: figure(columns.lmtd),
      correction: figure(columns.correction),
      effectiveness: figure(columns.effectiveness),
      ntu: figure(columns.ntu),
      UA: figure(columns.conductance),
      U: figure(columns.overallU),
      cleanU: figure(columns.cleanU),
      foulingResistance: figure(columns.foulingResistance),
      cleanliness: figure(columns.cleanliness),
      uncertainty: {
        duty: figure(columns.dutyUncertainty),
        U: figure(columns.overallUUncertainty),
        foulingResistance: figure(columns.foulingResistanceUncertainty),
      },
      lostDuty: figure(columns.lostDuty),
      inferred: sensorsOf(columns.inferred[i]!, SENSORS),
      nominal: sensorsOf(columns.nominal[i]!, SENSORS),
      ...missingOf(columns.missing[i]!),
      reference,
    };
  });
}

function missingOf(bits: number): Pick<EvaluatedReading, 'missing' | 'missingTogether'> {
  const missingTogether = (bits & MISSING_TOGETHER) !== 0;
  return { missing: sensorsOf(bits & ~MISSING_TOGETHER, SENSORS), missingTogether };
}

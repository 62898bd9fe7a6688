import {
  APPROACH_DAYS,
  type ConductanceCertainty,
  conductanceCertainty,
} from '@/lib/core/pipeline/close-approach';
import { formatFigureText, formatNumber } from '@/lib/report/format/figure';
import type { UnitSystem } from '@/lib/report/format/unit-system';
import type { UnitRecords } from '@/lib/report/records';

/** What the readings of the last days say of how well U can be known; empty where it is well determined. */
export function approachAdvice(
  { record, evaluation, readings, now }: UnitRecords,
  system: UnitSystem,
): string[] {
  const certainty = conductanceCertainty({ evaluation, readings, exchanger: record.exchanger, now });
  if (certainty === null || certainty.cause === null) return [];
  const known = `U is known to ± ${formatNumber(certainty.relativeUncertainty * 100, 0)} % only (one standard deviation)`;
  if (certainty.cause === 'effectiveness') return [`${effectivenessInWords(certainty)}: ${known}.`];
  const multiple = record.settings.terminalDifferenceMultiple;
  return [`${approachInWords(certainty, system)}: ${known}. ${leftOutInWords(certainty, multiple)}`];
}

function approachInWords({ approach }: ConductanceCertainty, system: UnitSystem): string {
  const { warm, cold, difference, uncertainty } = approach;
  const figure = formatFigureText(difference, 'temperatureDifference', system, { uncertainty });
  return `The approach ${endInWords(warm, cold)} is ${figure}`;
}

/** Where the two streams come closest: their cold or hot end, or with both the same way their inlets or outlets. */
function endInWords(warm: 'hotIn' | 'hotOut', cold: 'coldIn' | 'coldOut'): string {
  if (warm === 'hotIn') return cold === 'coldOut' ? 'at the hot end' : 'at the inlets';
  return cold === 'coldIn' ? 'at the cold end' : 'at the outlets';
}

function effectivenessInWords({ effectiveness, greatestEffectiveness }: ConductanceCertainty): string {
  const [own, greatest] = [effectiveness, greatestEffectiveness].map((value) => formatNumber(value, 2));
  return `The effectiveness is ${own} of at most ${greatest} in this arrangement at these flows`;
}

function leftOutInWords({ readings, tooClose }: ConductanceCertainty, multiple: number): string {
  const share = formatNumber((tooClose / readings) * 100, 0);
  return `A reading is left out below ${multiple} times that uncertainty: ${share} % of the last ${APPROACH_DAYS} days.`;
}

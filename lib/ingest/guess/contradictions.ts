import type { Sensor } from '@/lib/core/exchange/exchanger';
import { sensorUnit } from '../sensor-unit';
import type { Spread } from './column-sample';
import type { Cap } from './guess-reasons';
import type { Candidate } from './rate-column';

/** Pairs of which the first is warmer in every exchanger that works. */
const WARMER: [warm: Sensor, cool: Sensor, words: string][] = [
  ['hotIn', 'hotOut', 'the hot outlet reads warmer than the hot inlet'],
  ['coldOut', 'coldIn', 'the cold inlet reads warmer than the cold outlet'],
  ['hotIn', 'coldIn', 'the cold inlet reads warmer than the hot inlet'],
  ['hotIn', 'coldOut', 'the cold outlet reads warmer than the hot inlet'],
];
/** Sensors disagree by this much without anything being wrong [K]. */
const TOLERANCE = 1;
const CONTRADICTED = 0.5;

/** Guesses of one unit whose values contradict each other, by row: one of the two is wrong, and nobody can tell which. */
export function contradictions(
  chosen: readonly (Candidate | null)[],
  spreads: readonly (Spread | null)[],
): Map<number, Cap[]> {
  const rows = new Map<string, number>();
  for (const [row, candidate] of chosen.entries())
    if (candidate !== null) rows.set(`${candidate.tag} ${candidate.sensor}`, row);
  const caps = new Map<number, Cap[]>();
  const middleOf = (row: number) => {
    const { sensor, values } = chosen[row]!;
    const { factor, offset } = sensorUnit(sensor, values.unit)!;
    return spreads[row] === null ? Number.NaN : spreads[row]!.middle * factor + offset;
  };
  for (const tag of new Set(chosen.flatMap((candidate) => candidate?.tag ?? []))) {
    for (const [warm, cool, reason] of WARMER) {
      const pair = [rows.get(`${tag} ${warm}`), rows.get(`${tag} ${cool}`)];
      if (pair[0] === undefined || pair[1] === undefined) continue;
      if (!(middleOf(pair[0]) < middleOf(pair[1]) - TOLERANCE)) continue;
      for (const row of pair as [number, number])
        caps.set(row, [...(caps.get(row) ?? []), { most: CONTRADICTED, reason }]);
    }
  }
  return caps;
}

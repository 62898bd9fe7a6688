import { simulatedUnit } from './cached';
import type { DailyNoise } from './daily-noise';
import { type Judgement, judgeUnit } from './judge-unit';
import type { UnitKey } from './ranges';

/** What one process was given, and what it found. */
export type Part = { keys: UnitKey[]; cache: string | null; simulateOnly: boolean };
export type Found = { judgements: Judgement[]; noises: DailyNoise[] };

/** Simulates and, unless only that is asked, judges some units, one after another. */
export function judgePart({ keys, cache, simulateOnly }: Part): Found {
  const found: Found = { judgements: [], noises: [] };
  for (const key of keys) {
    const unit = simulatedUnit(key, cache);
    found.noises.push(...unit.cycles.map(({ noise }) => noise));
    if (!simulateOnly) found.judgements.push(...judgeUnit(unit));
  }
  return found;
}

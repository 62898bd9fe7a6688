import { describe, expect, it } from 'vitest';
import { lastingSteps } from '@/lib/core/cycles/lasting-steps';
import type { LevelChange } from '@/lib/core/cycles/level-change';

const t = Float64Array.from({ length: 200 }, (_, day) => day);
const step = (place: number, before: number, after: number): LevelChange => ({
  place,
  from: place - 5,
  to: place + 5,
  before,
  after,
  fall: before - after,
  uncertainty: 0.02,
});
const placesLeft = (...steps: LevelChange[]) => lastingSteps(t, steps).map(({ place }) => place);

describe('steps that last', () => {
  it('are those that nothing undoes', () => {
    expect(placesLeft(step(50, 1, 0.4), step(120, 0.9, 0.3))).toEqual([50, 120]);
  });

  it('are not a rise for some days and the fall back, even if fouling grew meanwhile', () => {
    expect(placesLeft(step(50, 0.4, 0.9), step(60, 0.9, 0.4))).toEqual([]);
    expect(placesLeft(step(50, 0.4, 0.9), step(70, 1.05, 0.6))).toEqual([]);
  });

  it('nor a fall for some days and the return', () => {
    expect(placesLeft(step(50, 0.9, 0.4), step(60, 0.4, 0.95))).toEqual([]);
  });

  it('are a fall well below the level before a rise', () => {
    expect(placesLeft(step(50, 0.6, 0.8), step(60, 0.8, 0.2))).toEqual([50, 60]);
  });

  it('are a rise and a fall that lie far apart', () => {
    expect(placesLeft(step(50, 0.4, 0.9), step(95, 1, 0.5))).toEqual([50, 95]);
  });

  it('keep a cleaning beside a temporary rise: the shortest-lived pair goes first', () => {
    expect(placesLeft(step(50, 1, 0.4), step(70, 0.45, 0.95), step(75, 0.95, 0.45))).toEqual([50]);
  });
});

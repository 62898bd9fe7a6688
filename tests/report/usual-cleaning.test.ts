import { describe, expect, it } from 'vitest';
import { usualCleaning } from '@/lib/report/plan/usual-cleaning';

const HOUR_MS = 3_600_000;
const stated = { cost: 4000, duration: { value: 0.5, unit: 'd' }, method: 'hot wash' };
const done = (
  at: number,
  cost: number | null,
  hours: number | null = null,
  method: string | null = null,
) => ({
  at,
  cost,
  durationMs: hours === null ? null : hours * HOUR_MS,
  method,
});

describe('what the next cleaning is expected to cost and take', () => {
  it('is as the datasheet states where fewer than two cleanings say so', () => {
    expect(usualCleaning({ cleaning: stated }, [done(1, 9000, 40)])).toEqual({
      cost: 4000,
      durationMs: 12 * HOUR_MS,
      method: 'hot wash',
      words: { cost: 'as the datasheet states', duration: 'as the datasheet states' },
    });
  });

  it('is the median of what the last five that say so cost and took in fact', () => {
    const cleanings = [
      done(1, 90_000, 500),
      done(2, 5000, 20),
      done(3, 5200, null),
      done(4, null, 22),
      done(5, 6000, 24),
      done(6, 5100, 90),
      done(7, 4800, 23),
    ];
    const { cost, durationMs, words } = usualCleaning({ cleaning: stated }, cleanings.toReversed());
    expect(cost).toBe(5100);
    expect(durationMs).toBe(23 * HOUR_MS);
    expect(words.cost).toBe('median of the last 5 recorded cleanings');
  });

  it('owns up to what nobody states', () => {
    const { cost, durationMs, method, words } = usualCleaning({}, [done(1, null, null, 'jetting')]);
    expect([cost, durationMs, method]).toEqual([0, 8 * HOUR_MS, 'jetting']);
    expect(words).toEqual({
      cost: 'not stated: counted as nothing',
      duration: 'not stated: 8 hours assumed',
    });
  });
});

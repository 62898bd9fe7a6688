import { describe, expect, it } from 'vitest';
import { buoyancyAdvice, directionFromNozzles, isCoCurrent } from '@/lib/core/exchange/direction';
import { plateArea, plateChannels } from '@/lib/core/exchange/plate-area';

describe('effective area of a plate exchanger (common practice)', () => {
  it('leaves out the two end plates: 101 plates of 0.5 m² are 49.5 m²', () => {
    expect(plateArea(101, 0.5)).toBe(49.5);
    expect(plateArea(3, 0.8)).toBe(0.8);
    expect(plateArea(402, 1.25)).toBe(500);
  });

  it('has one channel less than plates', () => {
    expect(plateChannels(101)).toBe(100);
    expect(plateChannels(3)).toBe(2);
    expect(plateChannels(402)).toBe(401);
  });

  it('gives no area where no plate transfers heat or the plate has none', () => {
    for (const count of [0, 1, 2, Number.NaN]) {
      expect(plateArea(count, 0.5)).toBeNaN();
      expect(plateChannels(count)).toBeNaN();
    }
    expect(plateArea(10, 0)).toBeNaN();
    expect(plateArea(10, -1)).toBeNaN();
  });
});

describe('direction of flow from the nozzles (common practice)', () => {
  it('is counter-current for streams entering at opposite ends', () => {
    expect(directionFromNozzles({ hotIn: 'top', coldIn: 'bottom' })).toBe('counter');
    expect(directionFromNozzles({ hotIn: 'bottom', coldIn: 'top' })).toBe('counter');
  });

  it('is co-current for streams entering at the same end', () => {
    expect(directionFromNozzles({ hotIn: 'top', coldIn: 'top' })).toBe('parallel');
    expect(directionFromNozzles({ hotIn: 'bottom', coldIn: 'bottom' })).toBe('parallel');
  });

  it('is co-current throughout for one direction and equal passes only', () => {
    const plate = { kind: 'plate', hotPasses: 2, coldPasses: 2, flow: 'parallel' } as const;
    expect(isCoCurrent(plate)).toBe(true);
    expect(isCoCurrent({ ...plate, coldPasses: 1 })).toBe(false);
    expect(isCoCurrent({ ...plate, flow: 'counter' })).toBe(false);
    expect(isCoCurrent({ kind: 'co-current' })).toBe(true);
    expect(isCoCurrent({ kind: 'counter-current' })).toBe(false);
  });

  it('advises where a heated stream falls or a cooled one rises, and is silent otherwise', () => {
    expect(buoyancyAdvice({ hotIn: 'top', coldIn: 'bottom' })).toEqual([]);
    expect(buoyancyAdvice({ hotIn: 'top', coldIn: 'top' })).toEqual(['heated-stream-falls']);
    expect(buoyancyAdvice({ hotIn: 'bottom', coldIn: 'bottom' })).toEqual(['cooled-stream-rises']);
    expect(buoyancyAdvice({ hotIn: 'bottom', coldIn: 'top' })).toEqual([
      'heated-stream-falls',
      'cooled-stream-rises',
    ]);
  });
});

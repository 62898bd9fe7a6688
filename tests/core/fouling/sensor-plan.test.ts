import { describe, expect, it } from 'vitest';
import { BALANCE_SENSORS } from '@/lib/core/exchange/reconcile';
import { makeFluid } from '@/lib/core/fluids/make-fluid';
import { MISSING_TOGETHER, sensorBit, sensorPlan, smallestAdditions } from '@/lib/core/fouling/sensor-plan';

type Name = (typeof BALANCE_SENSORS)[number];
const bits = (names: readonly Name[]) => names.reduce((sum, name) => sum | sensorBit(name), 0);
const names = (mask: number) => BALANCE_SENSORS.filter((name) => (mask & sensorBit(name)) !== 0);
const without = (...left: Name[]) => bits(BALANCE_SENSORS.filter((name) => !left.includes(name)));
const NOTHING_NOMINAL = { nominalFlows: { hot: null, cold: null } };
const plain = sensorPlan(NOTHING_NOMINAL, null);
const steam = (pressure: number | null) => makeFluid({ kind: 'steam', pressure });

describe('what suffices, by the table of METHODS §3', () => {
  it('for single-phase streams: four temperatures and a flow, or three and both flows, and nothing less', () => {
    for (let mask = 0; mask < 64; mask++) {
      const given = names(mask);
      const temperatures = given.filter((name) => !name.endsWith('Flow')).length;
      const flows = given.length - temperatures;
      const suffices = (temperatures === 4 && flows >= 1) || (temperatures === 3 && flows === 2);
      expect(plain.suffices[mask]).toBe(suffices ? 1 : 0);
      expect(plain.nominal[mask]).toBe(0);
    }
  });

  for (const [side, other] of [
    ['hot', 'cold'],
    ['cold', 'hot'],
  ] as const) {
    it(`for a ${side} side that changes phase: pressure or temperature, and the other side's temperatures and flow`, () => {
      const read = sensorPlan(NOTHING_NOMINAL, { side, fluid: steam(null) });
      const stated = sensorPlan(NOTHING_NOMINAL, { side, fluid: steam(101_325) });
      const vapour: Name = side === 'hot' ? 'hotIn' : 'coldOut';
      const needed: Name[] = [`${other}In`, `${other}Out`, `${other}Flow`];
      expect(read.suffices[bits([...needed, vapour])]).toBe(1);
      expect(read.suffices[bits(needed)]).toBe(0);
      expect(stated.suffices[bits(needed)]).toBe(1);
      // The flow of the other side may come from the steam's; an inlet or outlet of it from both flows.
      expect(stated.suffices[bits([`${other}In`, `${other}Out`, `${side}Flow`])]).toBe(1);
      expect(stated.suffices[bits([`${other}In`, `${other}Flow`, `${side}Flow`])]).toBe(1);
      // No balance gives the saturation temperature.
      expect(read.suffices[bits([...needed, `${side}Flow`])]).toBe(0);
      expect(names(read.missing[bits(needed)]!)).toEqual([vapour]);
    });
  }
});

describe('nominal flows', () => {
  const both = sensorPlan({ nominalFlows: { hot: 20, cold: 25 } }, null);
  const hot = sensorPlan({ nominalFlows: { hot: 20, cold: null } }, null);

  it('stand in only where the balance cannot tell: inferring is better', () => {
    expect(both.nominal[without('hotFlow')]).toBe(0);
    expect(both.nominal[without('coldFlow')]).toBe(0);
    expect(both.nominal[without('hotOut')]).toBe(0);
    expect(names(both.nominal[without('hotFlow', 'coldFlow')]!)).toEqual(['hotFlow', 'coldFlow']);
    expect(names(both.nominal[without('hotFlow', 'coldIn')]!)).toEqual(['hotFlow']);
    expect(names(both.nominal[without('hotFlow', 'coldFlow', 'coldIn')]!)).toEqual(['hotFlow', 'coldFlow']);
  });

  it('with one of them the other flow is inferred; it takes the place of no second temperature', () => {
    expect(names(hot.nominal[without('hotFlow', 'coldFlow')]!)).toEqual(['hotFlow']);
    expect(hot.suffices[without('hotFlow', 'coldFlow')]).toBe(1);
    expect(hot.suffices[without('coldFlow', 'coldIn')]).toBe(0);
    expect(both.suffices[without('hotIn', 'coldIn')]).toBe(0);
  });
});

describe('what is missing', () => {
  it('is every sensor that would do by itself', () => {
    expect(names(plain.missing[without('hotFlow', 'coldFlow')]!)).toEqual(['hotFlow', 'coldFlow']);
    expect(names(plain.missing[without('hotOut', 'hotFlow')]!)).toEqual(['hotOut', 'hotFlow']);
    expect(plain.missing[without('hotOut')]).toBe(0);
  });

  it('is the shortest list together where none would, thermometers first', () => {
    const mask = without('coldOut', 'hotFlow', 'coldFlow');
    const ways = smallestAdditions(plain, mask).map(names);
    expect(ways).toEqual([
      ['coldOut', 'hotFlow'],
      ['coldOut', 'coldFlow'],
      ['hotFlow', 'coldFlow'],
    ]);
    expect(plain.missing[mask]).toBe(bits(['coldOut', 'hotFlow']) | MISSING_TOGETHER);
  });

  it('added, always suffices, and no shorter list does (by trying all)', () => {
    for (let mask = 0; mask < 64; mask++) {
      const ways = smallestAdditions(plain, mask);
      const fewest = names(ways[0]!).length;
      for (let added = 0; added < 64; added++) {
        const isOne = plain.suffices[mask | added] === 1 && (added & mask) === 0;
        if (isOne) expect(names(added).length).toBeGreaterThanOrEqual(fewest);
        expect(ways.includes(added)).toBe(isOne && names(added).length === fewest);
      }
    }
  });
});

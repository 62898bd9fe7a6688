import { describe, expect, it } from 'vitest';
import { planRequestSchema } from '@/lib/contract/plan';
import { inputsMark } from '@/lib/report/plan/inputs-mark';
import { fleetInput } from '../../support/plan-cases';

const desk = () => ({
  input: fleetInput({ units: 3, weeks: 8, crewHours: 40, seed: 5 }),
  timeZone: 'Europe/Lisbon',
  currency: 'EUR',
});

describe('the mark of what a plan is made from', () => {
  it('is the same for the same inputs, and another for other readings, prices, calendars or settings', () => {
    const request = planRequestSchema.parse({ weeks: 8 });
    const mark = inputsMark(desk(), request);
    expect(inputsMark(desk(), planRequestSchema.parse({ weeks: 8 }))).toBe(mark);
    const [read, priced, stopped] = [desk(), desk(), desk()];
    read.input.units[2]!.lostDuty[4]! += 1e-9 * read.input.units[2]!.lostDuty[4]!;
    priced.input.units[0]!.heatRates[0]!.perJoule *= 1.01;
    stopped.input.outages[1]!.crewHours = 41;
    const marks = [
      mark,
      inputsMark(read, request),
      inputsMark(priced, request),
      inputsMark(stopped, request),
      inputsMark(desk(), { ...request, confidence: 0.8 }),
    ];
    expect(new Set(marks).size).toBe(marks.length);
  });
});

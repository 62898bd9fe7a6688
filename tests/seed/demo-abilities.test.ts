import { describe, expect, it } from 'vitest';
import { toCheckSettings, toExchanger } from '@/lib/contract/exchanger-from-unit';
import type { CleanFactors } from '@/lib/core/clean/clean-reference';
import { cleanTestScale } from '@/lib/core/clean/clean-test';
import { evaluateOver } from '@/lib/core/fouling/evaluate-over';
import type { EvaluationColumns } from '@/lib/core/fouling/evaluation-columns';
import { conductanceCertainty } from '@/lib/core/pipeline/close-approach';
import { median } from '@/lib/core/stats/quantile';
import { statedFactors, statedTest } from '@/lib/work/clean-test';
import { planBases, toBases } from '@/lib/work/unit-bases';
import { demoPlans, demoRegistrations, demoSpan, lastHour } from '@/seed/demo-plan';
import { generateReadings } from '@/seed/generate/generate-readings';
import { MS_PER_DAY, shiftStart } from '@/seed/generate/true-cycles';
import type { UnitPlan } from '@/seed/generate/unit-plan';
import { withPerfectSensors } from '@/seed/held-out';
import { DEMO_DAYS } from '@/seed/histories/story';

const END = lastHour(Date.parse('2026-11-25T08:30:00Z'));
const plans = demoPlans();

const planOf = (tag: string) => plans.find(({ unit }) => unit.tag === tag)!;

function record(plan: UnitPlan, days: number) {
  const index = plans.findIndex(({ unit }) => unit.tag === plan.unit.tag);
  return generateReadings(plan, { ...demoSpan(END, index), start: END - days * MS_PER_DAY });
}

/** Every datasheet version of a unit as the demonstration registers it. */
function versionsOf(tag: string) {
  const registered = demoRegistrations(END).flatMap(({ units }) => units.filter((unit) => unit.tag === tag));
  const distinct = registered.filter((unit, i) => JSON.stringify(unit) !== JSON.stringify(registered[i - 1]));
  return distinct.map((unit, i) => ({ number: i + 1, unit, savedAt: END }));
}

/** A unit's record judged as the analysis judges it: by its datasheets in turn and what they say of the clean unit. */
function judged(
  tag: string,
  { plan = planOf(tag), days = DEMO_DAYS }: { plan?: UnitPlan; days?: number } = {},
) {
  const { readings, truth } = record(plan, days);
  const versions = versionsOf(tag);
  const evaluation = evaluateOver(toBases(planBases(versions, []), versions), readings);
  return { evaluation, readings, truth, versions };
}

type Judged = ReturnType<typeof judged>;

const acceptedRows = ({ reasons, time }: EvaluationColumns, from: number, to: number) =>
  [...time.keys()].filter((i) => reasons[i] === 0 && time[i]! >= from && time[i]! < to);

/** Median of what is found less what is true over some days [m²·K/W]. */
function errorBetween({ evaluation, truth }: Judged, from: number, to: number): number {
  const rows = acceptedRows(evaluation, from, to);
  expect(rows.length).toBeGreaterThan(100);
  return median(rows.map((i) => evaluation.foulingResistance[i]! - truth.foulingResistance[i]!));
}

/** The latest fortnight: error and median standard uncertainty of one reading's fouling resistance [m²·K/W]. */
function lately(of: Judged) {
  const rows = acceptedRows(of.evaluation, END - 14 * MS_PER_DAY, END);
  return {
    error: errorBetween(of, END - 14 * MS_PER_DAY, END),
    uncertainty: median(rows.map((i) => of.evaluation.foulingResistanceUncertainty[i]!)),
  };
}

describe('DH-201, whose plates were added eight months ago', () => {
  const { earlier, utcOffsetHours } = planOf('DH-201');
  const changed = shiftStart(END - earlier[0]!.untilDaysAgo * MS_PER_DAY, utcOffsetHours);
  const fortnight = 14 * MS_PER_DAY;
  const step = (of: Judged) =>
    errorBetween(of, changed + MS_PER_DAY, changed + MS_PER_DAY + fortnight) -
    errorBetween(of, changed - fortnight, changed);

  it('has two datasheets, the second since that shift began, with sixteen plates more and as much flow in each channel', () => {
    const [before, after] = versionsOf('DH-201').map(({ unit }) => unit);
    expect(before!.validFrom).toBeUndefined();
    expect(Date.parse(after!.validFrom!)).toBe(changed);
    expect(after!.plates!.count - before!.plates!.count).toBe(16);
    // The two end plates carry no heat.
    const area = (unit: typeof before) => toExchanger(unit!).area;
    expect(area(after) / area(before)).toBeCloseTo(91 / 75, 12);
    const perPlate = (unit: typeof before) => unit!.design.hotFlow.value / (unit!.plates!.count - 2);
    expect(perPlate(after) / perPlate(before)).toBeCloseTo(1, 3);
  });

  it('shows no step there: with perfect sensors the truth to rounding, with its own within a fiftieth of its limit', () => {
    const perfect = judged('DH-201', { plan: withPerfectSensors(planOf('DH-201')) });
    const rows = acceptedRows(perfect.evaluation, 0, END);
    const worst = rows.map((i) =>
      Math.abs(perfect.evaluation.foulingResistance[i]! - perfect.truth.foulingResistance[i]!),
    );
    expect(rows.length).toBeGreaterThan(10_000);
    expect(Math.max(...worst) / perfect.truth.limit).toBeLessThan(1e-9);
    const own = judged('DH-201');
    expect(Math.abs(step(own)) / own.truth.limit).toBeLessThan(0.02);
  });

  it('would show one of a fifth of its limit had its history been judged by the new datasheet', () => {
    const own = judged('DH-201');
    const [, after] = own.versions;
    const corrected = [{ ...after!, unit: planOf('DH-201').unit }];
    const evaluation = evaluateOver(toBases(planBases(corrected, []), corrected), own.readings);
    expect(Math.abs(step({ ...own, evaluation })) / own.truth.limit).toBeGreaterThan(0.2);
  });
});

describe('FP-271, without a meter on either side', () => {
  const found = judged('FP-271');

  it('is evaluated by the rated flow of its pump, and hardly ever while it stood still', () => {
    const rows = acceptedRows(found.evaluation, 0, END);
    const running = found.truth.isRunning.reduce((sum, is) => sum + is, 0);
    expect(rows.length / running).toBeGreaterThan(0.97);
    expect(rows.every((i) => found.evaluation.nominal[i] === 1 << 5)).toBe(true);
    // A typed-in flow does not show a standstill: for some hours after a stop the temperatures still look like a duty.
    const still = rows.filter((i) => found.truth.isRunning[i] === 0);
    expect(still.length / rows.length).toBeLessThan(0.005);
  });

  it('has a fouling resistance more than twice as uncertain as with meters, and its truth within twice that', () => {
    const metered = { ...planOf('FP-271'), measurement: planOf('DH-201').measurement };
    const { error, uncertainty } = lately(found);
    expect(uncertainty / lately(judged('FP-271', { plan: metered })).uncertainty).toBeGreaterThan(2);
    expect(Math.abs(error)).toBeLessThan(2 * uncertainty);
  });
});

describe('SW-224, judged by its clean test', () => {
  const { unit, cleanScale } = planOf('SW-224');

  it('has a test that tells its true clean conductance within the uncertainty of one reading', () => {
    const learned = cleanTestScale(toExchanger(unit), toCheckSettings(unit), statedTest(unit)!);
    if (learned.scale === null) return expect.fail(learned.reasons.join());
    expect(cleanScale).toBeLessThan(1);
    expect(Math.abs(learned.scale - 1 / cleanScale)).toBeLessThan(learned.uncertainty);
  });

  it('is found nearer to its truth than by its datasheet alone', () => {
    const found = judged('SW-224');
    const asOnDatasheet: CleanFactors = { hot: 1, wall: 1, cold: 1 };
    const bases = toBases(planBases(found.versions, []), found.versions);
    expect(bases[0]!.cleanFactors).toEqual(statedFactors(unit));
    const evaluation = evaluateOver(
      bases.map((basis) => ({ ...basis, cleanFactors: asOnDatasheet })),
      found.readings,
    );
    const { error, uncertainty } = lately(found);
    expect(Math.abs(error)).toBeLessThan(2 * uncertainty);
    expect(Math.abs(lately({ ...found, evaluation }).error)).toBeGreaterThan(2 * Math.abs(error));
  });
});

describe('SG-281, which raises steam', () => {
  it('is found at its true fouling, its balance closed by the heat that boils the feed', () => {
    const found = judged('SG-281');
    const { error, uncertainty } = lately(found);
    expect(Math.abs(error)).toBeLessThan(2 * uncertainty);
    const rows = acceptedRows(found.evaluation, END - 14 * MS_PER_DAY, END);
    expect(rows.length).toBeGreaterThan(300);
    expect(Math.abs(median(rows.map((i) => found.evaluation.balance[i]!)))).toBeLessThan(0.03);
  });
});

describe('the close approach', () => {
  it('makes U ill-determined in GC-181 and in no other unit', () => {
    const warned = plans.filter(({ unit: { tag } }) => {
      const { evaluation, readings, versions } = judged(tag, { days: 30 });
      const exchanger = toExchanger(versions.at(-1)!.unit);
      return (conductanceCertainty({ evaluation, readings, exchanger, now: END })?.cause ?? null) !== null;
    });
    expect(warned.map(({ unit }) => unit.tag)).toEqual(['GC-181']);
  });
});

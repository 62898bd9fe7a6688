import { toCheckSettings, toExchanger } from '@/lib/contract/exchanger-from-unit';
import { type Unit, unitSchema } from '@/lib/contract/fleet-file';
import { AS_ON_DATASHEET } from '@/lib/core/clean/clean-reference';
import { evaluateReadings } from '@/lib/core/fouling/evaluate-readings';
import type { Growth } from '@/lib/core/growth/growth';
import type { UnitTrend } from '@/lib/core/pipeline/unit-trend';
import { dailyFigures } from '@/lib/core/series/daily-figures';
import { makeReadingColumns, type ReadingColumns } from '@/lib/core/series/reading-columns';
import type { SiteRecord, UnitRecords } from '@/lib/report/records';
import { localDay } from '@/lib/time/local-clock';
import { localDays } from '@/lib/time/local-day';
import { breathingStates, DAY_MS, EPOCH, HOUR_MS, readingsOf } from './forward-readings';

export const PORT: SiteRecord = { id: 1, name: 'Port', timeZone: 'Europe/Lisbon', currency: 'EUR' };

/** A plate unit on water as a datasheet gives it: SI and US units of measure side by side. */
export const PLATE_UNIT: Unit = unitSchema.parse({
  tag: 'HX-1',
  service: 'wash water heater',
  construction: 'plate',
  arrangement: { kind: 'plate' },
  nozzles: { hotIn: 'bottom', coldIn: 'top' },
  plates: { count: 102, areaEach: { value: 0.5, unit: 'm2' } },
  hot: { fluid: 'water' },
  cold: { fluid: 'water' },
  design: {
    hotIn: { value: 80, unit: 'Cel' },
    hotOut: { value: 122, unit: '[degF]' },
    coldIn: { value: 20, unit: 'Cel' },
    coldOut: { value: 44, unit: 'Cel' },
    hotFlow: { value: 72, unit: 't/h' },
    coldFlow: { value: 25, unit: 'kg/s' },
    cleanU: { value: 2800, unit: 'W/(m2.K)' },
  },
  films: { hotShare: 0.45 },
  limits: [{ kind: 'fouling-resistance', value: { value: 2e-4, unit: 'm2.K/W' } }],
  sensors: { hotFlow: { uncertainty: 0.015, at: 'inlet' } },
  cleaning: { cost: 4000, method: 'hot caustic wash' },
});

/** Days of record, and the day on which it was cleaned. */
const RECORD_DAYS = 120;
const CLEANED_DAY = 40;
/** Fouling grows by this much a day [m²·K/W]. */
const RATE = 1.5e-6;

export const CLEANED_AT = EPOCH + CLEANED_DAY * DAY_MS + 9 * HOUR_MS;
export const NOW = EPOCH + RECORD_DAYS * DAY_MS - 2 * HOUR_MS;
export const LIMIT = 2e-4;

/** A unit's records with hourly readings of known truth: cleaned once, growing linearly. `spoil` may damage the readings. */
export function unitRecords(
  spoil: (readings: ReadingColumns) => void = () => {},
  unit: Unit = PLATE_UNIT,
): UnitRecords {
  const exchanger = toExchanger(unit);
  const settings = toCheckSettings(unit);
  const readings = readingsOf(
    breathingStates(
      exchanger,
      RECORD_DAYS * 24 - 1,
      (hour) => RATE * (hour / 24 - (hour / 24 < CLEANED_DAY ? -20 : CLEANED_DAY)),
    ),
  );
  spoil(readings);
  const evaluation = evaluateReadings({ exchanger, settings, readings });
  const daily = dailyFigures(evaluation, readings, {
    localDay: localDays(readings.time, PORT.timeZone),
    cleanings: [CLEANED_AT],
    exchanger,
  });
  return {
    record: { id: 7, tag: unit.tag, site: PORT, unit, exchanger, settings, version: 1, versionSince: EPOCH },
    trend: linearTrend(),
    result: null,
    daily,
    cleanings: [
      {
        id: 1,
        at: CLEANED_AT,
        revision: 0,
        durationMs: null,
        method: 'hot caustic wash',
        cost: 4000,
        note: null,
      },
    ],
    bases: [{ from: 0, exchanger, settings, cleanFactors: AS_ON_DATASHEET, unitVersion: 1, reference: null }],
    versions: [{ number: 1, unit, savedAt: EPOCH }],
    references: [],
    verdicts: [],
    fallAnswers: [],
    planned: [],
    cleaningChanges: [],
    files: [],
    outages: [
      {
        id: 1,
        siteId: 1,
        name: 'spring stop',
        from: NOW + 20 * DAY_MS,
        to: NOW + 27 * DAY_MS,
        crewHours: null,
      },
    ],
    supplies: [],
    readings,
    evaluation,
    now: NOW,
    clock: NOW,
    pressureExponents: { hot: null, cold: null },
    isDue: false,
  };
}

/** A unit that was registered and nothing more. */
export function freshRecords(): UnitRecords {
  const readings = makeReadingColumns(0);
  const whole = unitRecords();
  const { exchanger, settings } = whole.record;
  const evaluation = evaluateReadings({ exchanger, settings, readings });
  const daily = dailyFigures(evaluation, readings, { localDay: new Int32Array(0), cleanings: [], exchanger });
  return { ...whole, trend: null, result: null, daily, cleanings: [], outages: [], readings, evaluation };
}

/** What the analysis says of that growth, with a made-up spread of its projection. */
export function linearTrend(): UnitTrend {
  const today = localDay(NOW, PORT.timeZone);
  const startDay = localDay(CLEANED_AT, PORT.timeZone);
  const firstDay = localDay(EPOCH, PORT.timeZone);
  const age = today - startDay;
  const growth = linearGrowth(age);
  const p50Day = startDay + Math.ceil(LIMIT / RATE);
  const ages = Float64Array.from({ length: 60 }, (_, i) => age + i * 5);
  const grown = (factor: number) => ages.map((at) => RATE * (age + (at - age) * factor));
  return {
    lastReading: NOW,
    state: 'fouling',
    foulingResistance: growth.foulingResistance,
    foulingResistanceUncertainty: growth.foulingResistanceUncertainty,
    cleanliness: 0.75,
    allowanceUsed: growth.foulingResistance / LIMIT,
    allowanceUsedUncertainty: growth.foulingResistanceUncertainty / LIMIT,
    cycles: [
      {
        start: null,
        end: CLEANED_AT,
        startDay: firstDay,
        endDay: startDay,
        began: 'record',
        figures: 40,
        foulingAtStart: 3e-5,
        foulingAtEnd: 9e-5,
        growth: null,
      },
      {
        start: CLEANED_AT,
        end: null,
        startDay,
        endDay: today,
        began: 'cleaning',
        figures: age,
        foulingAtStart: 0,
        foulingAtEnd: growth.foulingResistance,
        growth,
      },
    ],
    growth,
    ratePerDay: RATE,
    limits: [
      {
        limit: { kind: 'fouling-resistance', value: LIMIT },
        foulingResistance: LIMIT,
        p10Day: p50Day - 8,
        p50Day,
        p90Day: p50Day + 14,
        withinHorizon: 0.98,
        crossedDay: null,
        crossing: null,
        pressureDrop: null,
      },
    ],
    governing: 0,
    horizonDays: 730,
    band: { ageDays: ages, p10: grown(0.8), p50: grown(1), p90: grown(1.2) },
    lostDuty: 120_000,
    energyLostSinceCleaning: 3e11,
    energyLostLast30Days: 2e11,
    probableCleanings: [],
    cleaningResults: [],
    record: [],
    lending: null,
    outlook: null,
    widening: { factor: 1, from: 'none', count: 0 },
    flowDependence: null,
    borrowed: { from: 'none', cycles: 0, units: 0 },
    health: { usable: 0.97, worstReason: null, sinceDay: null, drift: null, suspectSinceDay: null },
  };
}

function linearGrowth(age: number): Growth {
  const model = (name: 'linear' | 'falling-rate', weight: number, parameters: Record<string, number>) => ({
    name,
    weight,
    parameters,
    covariance: [],
    aicc: 0,
    curves: [],
  });
  return {
    models: [
      model('falling-rate', 0.38, { r0: 0, coefficient: 2.5e-6, exponent: 0.9 }),
      model('linear', 0.6, { r0: 0, rate: RATE }),
      model('linear', 0.02, { r0: 1e-6, rate: RATE }),
    ],
    count: age,
    spanDays: age,
    lastAgeDays: age,
    autocorrelation: 0.2,
    residualDeviation: 4e-6,
    ratePerDay: RATE,
    ratePerDayUncertainty: 1e-7,
    foulingResistance: RATE * age,
    foulingResistanceUncertainty: 3e-6,
    isFormExpected: false,
    widening: 1,
  };
}

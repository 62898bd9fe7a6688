import { BALANCE_SENSORS } from '../exchange/reconcile';
import { dailyUncertainty, effectiveReadings } from '../series/daily-uncertainty';
import { COLD_FLOW_IS_VOLUME, HOT_FLOW_IS_VOLUME, type ReadingColumns } from '../series/reading-columns';
import { type Judged, type RatedReading, rateReading } from './rate-reading';
import { lostDutySensitivity } from './sensitivities';
import { systematicLeft } from './systematic-left';
import { uncertaintyParts } from './uncertainty';
import { PLACE, type UnitModel } from './unit-model';

/** Standard uncertainty of a better instrument: a calibrated resistance thermometer in a good pocket [K] (own choice). */
export const BETTER_TEMPERATURE = 0.1;
/** And of a good magnetic or Coriolis meter, as share of the reading [-] (own choice). */
export const BETTER_FLOW = 0.005;

export type BudgetInput = Judged & {
  /** The reading that stands for the unit's usual state: columns of length 1. */
  reading: ReadingColumns;
  /** Accepted readings a day [-] and their usual scatter within a day [m²·K/W]. */
  readingsPerDay: number;
  scatter: number;
};

/** Standard uncertainties of one figure: of a single reading, of a daily median, and the part no averaging takes away. */
export type FigureUncertainty = { value: number; reading: number; systematic: number; daily: number };

/** u(Rf) of the daily figure and its systematic part with another instrument [m²·K/W]. */
export type Bought = { daily: number; systematic: number };

export type SensorBudget = {
  /** Place in `BALANCE_SENSORS`. */
  place: number;
  status: 'measured' | 'inferred' | 'nominal';
  /** Standard uncertainty of its value [K, kg/s]; NaN for an inferred one, whose uncertainty is that of the others. */
  uncertainty: number;
  /** Shares of u²(Rf) of a single reading and of the daily figure [-], and what of the latter is systematic. */
  readingShare: number;
  dailyShare: number;
  systematicShare: number;
  /** With half its uncertainty; null where nothing is measured. */
  halved: Bought | null;
  /** With the better instrument; null where it is as good already. */
  better: Bought | null;
};

export type UncertaintyBudget = {
  duty: FigureUncertainty;
  overallU: FigureUncertainty;
  foulingResistance: FigureUncertainty;
  lostDuty: FigureUncertainty;
  /** Largest share of the daily figure first. */
  sensors: SensorBudget[];
  /** Share of u²(Rf) of the daily figure from scatter beyond what the sensors state [-]. */
  scatterShare: number;
};

/**
 * Uncertainty budget of a unit at one typical reading: what each sensor contributes to u²(Rf), for a reading and for a day of
 * them, and what a better one would buy. With a learned clean reference only the systematic part that is left counts.
 *
 * @param input unit, the reading, readings a day [-] and their scatter [m²·K/W]
 * @returns the budget in SI units; null where the reading cannot be evaluated
 * @range  small errors: first order
 * @source JCGM 100:2008 (GUM) eq. 10 and 11b, clause H.1.5 (presentation as a budget)
 * @check  tests/core/fouling/uncertainty-budget.test.ts
 */
export function uncertaintyBudget(input: BudgetInput): UncertaintyBudget | null {
  const found = rateReading(input, input.reading);
  if (found === null) return null;
  const { model, rated } = found;
  const { columns, sensitivities } = rated;
  const figure = (value: number, slopes: Float64Array) => figureOf(found, value, { slopes, input });
  const fouling = foulingOf(found, input);
  return {
    duty: figure(columns.duty[0]!, sensitivities.duty),
    overallU: figure(
      columns.overallU[0]!,
      sensitivities.logU.map((slope) => slope * columns.overallU[0]!),
    ),
    lostDuty: figure(columns.lostDuty[0]!, lostDutySensitivity(model, rated)),
    foulingResistance: fouling,
    ...sensorBudgets(found, input, fouling),
  };
}

function figureOf(
  { model, rated }: RatedReading,
  value: number,
  { slopes, input }: { slopes: Float64Array; input: BudgetInput },
): FigureUncertainty {
  const parts = uncertaintyParts(rated, slopes);
  const reading = Math.sqrt(parts.reduce((sum, part) => sum + part * part, 0));
  const systematic = Math.sqrt(
    parts.reduce((sum, part, k) => sum + part * part * model.sensors[k]!.systematicShare, 0),
  );
  // The scatter of duty and U within a day is the load's, not an error.
  const daily = dailyUncertainty({ combined: reading, systematic, scatter: 0, count: input.readingsPerDay });
  return { value, reading, systematic, daily };
}

/** Variances of Rf by sensor: random and systematic, the latter as far as the clean reference leaves it. */
function foulingParts(
  { model, rated }: RatedReading,
  input: BudgetInput,
): { random: Float64Array; systematic: Float64Array } {
  const left = systematicLeft(input.exchanger.clean, rated.columns.cleanliness[0]!);
  const squares = uncertaintyParts(rated, rated.sensitivities.fouling).map((part) => part * part);
  const shareOf = (k: number) => model.sensors[k]!.systematicShare;
  return {
    random: squares.map((square, k) => square * (1 - shareOf(k))),
    systematic: squares.map((square, k) => square * shareOf(k) * left * left),
  };
}

function foulingOf(found: RatedReading, input: BudgetInput): FigureUncertainty {
  const parts = foulingParts(found, input);
  const systematic = Math.sqrt(sum(parts.systematic));
  const reading = Math.sqrt(sum(parts.random) + sum(parts.systematic));
  const { scatter, readingsPerDay: count } = input;
  return {
    value: found.rated.columns.foulingResistance[0]!,
    reading,
    systematic,
    daily: dailyUncertainty({ combined: reading, systematic, scatter, count }),
  };
}

function sensorBudgets(
  found: RatedReading,
  input: BudgetInput,
  fouling: FigureUncertainty,
): Pick<UncertaintyBudget, 'sensors' | 'scatterShare'> {
  const { random, systematic } = foulingParts(found, input);
  const effective = effectiveReadings(input.readingsPerDay);
  const dailySquare = fouling.daily ** 2;
  const noise = sum(random);
  const sensors = BALANCE_SENSORS.flatMap((_, place): SensorBudget[] => {
    const status = statusOf(found, place);
    const uncertainty = found.rated.buffers.uncertainty[place]!;
    if (status !== 'inferred' && !(uncertainty > 0)) return [];
    const daily = random[place]! / effective + systematic[place]!;
    const better = withSensor(found, input, { place, change: betterSensor(found, place) });
    return [
      {
        place,
        status,
        uncertainty: status === 'inferred' ? Number.NaN : uncertainty,
        readingShare: (random[place]! + systematic[place]!) / fouling.reading ** 2,
        dailyShare: daily / dailySquare,
        systematicShare: systematic[place]! / dailySquare,
        halved:
          status !== 'measured'
            ? null
            : bought(
                withSensor(found, input, { place, change: halvedSensor(found.model, place) }),
                input,
                noise,
              ),
        better: isBetter(found, place) ? bought(better, input, noise) : null,
      },
    ];
  });
  const explained = sensors.reduce((total, { dailyShare }) => total + dailyShare, 0);
  return {
    sensors: sensors.sort((a, b) => b.dailyShare - a.dailyShare),
    scatterShare: Math.max(0, 1 - explained),
  };
}

function statusOf({ rated }: RatedReading, place: number): SensorBudget['status'] {
  if (place === rated.inferred) return 'inferred';
  return Number.isNaN(rated.readings[BALANCE_SENSORS[place]!][0]!) ? 'nominal' : 'measured';
}

type Change = { absolute: number; relative: number };

function halvedSensor({ sensors }: UnitModel, place: number): Change {
  const { absolute, relative } = sensors[place]!;
  return { absolute: absolute / 2, relative: relative / 2 };
}

function betterSensor({ rated }: RatedReading, place: number): Change {
  // An absolute figure: what a meter reads as a volume may be a mass here.
  if (place < PLACE.hotFlow) return { absolute: BETTER_TEMPERATURE, relative: 0 };
  return { absolute: BETTER_FLOW * Math.abs(rated.buffers.measured[place]!), relative: 0 };
}

function isBetter(found: RatedReading, place: number): boolean {
  const isInferred = place === found.rated.inferred;
  return isInferred || betterSensor(found, place).absolute < found.rated.buffers.uncertainty[place]!;
}

/** The same reading by another instrument; a quantity that was inferred is then read, at the value it had. */
function withSensor(
  { rated }: RatedReading,
  input: BudgetInput,
  { place, change }: { place: number; change: Change },
): BudgetInput {
  const sensor = BALANCE_SENSORS[place]!;
  const sensors = { ...input.exchanger.sensors };
  sensors[sensor] = { ...change, systematicShare: sensors[sensor].systematicShare };
  const exchanger = { ...input.exchanger, sensors };
  if (place !== rated.inferred) return { ...input, exchanger };
  const reading = { ...input.reading, [sensor]: rated.buffers.measured.slice(place, place + 1) };
  if (place >= PLACE.hotFlow) {
    const bit = place === PLACE.hotFlow ? HOT_FLOW_IS_VOLUME : COLD_FLOW_IS_VOLUME;
    reading.flowBasis = input.reading.flowBasis.map((bits) => bits & ~bit);
  }
  return { ...input, exchanger, reading };
}

/** u(Rf) with that instrument; the scatter of the day loses what the instrument no longer adds to it. */
function bought(changed: BudgetInput, input: BudgetInput, noiseBefore: number): Bought | null {
  const found = rateReading(changed, changed.reading);
  if (found === null) return null;
  const noise = sum(foulingParts(found, changed).random);
  const scatter = Math.sqrt(Math.max(0, input.scatter ** 2 - noiseBefore + noise));
  const { daily, systematic } = foulingOf(found, { ...changed, scatter });
  return { daily, systematic };
}

function sum(values: Float64Array): number {
  return values.reduce((total, value) => total + value, 0);
}

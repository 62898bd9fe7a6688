import { designConductance } from '@/lib/core/clean/design-conductance';
import type { DesignPoint, Exchanger, Side } from '@/lib/core/exchange/exchanger';
import { makeFluid } from '@/lib/core/fluids/make-fluid';
import {
  COLD_FLOW_IS_VOLUME,
  HOT_FLOW_IS_VOLUME,
  type ReadingColumns,
} from '@/lib/core/series/reading-columns';

/** Constants a person would copy from the datasheet into the cells above the columns. */
type Sheet = {
  /** Side whose duty is used: the hot one, or the cold one where the hot one condenses. */
  side: Side;
  /** Specific heat between the design temperatures [J/(kg·K)] and density [kg/m³; 1 where the flow is by mass]. */
  specificHeat: number;
  density: number;
  /** Flow below which the unit stands still [kg/s]. */
  restFlow: number;
  /** Area times the correction factor at the design point [m²]. */
  correctedArea: number;
  /** [W/(m²·K)] */
  designU: number;
};

/** What a person has in a spreadsheet: raw fouling by reading, NaN where a cell is blank or cannot be worked out. */
export type SpreadsheetColumn = { time: Float64Array; foulingResistance: Float64Array };

/**
 * The fouling resistance as it is worked out by hand: Q of one side with the specific heat of the datasheet, U =
 * Q/(A·F·LMTD) from the raw readings, Rf = 1/U − 1/U_design. Nothing is left out but blanks, rows without flow and error
 * cells; nothing is corrected for flow or temperature, and F is that of the design point.
 */
export function spreadsheetColumn(exchanger: Exchanger, readings: ReadingColumns): SpreadsheetColumn {
  const sheet = sheetOf(exchanger, readings);
  const flows = readings[`${sheet.side}Flow`];
  const { hotIn, hotOut, coldIn, coldOut } = readings;
  const foulingResistance = readings.time.map((_, i) => {
    const flow = flows[i]! * sheet.density;
    if (!(flow > sheet.restFlow)) return Number.NaN;
    const at = { hotIn: hotIn[i]!, hotOut: hotOut[i]!, coldIn: coldIn[i]!, coldOut: coldOut[i]! };
    const duty = flow * sheet.specificHeat * ownChange(at, sheet.side);
    const U = duty / (sheet.correctedArea * logMeanDifference(at, exchanger));
    return U > 0 ? 1 / U - 1 / sheet.designU : Number.NaN;
  });
  return { time: readings.time, foulingResistance };
}

/**
 * Ordinary least squares through the column from one instant to another, carried on to the limit.
 *
 * @returns instant of the crossing [ms]; Infinity where the line falls, NaN where there are no two rows
 */
export function straightLineCrossing(
  { time, foulingResistance }: SpreadsheetColumn,
  { from, to, limit }: { from: number; to: number; limit: number },
): number {
  let [count, meanTime, meanFouling, timeTime, timeFouling] = [0, 0, 0, 0, 0];
  for (let i = 0; i < time.length; i++) {
    const fouling = foulingResistance[i]!;
    if (time[i]! < from || time[i]! > to || !Number.isFinite(fouling)) continue;
    count++;
    const [offTime, offFouling] = [time[i]! - meanTime, fouling - meanFouling];
    meanTime += offTime / count;
    meanFouling += offFouling / count;
    timeTime += offTime * (time[i]! - meanTime);
    timeFouling += offTime * (fouling - meanFouling);
  }
  if (count < 2 || timeTime === 0) return Number.NaN;
  const slope = timeFouling / timeTime;
  return slope > 0 ? meanTime + (limit - meanFouling) / slope : Number.POSITIVE_INFINITY;
}

/** A meter at rest shows a trace; a person sees that as nothing [share of the design flow]. */
const REST_SHARE = 0.01;

function sheetOf(exchanger: Exchanger, readings: ReadingColumns): Sheet {
  const fluids = { hot: makeFluid(exchanger.hot), cold: makeFluid(exchanger.cold) };
  const { design } = exchanger;
  const side: Side = fluids.hot.phaseChange === null ? 'hot' : 'cold';
  const fluid = fluids[side];
  const [inlet, outlet] = [design[`${side}In`], design[`${side}Out`]];
  const specificHeat = (fluid.enthalpy(inlet) - fluid.enthalpy(outlet)) / (inlet - outlet);
  const volumeBit = side === 'hot' ? HOT_FLOW_IS_VOLUME : COLD_FLOW_IS_VOLUME;
  const designU = design.cleanU ?? designConductance(exchanger, fluids);
  const duty = design[`${side}Flow`] * specificHeat * ownChange(design, side);
  return {
    side,
    specificHeat,
    density: (readings.flowBasis[0]! & volumeBit) === 0 ? 1 : fluid.density!(inlet),
    restFlow: REST_SHARE * design[`${side}Flow`],
    correctedArea: duty / (designU * logMeanDifference(design, exchanger)),
    designU,
  };
}

/** Temperatures of the four ends [°C]. */
type Ends = Pick<DesignPoint, 'hotIn' | 'hotOut' | 'coldIn' | 'coldOut'>;

function ownChange({ hotIn, hotOut, coldIn, coldOut }: Ends, side: Side): number {
  return side === 'hot' ? hotIn - hotOut : coldOut - coldIn;
}

/** Co-current streams by their own ends, all others as counter-current [K]; NaN where the streams cross. */
function logMeanDifference({ hotIn, hotOut, coldIn, coldOut }: Ends, { arrangement }: Exchanger): number {
  const isCoCurrent = arrangement.kind === 'co-current';
  const one = isCoCurrent ? hotIn - coldIn : hotIn - coldOut;
  const other = isCoCurrent ? hotOut - coldOut : hotOut - coldIn;
  if (Math.abs(one - other) < SAME_DIFFERENCE) return one;
  return (one - other) / Math.log(one / other);
}

/** Below this the logarithm of the quotient loses its digits, and both ends are the mean [K]. */
const SAME_DIFFERENCE = 1e-6;

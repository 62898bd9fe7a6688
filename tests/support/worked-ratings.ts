import { purchasedEnergy } from '@/lib/core/cost/purchased-energy';
import { correctionFactor } from '@/lib/core/exchange/correction';
import { capacityRate, streamDuty } from '@/lib/core/exchange/duty';
import { effectiveness } from '@/lib/core/exchange/effectiveness';
import { counterCurrentLmtd, logMeanDifference } from '@/lib/core/exchange/lmtd';
import {
  capacityRatio,
  conductanceFromDuty,
  conductanceFromMeanDifference,
  outletDuty,
} from '@/lib/core/exchange/rating';
import { numberOfTransferUnits } from '@/lib/core/exchange/transfer-units';
import { foulingResistance } from '@/lib/core/fouling/conductance-figures';
import {
  bothMeanDifferences,
  counter,
  hotMixed,
  type Inputs,
  inKw,
  meanDifference,
  parallel,
  rated,
  rates,
  shell,
  unmixed,
} from './rating-steps';

const SECONDS_PER_HOUR = 3600;

/** What our functions make of the inputs of each example of rating, by the names of its answers. */
export const RATINGS: Record<string, (x: Inputs) => Record<string, number>> = {
  'incropera-11.1': (x) => {
    const duty = streamDuty(x.hot_flow_kg_s!, x.cp_hot! * (x.hot_in_C! - x.hot_out_C!));
    const coldOut = x.cold_in_C! + duty / rates(x).coldCapacityRate;
    const LMTD = counterCurrentLmtd({ hotIn: 100, hotOut: 60, coldIn: 30, coldOut });
    const U = 1 / (1 / x.h_inner! + 1 / x.h_outer!);
    const length = conductanceFromMeanDifference(duty, LMTD) / U / (Math.PI * x.diameter_m!);
    return { duty, 'cold out': coldOut, LMTD, U, length };
  },
  'incropera-11.3': (x) => {
    const { coldCapacityRate } = rates(x);
    const duty = coldCapacityRate * (x.cold_out_C! - x.cold_in_C!);
    const hotCapacityRate = capacityRate(duty, x.hot_in_C! - x.hot_out_C!);
    const inlets = {
      arrangement: unmixed,
      hotIn: x.hot_in_C!,
      coldIn: x.cold_in_C!,
      hotCapacityRate,
      coldCapacityRate,
    };
    const area = conductanceFromDuty({ ...inlets, duty }) / x.U_hot!;
    return {
      'capacity rate hot': hotCapacityRate,
      effectiveness: duty / hotCapacityRate / (x.hot_in_C! - x.cold_in_C!),
      Cr: capacityRatio(hotCapacityRate, coldCapacityRate),
      NTU: (area * x.U_hot!) / hotCapacityRate,
      area,
    };
  },
  'incropera-11.4': (x) => rated(unmixed, x, x.U_hot! * x.area_m2!),
  'incropera-11.5': (x) => {
    const coldOut = x.cold_in_C! + x.duty_W! / (x.cold_flow_kg_s! * x.cp!);
    const LMTD = logMeanDifference(x.condensing_C! - x.cold_in_C!, x.condensing_C! - coldOut);
    // The film coefficient is the example's own printed one: correlations of films are no part of the program.
    const U = 1 / (1 / 7552 + 1 / x.h_outer!);
    const area = conductanceFromMeanDifference(x.duty_W!, LMTD) / U;
    return {
      'cold out': coldOut,
      LMTD,
      U,
      'length per pass': area / (x.tubes! * x.passes! * Math.PI * x.diameter_m!),
    };
  },
  'incropera-problem-11.24': (x) => {
    const duty = streamDuty(x.hot_flow_kg_s!, x.cp_hot! * (x.hot_in_C! - x.hot_out_C!));
    const coldOut = x.cold_in_C! + duty / rates(x).coldCapacityRate;
    const LMTD = counterCurrentLmtd({ hotIn: 110, hotOut: 66, coldIn: 25, coldOut });
    const U =
      conductanceFromDuty({ arrangement: counter, ...rates(x), hotIn: 110, coldIn: 25, duty }) / x.area_m2!;
    const fouling = foulingResistance(U, x.U_clean!);
    return { duty, 'cold out': coldOut, LMTD, U, 'fouling resistance': fouling };
  },
  'holman-10.7': (x) => {
    const duty = streamDuty(x.hot_flow_kg_s!, x.cp_hot! * (x.hot_in_C! - x.hot_out_C!)) / 1000;
    const coldRise = x.cold_out_C! - x.cold_in_C!;
    const LMTD = meanDifference(hotMixed, x.hot_in_C!, x.hot_out_C!, x.cold_in_C!, x.cold_out_C!).lmtd;
    return {
      duty,
      LMTD,
      R: (x.hot_in_C! - x.hot_out_C!) / coldRise,
      P: coldRise / (x.hot_in_C! - x.cold_in_C!),
    };
  },
  'holman-10.9': (x) => {
    const result = rated(hotMixed, x, x.U! * x.area_m2!);
    return { ...result, 'reduction of duty against 193.44 kW': 100 * (1 - result.duty / 193_440) };
  },
  'holman-10.10': (x) =>
    inKw(rated(counter, { ...x, cold_flow_kg_s: x.cold_flow_kg_min! / 60 }, x.U! * x.area_m2!)),
  'holman-10.13': (x) => {
    const duty = rates(x).coldCapacityRate * (x.cold_out_C! - x.cold_in_C!);
    const inlets = { arrangement: shell(1), ...rates(x), hotIn: x.hot_in_C!, coldIn: x.cold_in_C! };
    const conductance = conductanceFromDuty({ ...inlets, duty });
    const { Cr, NTU, 'hot out': hotOut } = rated(shell(1), x, conductance);
    return { 'hot out': hotOut, Cr, NTU, area: conductance / x.U! };
  },
  'holman-10.14': (x) => {
    const NTU = numberOfTransferUnits(counter, x.effectiveness!, 0, 'cold');
    const area = (NTU * x.cold_capacity_rate_kW_K!) / x.U_kW_m2K!;
    const unit = {
      arrangement: counter,
      hotIn: x.condensing_C!,
      coldIn: x.cold_in_C!,
      conductance: area * x.U_kW_m2K!,
    };
    const half = {
      ...unit,
      hotCapacityRate: Number.POSITIVE_INFINITY,
      coldCapacityRate: x.cold_capacity_rate_kW_K! / 2,
    };
    return {
      NTU,
      area,
      'effectiveness at half flow': effectiveness(counter, NTU * 2, 0, 'cold'),
      'reduction of duty': 100 * (1 - outletDuty(half) / x.duty_kW!),
    };
  },
  'cengel-11.3': (x) => {
    const LMTD = logMeanDifference(x.condensing_C! - x.cold_in_C!, x.condensing_C! - x.cold_out_C!);
    const duty = (x.U! * x.area_m2! * LMTD) / 1000;
    return {
      LMTD,
      duty,
      'cold flow': (duty * 1000) / x.cp! / (x.cold_out_C! - x.cold_in_C!),
      condensate: duty / x.h_fg_kJ_kg!,
    };
  },
  'cengel-11.4': (x) => {
    const { hotCapacityRate, coldCapacityRate } = rates(x);
    const duty = coldCapacityRate * (x.cold_out_C! - x.cold_in_C!);
    const hotOut = x.hot_in_C! - duty / hotCapacityRate;
    const LMTD = counterCurrentLmtd({ hotIn: 160, hotOut, coldIn: 20, coldOut: 80 });
    const area = conductanceFromMeanDifference(duty, LMTD) / x.U!;
    const byUnits = rated(counter, x, area * x.U!);
    return {
      ...byUnits,
      duty: byUnits.duty / 1000,
      'hot out': hotOut,
      LMTD,
      area,
      length: area / (Math.PI * x.diameter_m!),
    };
  },
  'cengel-11.9': (x) => {
    const area = x.tube_passes! * Math.PI * x.diameter_m! * x.length_per_pass_m!;
    const maximum =
      Math.min(rates(x).hotCapacityRate, rates(x).coldCapacityRate) * (x.hot_in_C! - x.cold_in_C!);
    return { ...inKw(rated(shell(1, x.tube_passes!), x, area * x.U!)), area, 'maximum duty': maximum / 1000 };
  },
  'cengel-11.10': (x) => {
    const rate = (x.flow_kg_s! * x.cp!) / 1000;
    const conductance = numberOfTransferUnits(counter, x.effectiveness!, 1, 'hot') * rate;
    const unit = {
      arrangement: counter,
      hotCapacityRate: rate,
      coldCapacityRate: rate,
      hotIn: x.hot_in_C!,
      coldIn: x.cold_in_C!,
    };
    const duty = outletDuty({ ...unit, conductance });
    const energy = duty * x.hours! * SECONDS_PER_HOUR;
    const fuel = purchasedEnergy(energy, x.boiler_efficiency!) / x.kJ_per_therm!;
    return {
      'maximum duty': rate * (x.hot_in_C! - x.cold_in_C!),
      duty,
      energy,
      fuel,
      money: fuel * x.price_per_therm!,
    };
  },
  'kern-5.1': bothMeanDifferences,
  'kern-5.2': bothMeanDifferences,
  'kern-5.4': bothMeanDifferences,
  'kern-7.2': (x) => {
    const [fifty, zero, cross] = (x.S as unknown as number[]).map((S) =>
      correctionFactor(shell(1), S, x.R!, 'cold'),
    );
    return { 'FT, 50 F approach': fifty!, 'FT, zero approach': zero!, 'FT, 20 F cross': cross! };
  },
  'kern-7.3': (x) => {
    const { lmtd, F } = meanDifference(shell(1, 4), x.hot_in_F!, x.hot_out_F!, x.cold_in_F!, x.cold_out_F!);
    const area = x.tubes! * x.length_ft! * x.area_per_ft!;
    const coldRise = x.cold_out_F! - x.cold_in_F!;
    const UD = conductanceFromMeanDifference(x.duty_Btu_h!, lmtd, x.FT_of_the_book!) / area;
    return {
      LMTD: lmtd,
      R: (x.hot_in_F! - x.hot_out_F!) / coldRise,
      S: coldRise / (x.hot_in_F! - x.cold_in_F!),
      FT: F,
      area,
      UD,
      Rd: foulingResistance(UD, x.U_clean!),
    };
  },
  'geankoplis-4.9-2': (x) => rated(counter, x, x.U! * x.area_m2!),
  'kreith-8.1': (x) => {
    const { hotCapacityRate, coldCapacityRate } = rates(x);
    const duty = hotCapacityRate * (x.hot_in_C! - x.hot_out_C!);
    const coldOut = x.cold_in_C! + duty / coldCapacityRate;
    const inlets = { hotCapacityRate, coldCapacityRate, hotIn: x.hot_in_C!, coldIn: x.cold_in_C!, duty };
    const { lmtd, F } = meanDifference(shell(2), x.hot_in_C!, x.hot_out_C!, x.cold_in_C!, coldOut);
    return {
      'area parallel': conductanceFromDuty({ ...inlets, arrangement: parallel }) / x.U!,
      'LMTD counter': lmtd,
      'area counter': conductanceFromDuty({ ...inlets, arrangement: counter }) / x.U!,
      'F, 2 shell passes': F,
    };
  },
  'lienhard-3.3': (x) => {
    const duty = streamDuty(x.condensate_kg_min! / 60, x.h_fg!);
    const lmtd = logMeanDifference(x.condensing_C! - x.cold_in_C!, x.condensing_C! - x.cold_out_C!);
    const U = conductanceFromMeanDifference(duty, lmtd) / x.area_m2!;
    return { U, 'water flow': capacityRate(duty, x.cold_out_C! - x.cold_in_C!) / x.cp! };
  },
  'lienhard-3.5': (x) => rated(parallel, x, x.U! * x.area_m2!),
  'lienhard-3.6': (x) => {
    const { hotCapacityRate, coldCapacityRate } = rates(x);
    const duty = hotCapacityRate * (x.hot_in_C! - x.hot_out_C!);
    const coldOut = x.cold_in_C! + duty / coldCapacityRate;
    const lmtd = logMeanDifference(x.hot_in_C! - x.cold_in_C!, x.hot_out_C! - coldOut);
    const inlets = {
      arrangement: parallel,
      hotCapacityRate,
      coldCapacityRate,
      hotIn: x.hot_in_C!,
      coldIn: x.cold_in_C!,
    };
    return {
      NTU: conductanceFromDuty({ ...inlets, duty }) / hotCapacityRate,
      'area by LMTD': conductanceFromMeanDifference(duty, lmtd) / x.U!,
    };
  },
  'janna-9.1': bothMeanDifferences,
  'janna-9.6': (x) => {
    const flows = { ...x, hot_flow_kg_s: x.hot_flow_lb_h!, cold_flow_kg_s: x.cold_flow_lb_h! };
    return rated(shell(1), flows, x.U! * x.area_ft2!);
  },
};

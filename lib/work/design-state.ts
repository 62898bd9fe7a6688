import { designConductance } from '@/lib/core/clean/design-conductance';
import { correctionFactor } from '@/lib/core/exchange/correction';
import { balanceError, streamDuty } from '@/lib/core/exchange/duty';
import type { Exchanger, Side } from '@/lib/core/exchange/exchanger';
import { counterCurrentLmtd } from '@/lib/core/exchange/lmtd';
import { capacityRatio, smallerSide } from '@/lib/core/exchange/rating';
import { numberOfTransferUnits } from '@/lib/core/exchange/transfer-units';
import { makeFluid } from '@/lib/core/fluids/make-fluid';
import {
  drivingTemperatures,
  enthalpyDrop,
  enthalpyRise,
  streamCapacityRate,
} from '@/lib/core/fouling/enthalpy-change';

/** The duty point of a datasheet worked through: SI, NaN where the arrangement cannot reach it. */
export type DesignState = {
  hotDuty: number;
  coldDuty: number;
  balance: number;
  lmtd: number;
  correction: number;
  effectiveness: number;
  ratio: number;
  side: Side;
  ntu: number;
  /** Conductance that temperatures and flows imply [W/(m²·K)]. */
  impliedU: number;
};

/** Duty, mean difference, effectiveness and conductance at the design point; null where a duty cannot be had. */
export function designState(exchanger: Exchanger): DesignState | null {
  const { design, arrangement } = exchanger;
  const fluids = { hot: makeFluid(exchanger.hot), cold: makeFluid(exchanger.cold) };
  const ends = drivingTemperatures(fluids, design);
  const hotDuty = streamDuty(design.hotFlow, enthalpyDrop(fluids.hot, ends.hotIn, design.hotOut));
  const coldDuty = streamDuty(design.coldFlow, enthalpyRise(fluids.cold, design.coldIn, ends.coldOut));
  const duty = (hotDuty + coldDuty) / 2;
  if (!(duty > 0)) return null;
  const hotRate = streamCapacityRate(fluids.hot, duty, ends.hotIn - ends.hotOut);
  const coldRate = streamCapacityRate(fluids.cold, duty, ends.coldOut - ends.coldIn);
  const ratio = capacityRatio(hotRate, coldRate);
  const side = smallerSide(hotRate, coldRate);
  const effectiveness = duty / (Math.min(hotRate, coldRate) * (ends.hotIn - ends.coldIn));
  return {
    hotDuty,
    coldDuty,
    balance: balanceError(hotDuty, coldDuty),
    lmtd: counterCurrentLmtd(ends),
    correction: correctionFactor(arrangement, effectiveness, ratio, side),
    effectiveness,
    ratio,
    side,
    ntu: numberOfTransferUnits(arrangement, effectiveness, ratio, side),
    impliedU: designConductance(exchanger, fluids),
  };
}

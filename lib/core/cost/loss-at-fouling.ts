import { outletDuty } from '../exchange/rating';
import { type DayConditions, meanTemperature } from './day-conditions';
import { dutyAtFlow, flowRatioFor, type HeldOutlet, HIGHEST_FLOW_RATIO } from './held-outlet';
import type { LosingUnit } from './losing-unit';
import { depositPumping, extraFlowPumping, type PumpedSide, sumOfKnown } from './pumped-sides';

/** What a unit loses at some fouling. */
export type LossAt = {
  /** [W] */
  lostDuty: number;
  /** Extra electric power of the pumps [W]; NaN where nothing can be said of it. */
  pumping: number;
};

/** What a unit was lately given, and how fouled it then was. */
export type LatelyGiven = {
  /** `duty` is not used: it follows from the fouling. */
  conditions: Omit<DayConditions, 'duty'>;
  /** Fouling under those conditions [m²·K/W], and whether it is clear of nothing. */
  fouling: number;
  isClearlyFouled: boolean;
  /** Pressure drops scaled to the design flow [Pa]; NaN where not measured. */
  pressureDrop: Record<'hot' | 'cold', number>;
};

/**
 * What a unit loses under recent conditions at any fouling.
 *
 * The pressure drop beyond that of the clean unit grows in proportion to the fouling, which is the plainest that can be said;
 * where the fouling is not clear of nothing, it stays as it is. A held outlet loses no duty until its valve is fully open (at
 * 4 times the recent flow where that is not stated); from there on the flow stays and the duty falls.
 *
 * @param unit   the unit
 * @param lately its recent conditions
 * @returns function of a fouling resistance [m²·K/W] giving lost duty and power of the pumps [W]; a fouling below minus half of
 *   the clean resistance counts as that
 * @range  any
 * @source METHODS §10
 * @check  tests/core/cost/loss-at-fouling.test.ts
 */
export function lossAtFouling(unit: LosingUnit, lately: LatelyGiven): (fouling: number) => LossAt {
  const { conditions } = lately;
  const { arrangement, area } = unit.exchanger;
  // One for all that is asked: only the conductance is ever another.
  const rated = { arrangement, ...conditions, conductance: Number.NaN };
  const dutyAt = (fouling: number) => {
    rated.conductance = area / (1 / conditions.cleanU + fouling);
    return outletDuty(rated);
  };
  const given: Given = { ...lately, conditions: { ...conditions, duty: dutyAt(lately.fouling) } };
  const least = -0.5 / conditions.cleanU;
  const ofFouling = unit.held === null ? ordinary(unit, given, dutyAt) : heldLoss(unit, unit.held, given);
  return (fouling) => ofFouling(Math.max(fouling, least));
}

type Given = Omit<LatelyGiven, 'conditions'> & { conditions: DayConditions };

function ordinary(unit: LosingUnit, given: Given, dutyAt: (fouling: number) => number) {
  const clean = dutyAt(0);
  // A valve that holds the outlet by steam pressure keeps the duty: nothing is known of what that costs.
  const isHeld = unit.exchanger.losses.heldOutlet !== null;
  // Asked again and again: of a pump without these nothing can be said at any fouling.
  const pumps = unit.pumped.filter(
    ({ clean, side }) => clean !== null && !Number.isNaN(given.pressureDrop[side]),
  );
  return (fouling: number): LossAt => ({
    lostDuty: isHeld ? 0 : clean - dutyAt(fouling),
    pumping:
      pumps.length === 0
        ? Number.NaN
        : sumOfKnown(pumps.map((pumped) => depositPumping(pumped, sideAt(pumped, given, fouling)))),
  });
}

function heldLoss(unit: LosingUnit, held: HeldOutlet, given: Given) {
  const { conditions } = given;
  const massFlow = conditions[`${held.set}MassFlow`];
  const maximum = unit.exchanger.losses.maximumFlow[held.set];
  const highest = maximum === null ? HIGHEST_FLOW_RATIO : Math.max(1, maximum / massFlow);
  const cleanRatio = flowRatioFor(held, conditions, 0);
  return (fouling: number): LossAt => {
    const needed = flowRatioFor(held, conditions, fouling);
    const isFullyOpen = fouling > given.fouling && !(needed <= highest);
    const flowRatio = isFullyOpen ? highest : needed;
    const pumping = unit.pumped.map((pumped) => {
      const at = sideAt(pumped, given, fouling);
      if (pumped.side !== held.set) return depositPumping(pumped, at);
      const flows = { massFlow: massFlow * flowRatio, cleanFlow: massFlow * cleanRatio };
      return extraFlowPumping(pumped, { ...at, ...flows });
    });
    return {
      lostDuty: isFullyOpen ? conditions.duty - dutyAtFlow(held, conditions, { flowRatio, fouling }) : 0,
      pumping: sumOfKnown(pumping),
    };
  };
}

/** Pressure drop at the design flow with a fouling, flow and mean temperature as lately. */
function sideAt(pumped: PumpedSide, { conditions, pressureDrop, ...lately }: Given, fouling: number) {
  const { side, clean } = pumped;
  const now = pressureDrop[side];
  const grows = clean !== null && now > clean && lately.isClearlyFouled;
  return {
    pressureDrop: grows ? clean + ((now - clean) * fouling) / lately.fouling : now,
    massFlow: conditions[`${side}MassFlow`],
    temperature: meanTemperature(conditions, side),
  };
}

import { PUMP_EFFICIENCY } from '@/lib/core/cost/pump-power';
import type { LossSettings, Side } from '@/lib/core/exchange/exchanger';
import type { Unit } from './fleet-file';
import { type MeterDensities, massFlow } from './mass-flow';
import { inSi, type Quantity } from './quantity';

/** What a datasheet states of valves and pumps, in SI. */
export function lossSettings(unit: Unit, densities: MeterDensities): LossSettings {
  const { pumping, energy } = unit;
  const pressure = (given: Quantity | undefined) => (given === undefined ? null : inSi(given, 'pressure'));
  const flow = (side: Side) => {
    const given = pumping?.[`${side}MaximumFlow`];
    if (given === undefined) return null;
    return massFlow(unit, { given, field: `pumping.${side}MaximumFlow` }, densities[`${side}Flow`]);
  };
  return {
    heldOutlet: energy?.heldOutlet ?? null,
    pumpEfficiency: pumping?.efficiency ?? PUMP_EFFICIENCY,
    cleanPressureDrop: { hot: pressure(pumping?.hotClean), cold: pressure(pumping?.coldClean) },
    pumpHead: { hot: pressure(pumping?.hotHead), cold: pressure(pumping?.coldHead) },
    maximumFlow: { hot: flow('hot'), cold: flow('cold') },
  };
}

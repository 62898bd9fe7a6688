import { type DailyLosses, dailyLosses, SECONDS_PER_DAY } from '@/lib/core/cost/daily-losses';
import { rateOn } from '@/lib/core/cost/dated-rate';
import { dayConditions } from '@/lib/core/cost/day-conditions';
import { purchasedEnergy } from '@/lib/core/cost/purchased-energy';
import { effectiveness } from '@/lib/core/exchange/effectiveness';
import { capacityRatio, smallerSide } from '@/lib/core/exchange/rating';
import { makeFluid } from '@/lib/core/fluids/make-fluid';
import { carbonText, moneyText } from '@/lib/report/energy/energy-format';
import { unitLosses } from '@/lib/report/energy/unit-losses';
import { formatDay } from '@/lib/report/format/time';
import type { UnitSystem } from '@/lib/report/format/unit-system';
import { priceOn } from '@/lib/report/prices/price-on';
import { endSymbols } from '@/lib/report/worked/conductance-steps';
import { type WorkedStep, type Writer, writer } from '@/lib/report/worked/worked-step';
import type { CostRecords } from './cost-records';
import { heldStep, pumpingStep } from './pumping-steps';

/** From the temperatures of one day to its money, every formula with that day's figures in it. */
export type CostChain = { day: string; steps: WorkedStep[] };

/** The day the chain is told for: the newest with a figure, its row among the days and among the losses. */
export type ChainDay = { day: number; row: number; losses: DailyLosses; at: number };

/** Null where no day has a figure. */
export function costChain(cost: CostRecords, system: UnitSystem): CostChain | null {
  const { daily, exchanger, trend } = cost;
  const losses = dailyLosses({ exchanger, daily, cycles: trend.cycles });
  const at = losses.isBridged.lastIndexOf(0);
  if (at < 0) return null;
  const day = losses.day[at]!;
  const on: ChainDay = { day, row: daily.day.indexOf(day), losses, at };
  const write = writer(system);
  const isHeld = exchanger.losses.heldOutlet !== null;
  const steps = [
    ...(isHeld ? [heldStep(cost, on, write)] : [lostDutyStep(cost, on, write), heatStep(cost, on, write)]),
    pumpingStep(cost, on, write),
  ];
  return { day: formatDay(day), steps: steps.filter((step) => step !== null) };
}

/** Standard uncertainty of the lost duty of the day [W]. */
function dutyUncertainty(cost: CostRecords, { day }: ChainDay): number | null {
  const { uncertainLossIn } = unitLosses({ ...cost.records, daily: cost.daily }, cost.supplies);
  const { energyLostUncertainty } = uncertainLossIn({ from: day, to: day });
  return energyLostUncertainty === null ? null : energyLostUncertainty / SECONDS_PER_DAY;
}

function lostDutyStep(cost: CostRecords, on: ChainDay, write: Writer): WorkedStep {
  const { exchanger, daily } = cost;
  const fluids = { hot: makeFluid(exchanger.hot), cold: makeFluid(exchanger.cold) };
  const { hotCapacityRate, coldCapacityRate, hotIn, coldIn, cleanU, duty } = dayConditions(
    fluids,
    daily,
    on.row,
  );
  const ends = endSymbols(
    (['hot', 'cold'] as const).find((side) => fluids[side].phaseChange !== null) ?? null,
  );
  const smallest = Math.min(hotCapacityRate, coldCapacityRate);
  const ratio = capacityRatio(hotCapacityRate, coldCapacityRate);
  const transferUnits = (cleanU * exchanger.area) / smallest;
  const smaller = smallerSide(hotCapacityRate, coldCapacityRate);
  const reached = effectiveness(exchanger.arrangement, transferUnits, ratio, smaller);
  const lost = daily.lostDuty[on.row]!;
  const clean = write.text(duty + lost, 'power');
  return {
    id: 'lost-duty',
    title: 'Lost duty',
    lines: [
      {
        symbols: 'NTU_{c} = frac{U_{c} · A}{C_{min}}',
        figures: `frac{${write.text(cleanU, 'conductance')} · ${write.text(exchanger.area, 'area')}}{${write.text(smallest, 'totalConductance')}}`,
        result: write.plain(transferUnits),
      },
      {
        symbols: 'ε_{c} = ε(NTU_{c}, C_{r})',
        figures: `ε(${write.plain(transferUnits)}, ${write.plain(ratio)})`,
        result: write.plain(reached),
      },
      {
        symbols: `Q_{clean} = ε_{c} · C_{min} · (${ends.hotIn} − ${ends.coldIn})`,
        figures: `${write.plain(reached)} · ${write.text(smallest, 'totalConductance')} · (${write.text(hotIn, 'temperature')} − ${write.text(coldIn, 'temperature')})`,
        result: clean,
      },
      {
        symbols: 'Q_{lost} = Q_{clean} − Q',
        figures: `${clean} − ${write.text(duty, 'power')}`,
        result: write.text(lost, 'power', dutyUncertainty(cost, on)),
      },
    ],
    notes: [
      'The clean unit at the same inlets and flows, less what this one transfers. Each figure is the median of the day’s accepted readings, so the last digits of a line may not fit.',
    ],
  };
}

function heatStep(cost: CostRecords, on: ChainDay, write: Writer): WorkedStep {
  const { unit, daily, currency, rates } = cost;
  const lost = daily.lostDuty[on.row]!;
  const spread = dutyUncertainty(cost, on);
  const efficiency = unit.energy?.efficiency ?? 1;
  const isCooling = unit.energy?.effect === 'cooling';
  const bought = purchasedEnergy(lost, efficiency);
  const stated = priceOn(cost, on.day);
  const money = rateOn(rates.heat.money, on.day);
  const carbon = rateOn(rates.heat.carbon, on.day);
  const perDay = (rate: number) => lost * SECONDS_PER_DAY * rate;
  const power = write.text(bought, 'power');
  return {
    id: 'bought',
    title: 'Energy bought in its place, and what that costs a day',
    lines: [
      {
        symbols: `P = frac{Q_{lost}}{${isCooling ? 'COP' : 'η'}}`,
        figures: `frac{${write.text(lost, 'power')}}{${write.plain(efficiency)}}`,
        result: write.text(bought, 'power', spread === null ? null : spread / efficiency),
      },
      ...(money === null || stated.price === null
        ? []
        : [
            {
              symbols: 'money = P · 24 h · price',
              figures: `${power} · 24 h · ${stated.price}`,
              result: `${moneyText(perDay(money), spread === null ? null : spread * SECONDS_PER_DAY * money, currency)} a day`,
            },
          ]),
      ...(carbon === null || stated.carbon === null
        ? []
        : [
            {
              symbols: 'CO_{2}e = P · 24 h · factor',
              figures: `${power} · 24 h · ${stated.carbon}`,
              result: `${carbonText(perDay(carbon))} a day`,
            },
          ]),
    ],
    notes: [
      unit.energy?.efficiency === undefined
        ? `The datasheet states no ${isCooling ? 'COP' : 'efficiency'}: energy is counted as bought one for one.`
        : stated.whence,
    ],
  };
}

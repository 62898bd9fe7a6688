import { type DailyLosses, dailyLosses, SECONDS_PER_DAY } from '@/lib/core/cost/daily-losses';
import { rateOn } from '@/lib/core/cost/dated-rate';
import { type DayConditions, dayConditions } from '@/lib/core/cost/day-conditions';
import { purchasedEnergy } from '@/lib/core/cost/purchased-energy';
import { effectiveness } from '@/lib/core/exchange/effectiveness';
import type { Exchanger } from '@/lib/core/exchange/exchanger';
import { capacityRatio, smallerSide } from '@/lib/core/exchange/rating';
import { makeFluid } from '@/lib/core/fluids/make-fluid';
import { carbonText, moneyText } from '@/lib/report/energy/energy-format';
import { unitLosses } from '@/lib/report/energy/unit-losses';
import { formatDay } from '@/lib/report/format/time';
import type { UnitSystem } from '@/lib/report/format/unit-system';
import { countOf } from '@/lib/report/format/words';
import { priceOn } from '@/lib/report/prices/price-on';
import { endSymbols } from '@/lib/report/worked/conductance-steps';
import { type WorkedStep, type Writer, writer } from '@/lib/report/worked/worked-step';
import type { CostRecords } from './cost-records';
import { type Printer, printer } from './printed-figures';
import { heldStep, pumpingStep } from './pumping-steps';

/** From the temperatures of one day to its money, every formula with that day's figures in it. */
export type CostChain = { day: string; steps: WorkedStep[] };

/** The day the chain is told for: the newest with a figure, its row among the days and among the losses. */
export type ChainDay = { day: number; row: number; losses: DailyLosses; at: number };

/** What writes the figures of a line: as they are told, and as they are worked on with. */
export type Pens = { write: Writer; printer: Printer };

/** Null where no day has a figure. */
export function costChain(cost: CostRecords, system: UnitSystem): CostChain | null {
  const { daily, exchanger, trend } = cost;
  const losses = dailyLosses({ exchanger, daily, cycles: trend.cycles });
  const at = losses.isBridged.lastIndexOf(0);
  if (at < 0) return null;
  const day = losses.day[at]!;
  const on: ChainDay = { day, row: daily.day.indexOf(day), losses, at };
  const pens: Pens = { write: writer(system), printer: printer(system) };
  const isHeld = exchanger.losses.heldOutlet !== null;
  const steps = [
    ...(isHeld ? [heldStep(cost, on, pens)] : [lostDutyStep(cost, on, pens), heatStep(cost, on, pens)]),
    pumpingStep(cost, on, pens),
  ];
  return { day: formatDay(day), steps: steps.filter((step) => step !== null) };
}

/** Standard uncertainty of the lost duty of the day [W]. */
function dutyUncertainty(cost: CostRecords, { day }: ChainDay): number | null {
  const { uncertainLossIn } = unitLosses({ ...cost.records, daily: cost.daily }, cost.supplies);
  const { energyLostUncertainty } = uncertainLossIn({ from: day, to: day });
  return energyLostUncertainty === null ? null : energyLostUncertainty / SECONDS_PER_DAY;
}

function lostDutyStep(cost: CostRecords, on: ChainDay, { write, printer }: Pens): WorkedStep {
  const { exchanger, daily } = cost;
  const fluids = { hot: makeFluid(exchanger.hot), cold: makeFluid(exchanger.cold) };
  const at = dayConditions(fluids, daily, on.row);
  const ends = endSymbols(
    (['hot', 'cold'] as const).find((side) => fluids[side].phaseChange !== null) ?? null,
  );
  const { cleanU, area, smallest, ratio, transferUnits, reached, hotIn, coldIn, clean, duty } = cleanDuty(
    exchanger,
    at,
    printer,
  );
  const once = write.text(clean.value - duty.value, 'power');
  return {
    id: 'lost-duty',
    title: 'Lost duty',
    lines: [
      {
        symbols: 'NTU_{c} = frac{U_{c} · A}{C_{min}}',
        figures: `frac{${cleanU.text} · ${area.text}}{${smallest.text}}`,
        result: transferUnits.text,
      },
      {
        symbols: 'ε_{c} = ε(NTU_{c}, C_{r})',
        figures: `ε(${transferUnits.text}, ${ratio.text})`,
        result: reached.text,
      },
      {
        symbols: `Q_{clean} = ε_{c} · C_{min} · (${ends.hotIn} − ${ends.coldIn})`,
        figures: `${reached.text} · ${smallest.text} · (${hotIn.text} − ${coldIn.text})`,
        result: clean.text,
      },
      { symbols: 'Q_{clean} − Q', figures: `${clean.text} − ${duty.text}`, result: once },
      {
        symbols: 'Q_{lost}',
        figures: `median of the same over the day’s ${countOf(daily.accepted[on.row]!, 'reading')}`,
        result: write.text(daily.lostDuty[on.row]!, 'power', dutyUncertainty(cost, on)),
      },
    ],
    notes: [
      `The clean unit at the same inlets and flows, less what this one transfers. The lines down to ${once} are one evaluation at the day’s median temperatures, flows, duty and clean U; what counts is the last line: each reading worked out by itself, and the median of them.`,
    ],
  };
}

/** What the clean unit would transfer, step by step, each from the figures printed of those before it. */
function cleanDuty({ arrangement, area: stated }: Exchanger, at: DayConditions, { print }: Printer) {
  const { hotCapacityRate, coldCapacityRate } = at;
  const cleanU = print(at.cleanU, 'conductance');
  const area = print(stated, 'area');
  const smallest = print(Math.min(hotCapacityRate, coldCapacityRate), 'totalConductance');
  const ratio = print(capacityRatio(hotCapacityRate, coldCapacityRate), 'number');
  const transferUnits = print((cleanU.value * area.value) / smallest.value, 'number');
  const smaller = smallerSide(hotCapacityRate, coldCapacityRate);
  const reached = print(effectiveness(arrangement, transferUnits.value, ratio.value, smaller), 'number');
  const hotIn = print(at.hotIn, 'temperature');
  const coldIn = print(at.coldIn, 'temperature');
  const clean = print(reached.value * smallest.value * (hotIn.value - coldIn.value), 'power');
  const duty = print(at.duty, 'power');
  return { cleanU, area, smallest, ratio, transferUnits, reached, hotIn, coldIn, clean, duty };
}

function heatStep(cost: CostRecords, on: ChainDay, { write, printer }: Pens): WorkedStep {
  const { unit, daily, currency, rates } = cost;
  const lost = printer.print(daily.lostDuty[on.row]!, 'power');
  const spread = dutyUncertainty(cost, on);
  const efficiency = unit.energy?.efficiency ?? 1;
  const isCooling = unit.energy?.effect === 'cooling';
  const bought = printer.print(purchasedEnergy(lost.value, efficiency), 'power');
  const stated = priceOn(cost, on.day);
  const money = rateOn(rates.heat.money, on.day);
  const carbon = rateOn(rates.heat.carbon, on.day);
  const energy = bought.value * SECONDS_PER_DAY;
  // The rates are per joule of heat: what was bought of it counts its efficiency already.
  const perDay = (rate: number) => energy * efficiency * rate;
  return {
    id: 'bought',
    title: 'Energy bought in its place, and what that costs a day',
    lines: [
      {
        symbols: `P = frac{Q_{lost}}{${isCooling ? 'COP' : 'η'}}`,
        figures: `frac{${lost.text}}{${write.plain(efficiency)}}`,
        result: write.text(bought.value, 'power', spread === null ? null : spread / efficiency),
      },
      ...(money === null || stated.price === null
        ? []
        : [
            {
              symbols: 'money = P · 24 h · price',
              figures: `${bought.text} · 24 h · ${stated.price}`,
              result: `${moneyText(perDay(money), spread === null ? null : spread * SECONDS_PER_DAY * money, currency)} a day`,
            },
          ]),
      ...(carbon === null || stated.carbon === null
        ? []
        : [
            {
              symbols: 'CO_{2}e = P · 24 h · factor',
              figures: `${bought.text} · 24 h · ${stated.carbon}`,
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

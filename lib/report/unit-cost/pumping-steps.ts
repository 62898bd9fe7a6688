import { SECONDS_PER_DAY } from '@/lib/core/cost/daily-losses';
import { rateOn } from '@/lib/core/cost/dated-rate';
import { dayConditions, meanTemperature } from '@/lib/core/cost/day-conditions';
import { losingUnit } from '@/lib/core/cost/losing-unit';
import { depositPumping, type PumpedSide } from '@/lib/core/cost/pumped-sides';
import { cycleRows } from '@/lib/core/cycles/cycle-rows';
import type { Side } from '@/lib/core/exchange/exchanger';
import { pressureDropAtReference } from '@/lib/core/series/pressure-drop';
import { carbonText, moneyText } from '@/lib/report/energy/energy-format';
import { priceOn } from '@/lib/report/prices/price-on';
import type { WorkedLine, WorkedStep, Writer } from '@/lib/report/worked/worked-step';
import type { ChainDay } from './cost-chain';
import type { CostRecords } from './cost-records';

const LETTER: Record<Side, string> = { hot: 'h', cold: 'c' };

/** A unit of which a valve holds an outlet: the extra flow and the margin left, in place of lost duty. */
export function heldStep(cost: CostRecords, on: ChainDay, write: Writer): WorkedStep {
  const { exchanger, daily } = cost;
  const held = exchanger.losses.heldOutlet!;
  const set: Side = held === 'hot' ? 'cold' : 'hot';
  const flow = daily[`${set}MassFlow`][on.row]!;
  const extra = on.losses.extraFlow[on.at]!;
  const margin = on.losses.marginLeft[on.at]!;
  const maximum = exchanger.losses.maximumFlow[set];
  const mass = (value: number) => write.text(value, 'massFlow');
  const lines: WorkedLine[] = [];
  if (!Number.isNaN(extra))
    lines.push({
      symbols: `ṁ_{extra} = ṁ_{${LETTER[set]}} − ṁ_{clean}`,
      figures: `${mass(flow)} − ${mass(flow - extra)}`,
      result: mass(extra),
    });
  if (!Number.isNaN(margin) && maximum !== null)
    lines.push({
      symbols: `margin = 1 − frac{ṁ_{${LETTER[set]}}}{ṁ_{max}}`,
      figures: `1 − frac{${mass(flow)}}{${mass(maximum)}}`,
      result: write.percent(margin),
    });
  return {
    id: 'held',
    title: `Held outlet: extra ${set} flow, and the margin left`,
    lines,
    notes: [
      `A control valve holds the ${held} outlet by the flow of the ${set} stream: the duty stays, so no duty is lost. What fouling costs is the flow beyond that of the clean unit, which would give the same duty at the same inlets, and the margin that goes with it.`,
      ...(lines.length === 0
        ? [
            'Neither can be told for this day: the flow is not measured, or the clean unit needs none that can be found.',
          ]
        : []),
      ...(maximum === null
        ? [`The margin needs the largest ${set} flow: state it under Pumping in the datasheet.`]
        : []),
    ],
  };
}

/** Extra work of the pumps on the day, side by side, and what it costs; null where nothing is known of it. */
export function pumpingStep(cost: CostRecords, on: ChainDay, write: Writer): WorkedStep | null {
  const work = on.losses.pumping[on.at]!;
  if (Number.isNaN(work)) return null;
  const { rates, currency } = cost;
  const stated = priceOn(cost, on.day, 'pumping');
  const money = rateOn(rates.pumping.money, on.day);
  const carbon = rateOn(rates.pumping.carbon, on.day);
  const power = write.text(work / SECONDS_PER_DAY, 'power');
  const lines = [
    ...sideLines(cost, on, write),
    { symbols: 'P_{pump}', figures: 'all sides that are known', result: power },
  ];
  if (money !== null && stated.price !== null)
    lines.push({
      symbols: 'money = P_{pump} · 24 h · price',
      figures: `${power} · 24 h · ${stated.price}`,
      result: `${moneyText(work * money, null, currency)} a day`,
    });
  if (carbon !== null && stated.carbon !== null)
    lines.push({
      symbols: 'CO_{2}e = P_{pump} · 24 h · factor',
      figures: `${power} · 24 h · ${stated.carbon}`,
      result: `${carbonText(work * carbon)} a day`,
    });
  const notes = [
    'Work of the pumps against what fouling adds, at the flow of the day; below 0 the unit drops less than its clean value.',
  ];
  if (money === null)
    notes.push('It has no price: name the supply of the pumps under Pumping in the datasheet.');
  return { id: 'pumping', title: 'Extra pumping', lines, notes };
}

/** One line for each side on which deposits raise the pressure drop; a side whose flow a valve sets is told as a whole. */
function sideLines(cost: CostRecords, on: ChainDay, write: Writer): WorkedLine[] {
  const { exchanger, daily, trend } = cost;
  const unit = losingUnit(exchanger, daily, cycleRows(daily, trend.cycles));
  const conditions = dayConditions(unit.fluids, daily, on.row);
  return unit.pumped
    .filter(({ side }) => unit.held?.set !== side)
    .flatMap((pumped) => {
      const { side, clean } = pumped;
      const massFlow = conditions[`${side}MassFlow`];
      const temperature = meanTemperature(conditions, side);
      const pressureDrop = daily[`${side}PressureDrop`][on.row]!;
      const power = depositPumping(pumped, { pressureDrop, massFlow, temperature });
      if (Number.isNaN(power) || clean === null) return [];
      const at = { pressureDrop, clean, massFlow, temperature };
      return depositLine(pumped, { ...at, result: write.text(power, 'power') }, write);
    });
}

type Deposit = { pressureDrop: number; clean: number; massFlow: number; temperature: number; result: string };

function depositLine(
  { side, designFlow, exponent, density, efficiency }: PumpedSide,
  { pressureDrop, clean, massFlow, temperature, result }: Deposit,
  write: Writer,
): WorkedLine {
  const letter = LETTER[side];
  const drop = (value: number) =>
    write.text(pressureDropAtReference(value, designFlow / massFlow, exponent), 'pressure');
  return {
    symbols: `P_{pump,${letter}} = frac{(Δp_{${letter}} − Δp_{${letter},clean}) · ṁ_{${letter}}}{ρ_{${letter}} · η}`,
    figures: `frac{(${drop(pressureDrop)} − ${drop(clean)}) · ${write.text(massFlow, 'massFlow')}}{${write.text(density(temperature), 'density')} · ${write.plain(efficiency)}}`,
    result,
  };
}

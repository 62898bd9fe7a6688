import { dayConditions, meanTemperature } from '@/lib/core/cost/day-conditions';
import { losingUnit } from '@/lib/core/cost/losing-unit';
import { pumpPower } from '@/lib/core/cost/pump-power';
import type { PumpedSide } from '@/lib/core/cost/pumped-sides';
import { cycleRows } from '@/lib/core/cycles/cycle-rows';
import type { Side } from '@/lib/core/exchange/exchanger';
import { pressureDropAtReference } from '@/lib/core/series/pressure-drop';
import type { WorkedLine } from '@/lib/report/worked/worked-step';
import type { ChainDay } from './cost-chain';
import type { CostRecords } from './cost-records';
import type { Printed, Printer } from './printed-figures';

export const LETTER: Record<Side, string> = { hot: 'h', cold: 'c' };

/** Extra power on one side, as printed, with the line that gives it. */
type PumpedLine = { symbol: string; power: Printed; line: WorkedLine };

/** One line for each side that is known: what deposits add to the pressure drop, or what the flow beyond the clean unit's takes. */
export function pumpedLines(cost: CostRecords, on: ChainDay, printer: Printer): PumpedLine[] {
  const { exchanger, daily, trend } = cost;
  const unit = losingUnit(exchanger, daily, cycleRows(daily, trend.cycles));
  const conditions = dayConditions(unit.fluids, daily, on.row);
  return unit.pumped.flatMap((pumped) => {
    const { side } = pumped;
    const at = {
      pressureDrop: daily[`${side}PressureDrop`][on.row]!,
      massFlow: conditions[`${side}MassFlow`],
      density: pumped.density(meanTemperature(conditions, side)),
    };
    const line =
      unit.held?.set === side
        ? extraFlowLine(pumped, { ...at, cleanFlow: at.massFlow - on.losses.extraFlow[on.at]! }, printer)
        : depositLine(pumped, at, printer);
    return Number.isNaN(line.power.value) ? [] : [line];
  });
}

type SideAt = { pressureDrop: number; massFlow: number; density: number };

function depositLine(pumped: PumpedSide, at: SideAt, printer: Printer): PumpedLine {
  const { side, clean, efficiency } = pumped;
  const letter = LETTER[side];
  const [now, then] = printer.printPair(
    dropAt(pumped, at.pressureDrop, at.massFlow),
    dropAt(pumped, clean ?? Number.NaN, at.massFlow),
    'pressure',
  );
  const flow = printer.print(at.massFlow, 'massFlow');
  const density = printer.print(at.density, 'density');
  const share = printer.print(efficiency, 'number');
  const of = { density: density.value, efficiency: share.value };
  const power = printer.print(pumpPower(now.value - then.value, flow.value, of), 'power');
  const symbol = `P_{pump,${letter}}`;
  return {
    symbol,
    power,
    line: {
      symbols: `${symbol} = frac{(Δp_{${letter}} − Δp_{${letter},clean}) · ṁ_{${letter}}}{ρ_{${letter}} · η}`,
      figures: `frac{(${now.text} − ${then.text}) · ${flow.text}}{${density.text} · ${share.text}}`,
      result: power.text,
    },
  };
}

/** Δp·V̇/η at the flow of the day less the same at the clean unit's; a stated head is the same at both. */
function extraFlowLine(pumped: PumpedSide, at: SideAt & { cleanFlow: number }, printer: Printer): PumpedLine {
  const { side, clean, head, efficiency } = pumped;
  const letter = LETTER[side];
  const [now, then] = printer.printPair(
    head ?? dropAt(pumped, at.pressureDrop, at.massFlow),
    head ?? dropAt(pumped, clean ?? at.pressureDrop, at.cleanFlow),
    'pressure',
  );
  const [flow, cleanFlow] = printer.printPair(at.massFlow, at.cleanFlow, 'massFlow');
  const density = printer.print(at.density, 'density');
  const share = printer.print(efficiency, 'number');
  const of = { density: density.value, efficiency: share.value };
  const power = printer.print(
    pumpPower(now.value, flow.value, of) - pumpPower(then.value, cleanFlow.value, of),
    'power',
  );
  const symbol = `P_{pump,${letter}}`;
  return {
    symbol,
    power,
    line: {
      symbols: `${symbol} = frac{Δp_{${letter}} · ṁ_{${letter}} − Δp_{${letter},clean} · ṁ_{clean}}{ρ_{${letter}} · η}`,
      figures: `frac{${now.text} · ${flow.text} − ${then.text} · ${cleanFlow.text}}{${density.text} · ${share.text}}`,
      result: power.text,
    },
  };
}

function dropAt({ designFlow, exponent }: PumpedSide, atDesign: number, massFlow: number): number {
  return pressureDropAtReference(atDesign, designFlow / massFlow, exponent);
}

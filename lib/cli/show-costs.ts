import type { Command } from 'commander';
import { AppError } from '@/lib/contract/app-error';
import { COST_PERIODS, costsQuerySchema, type FleetCosts } from '@/lib/contract/costs';
import { faultsOf } from '@/lib/contract/faults';
import { costsCsv } from '@/lib/report/energy/costs-csv';
import { readEnergyAddress } from '@/lib/report/energy/energy-address';
import { displayUnit, toDisplay } from '@/lib/report/format/display-unit';
import { showCosts as costsOf } from '@/lib/work/read-costs';
import { type OutputOptions, print, rounded } from './output';
import { withContext } from './with-context';

type CostsOptions = OutputOptions & { period?: string; from?: string; to?: string; site?: string };

export function addCostsOptions(command: Command): Command {
  return command
    .option('--period <name>', `one of ${COST_PERIODS.join(', ')}`)
    .option('--from <day>', 'first day, YYYY-MM-DD, with --to')
    .option('--to <day>', 'last day, YYYY-MM-DD')
    .option('--site <name>', 'of this site only');
}

/** @throws AppError 'invalid-input' naming each option that cannot be read */
export async function showCosts({ json, csv, ...asked }: CostsOptions): Promise<void> {
  const parsed = costsQuerySchema.safeParse(asked);
  if (!parsed.success)
    throw new AppError('invalid-input', 'The options are not valid', faultsOf(parsed.error));
  const costs = await withContext((context) => costsOf(context, readEnergyAddress(parsed.data)));
  if (csv && !json) process.stdout.write(costsCsv(costs));
  else print({ json: json ?? false }, { document: costs, table: tableOf(costs) });
}

function tableOf({ units }: FleetCosts) {
  return {
    columns: [
      'tag',
      'heat lost [MWh]',
      'u(heat) [MWh]',
      'extra pumping [MWh]',
      'cost',
      'u(cost)',
      'currency',
      'CO2e [kg]',
      'days counted',
      'not counted because',
    ],
    rows: units.map((unit) => [
      unit.tag,
      megawattHours(unit.energyLost),
      megawattHours(unit.energyLostUncertainty),
      megawattHours(unit.pumping),
      rounded(unit.money),
      rounded(unit.moneyUncertainty),
      unit.currency,
      rounded(unit.carbon),
      unit.days,
      unit.reason,
    ]),
  };
}

/** The table is read by people; JSON stays in joules. */
function megawattHours(joules: number | null): number | null {
  return rounded(joules === null ? null : toDisplay(joules, displayUnit('energy', 'si')));
}

import type { Command } from 'commander';
import type { UnitResult } from '@/lib/contract/results';
import * as results from '@/lib/work/show-results';
import { type OutputOptions, print, rounded } from './output';
import { addChangesOptions, showChanges } from './show-changes';
import { addCostsOptions, showCosts } from './show-costs';
import { showHealth } from './show-health';
import { showCleanings, showCycles, showFalls, showVerdicts } from './show-history';
import { showImports } from './show-imports';
import { showPlan } from './show-plan';
import { withContext } from './with-context';

export function addShow(program: Command): void {
  const show = program.command('show').description('prints results as a table, JSON or CSV');
  const verb = (name: string, description: string) =>
    show
      .command(name)
      .option('--json', 'print as JSON')
      .option('--csv', 'print as CSV')
      .description(description);
  verb('fleet', 'every unit, soonest clean-by day first').action(showFleet);
  verb('unit', 'one unit').argument('<tag>').action(showUnit);
  verb('daily', 'daily figures of a unit').argument('<tag>').action(showDaily);
  verb('cycles', 'cycles of a unit, and what its cleanings did').argument('<tag>').action(showCycles);
  verb('cleanings', 'recorded cleanings of a unit, and what was corrected or withdrawn')
    .argument('<tag>')
    .action(showCleanings);
  verb('falls', 'probable cleanings of a unit, and what was answered').argument('<tag>').action(showFalls);
  verb('verdicts', 'what people said of readings of a unit').argument('<tag>').action(showVerdicts);
  verb('health', 'data health of a unit, or of every unit').argument('[tag]').action(showHealth);
  verb('plan', 'the accepted plan and its dated work').action(showPlan);
  verb('imports', 'the latest imports and their numbers, the newest first').action(showImports);
  addChangesOptions(verb('changes', 'who changed what and when, the newest first')).action(showChanges);
  addCostsOptions(verb('costs', 'energy, money and CO2e that fouling cost by unit, site and month')).action(
    showCosts,
  );
}

async function showFleet(options: OutputOptions): Promise<void> {
  const fleet = await withContext(results.showFleet);
  print(options, { document: fleet, table: { columns: UNIT_COLUMNS, rows: fleet.map(unitRow) } });
}

async function showUnit(tag: string, options: OutputOptions): Promise<void> {
  const unit = await withContext((context) => results.showUnit(context, tag));
  print(options, { document: unit, table: { columns: UNIT_COLUMNS, rows: [unitRow(unit)] } });
}

const UNIT_COLUMNS = [
  'tag',
  'state',
  'Rf [m2.K/W]',
  'u(Rf) [m2.K/W]',
  'allowance used',
  'clean-by P10',
  'P50',
  'P90',
  'crossed on',
  'lost duty [W]',
  'readings usable',
];

function unitRow(unit: UnitResult) {
  const { cleanBy } = unit;
  return [
    unit.tag,
    unit.state,
    rounded(unit.foulingResistance),
    rounded(unit.uncertainty),
    rounded(unit.allowanceUsed),
    cleanBy.p10,
    cleanBy.p50,
    cleanBy.p90,
    cleanBy.crossedOn,
    rounded(unit.lostDuty),
    rounded(unit.health.usable),
  ];
}

async function showDaily(tag: string, options: OutputOptions): Promise<void> {
  const daily = await withContext((context) => results.showDaily(context, tag));
  const columns = [
    'day',
    'readings',
    'accepted',
    'duty [W]',
    'U',
    'clean U',
    'Rf [m2.K/W]',
    'u(Rf)',
    'lost duty [W]',
  ];
  const rows = daily.days.map((day) => [
    day.day,
    day.readings,
    day.accepted,
    rounded(day.duty),
    rounded(day.U),
    rounded(day.cleanU),
    rounded(day.foulingResistance),
    rounded(day.uncertainty),
    rounded(day.lostDuty),
  ]);
  print(options, { document: daily, table: { columns, rows } });
}

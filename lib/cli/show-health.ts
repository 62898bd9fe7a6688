import type { UnitHealth } from '@/lib/contract/results';
import { countOf } from '@/lib/report/format/words';
import * as results from '@/lib/work/show-results';
import { type OutputOptions, print, rounded } from './output';
import { withContext } from './with-context';

const COLUMNS = ['tag', 'usable', 'worst reason', 'since', 'suspect since', 'balance change'];

/** Data health of one unit, or of every unit and of the fleet. */
export async function showHealth(tag: string | undefined, options: OutputOptions): Promise<void> {
  if (tag !== undefined) {
    const health = await withContext((context) => results.showHealth(context, tag));
    print(options, { document: health, table: { columns: COLUMNS, rows: [healthRow(health)] } });
    return;
  }
  const document = await withContext(results.showFleetHealth);
  const { units, suspect, usable } = document.fleet;
  const total = [countOf(units, 'unit'), rounded(usable), null, null, `${suspect} suspect`, null];
  // A total among the rows of a file would be taken for a unit.
  const rows = options.csv ? document.units.map(healthRow) : [...document.units.map(healthRow), total];
  print(options, { document, table: { columns: COLUMNS, rows } });
}

function healthRow({ tag, usable, worstReason, since, suspectSince, drift }: UnitHealth) {
  return [tag, rounded(usable), worstReason, since, suspectSince, rounded(drift?.change)];
}

import type { ReplacedRow } from './series-store';
import { VALUE_COLUMNS } from './value-columns';

/** What every row of a query for replaced readings begins with: unit, time, batches, flow bases. */
const FIRST = 7;

/**
 * Columns of a query for what a batch changed, the same on each database. The tables in it: `before`, the rows as they stood;
 * `now`, those that are still as the batch left them; `later`, what a later batch keeps of those it changed again.
 */
export function replacedColumns(): string {
  const of = (table: string) => VALUE_COLUMNS.map((name) => `${table}.${name}`).join(', ');
  return `before.unit_id, before.time, before.previous_batch_id, now.batch_id, later.batch_id,
          before.flow_basis, coalesce(now.flow_basis, later.flow_basis, before.flow_basis),
          ${of('before')}, ${of('now')}, ${of('later')}`;
}

/** A row of that query. */
export function replacedRow(row: readonly (number | null)[]): ReplacedRow {
  const [unitId, time, beforeBatch, now, later, basisBefore, basisAfter] = row;
  const width = VALUE_COLUMNS.length;
  const part = (index: number) => row.slice(FIRST + index * width, FIRST + (index + 1) * width);
  const after = now !== null ? part(1) : later !== null ? part(2) : null;
  return {
    unitId: unitId!,
    time: time!,
    beforeBatch: beforeBatch!,
    before: part(0),
    basisBefore: basisBefore!,
    basisAfter: basisAfter!,
    after,
    isChangedSince: now === null && later !== null,
  };
}

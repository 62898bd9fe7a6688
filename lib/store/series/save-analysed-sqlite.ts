import type Database from 'better-sqlite3';
import type { CleanReferenceRecord } from '@/lib/contract/clean-references';
import type { AnalysedUnit, DayStatement, WrittenResult } from './analysis-store';
import { TO_BE_TOLD } from './analysis-store';
import { isAfterwards, statementToWrite } from './day-statements';
import { RESULT_COLUMNS } from './result-columns';

/** Prepares writing worked-out units down in one transaction. */
export function prepareSaveAnalysed(
  database: Database.Database,
): (worker: string, units: readonly AnalysedUnit[]) => void {
  const isHeld = database
    .prepare<[number, string], number>('SELECT 1 FROM unit_due WHERE unit_id = ? AND held_by = ?')
    .pluck();
  const write = prepareWrite(database);
  const settle = prepareSettle(database);
  const grow = database.prepare(
    'INSERT INTO data_revision (name, number) VALUES (?, 1) ON CONFLICT (name) DO UPDATE SET number = number + 1',
  );
  return database.transaction((worker: string, units: readonly AnalysedUnit[]) => {
    let isWritten = false;
    for (const unit of units) {
      if (isHeld.get(unit.unitId, worker) === undefined) continue;
      if (unit.written !== null) {
        write(unit.unitId, unit.written);
        isWritten = true;
      }
      settle(unit);
    }
    if (isWritten) for (const name of ['results', 'tellings']) grow.run(name);
  }).immediate;
}

function prepareWrite(database: Database.Database): (unitId: number, written: WrittenResult) => void {
  const names = RESULT_COLUMNS.join(', ');
  const marks = RESULT_COLUMNS.map(() => '?').join(', ');
  const newer = RESULT_COLUMNS.map((name) => `${name} = excluded.${name}`).join(', ');
  const saveResult = database.prepare(
    `INSERT INTO unit_result (unit_id, ${names}) VALUES (?, ${marks}) ON CONFLICT (unit_id) DO UPDATE SET ${newer}`,
  );
  const removeDays = database.prepare('DELETE FROM daily_block WHERE unit_id = ? AND month >= ?');
  const addDays = database.prepare('INSERT INTO daily_block (unit_id, month, figures) VALUES (?, ?, ?)');
  const saveStatement = prepareSaveStatement(database);
  const addReference = prepareAddReference(database);
  return (unitId, written) => {
    const { asOf, computedAt, methodVersion, unitVersion, nominal, daily } = written;
    const { basis, result, trend, telling, summary } = written;
    const heads = [asOf, computedAt, methodVersion, unitVersion, nominal];
    saveResult.run(unitId, ...heads, basis, result, trend, telling, summary);
    if (daily !== null) {
      removeDays.run(unitId, daily.fromMonth);
      for (const { month, figures } of daily.blocks) addDays.run(unitId, month, figures);
    }
    saveStatement(unitId, written);
    if (written.reference !== null) addReference(unitId, written.reference);
  };
}

function prepareSaveStatement(database: Database.Database) {
  const hasLater = database
    .prepare<[number, number], number>('SELECT 1 FROM unit_statement WHERE unit_id = ? AND day > ? LIMIT 1')
    .pluck();
  const find = database
    .prepare<[number, number], string>('SELECT statement FROM unit_statement WHERE unit_id = ? AND day = ?')
    .pluck();
  const save = database.prepare(
    `INSERT INTO unit_statement (unit_id, day, computed_at, method_version, statement) VALUES (?, ?, ?, ?, ?)
     ON CONFLICT (unit_id, day) DO UPDATE SET computed_at = excluded.computed_at,
       method_version = excluded.method_version, statement = excluded.statement`,
  );
  type Said = { statement: DayStatement; computedAt: number; methodVersion: number };
  return (unitId: number, { statement, computedAt, methodVersion }: Said): void => {
    const { day } = statement;
    const known = find.get(unitId, day);
    const text = statementToWrite(statement, {
      hasLater: hasLater.get(unitId, day) !== undefined,
      ofDay: known === undefined ? null : { isAfterwards: isAfterwards(known) },
    });
    if (text !== null) save.run(unitId, day, computedAt, methodVersion, text);
  };
}

/** Where a person has accepted a reference under that number meanwhile, theirs holds and the unit is due again. */
function prepareAddReference(database: Database.Database) {
  const add = database.prepare(
    `INSERT INTO clean_reference (unit_id, number, from_at, method, unit_version, hot_factor, wall_factor, cold_factor,
       hot_uncertainty, cold_uncertainty, evidence_from, evidence_to, readings, accepted_by, reason, created_at)
     VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?) ON CONFLICT (unit_id, number) DO NOTHING`,
  );
  return (unitId: number, reference: CleanReferenceRecord): void => {
    const { factors, uncertainty, evidence } = reference;
    add.run(
      unitId,
      reference.number,
      reference.from,
      reference.method,
      reference.unitVersion,
      ...[factors.hot, factors.wall, factors.cold, uncertainty.hot, uncertainty.cold],
      ...[evidence?.from ?? null, evidence?.to ?? null, evidence?.readings ?? null],
      ...[reference.acceptedBy, reference.reason, reference.acceptedAt],
    );
  };
}

/** Prepares what a unit is due for afterwards, and letting it go; a change under a newer mark stays due as it is. */
function prepareSettle(database: Database.Database): (unit: AnalysedUnit) => void {
  const clear = database.prepare('DELETE FROM unit_due WHERE unit_id = ? AND mark = ?');
  const postpone = database.prepare('UPDATE unit_due SET since = ? WHERE unit_id = ? AND mark = ?');
  const letGo = database.prepare('UPDATE unit_due SET held_by = NULL, held_until = NULL WHERE unit_id = ?');
  return ({ unitId, mark, after }) => {
    if (after === 'as-before') return;
    if (after === 'done') clear.run(unitId, mark);
    else postpone.run(TO_BE_TOLD, unitId, mark);
    letGo.run(unitId);
  };
}

import type Database from 'better-sqlite3';
import {
  type KnownNominal,
  MOST_SINCE,
  NOMINAL_COLUMNS,
  type NominalAsked,
  NominalSearch,
  nominalPage,
  nominalSince,
} from './nominal-search';

/** Values in the order of BALANCE_SENSORS. */
type Row = (number | null)[];

const NO_LIMIT = -1;

/** Prepares telling the nominal sensors: from the newest readings, without reading the whole record where they tell. */
export function prepareNominal(database: Database.Database) {
  const end = (order: 'min' | 'max') =>
    database
      .prepare<[number, number], number | null>(
        `SELECT ${order}(time) FROM reading WHERE unit_id = ? AND time < ?`,
      )
      .pluck();
  const [first, last] = [end('min'), end('max')];
  const newestFirst = database
    .prepare<[number, number, number, number], Row>(
      `SELECT ${NOMINAL_COLUMNS.join(', ')} FROM reading
       WHERE unit_id = ? AND time < ? ORDER BY time DESC LIMIT ? OFFSET ?`,
    )
    .raw();
  const hasOther = NOMINAL_COLUMNS.map((name) => prepareHasOther(database, name));
  const since = prepareSince(database, (unitId, to) => last.get(unitId, to) ?? null);
  return ({ unitId, to, known = null }: NominalAsked): number => {
    const told = known === null ? null : since(unitId, to, known);
    if (told !== null) return told;
    const span = (last.get(unitId, to) ?? 0) - (first.get(unitId, to) ?? 0);
    const pageRows = nominalPage(span);
    const search = new NominalSearch(span, newestFirst.all(unitId, to, pageRows, 0));
    if (search.isDone) return search.bits;
    for (const { place, value } of search.stillSensors())
      if (!hasOther[place]!(unitId, to, value)) search.isConstant(place);
    if (search.isDone) return search.bits;
    for (const row of newestFirst.iterate(unitId, to, NO_LIMIT, pageRows)) if (search.take(row)) break;
    return search.bits;
  };
}

/** Prepares telling them from what is known and the readings since; null where that does not tell. */
function prepareSince(
  database: Database.Database,
  lastBefore: (unitId: number, to: number) => number | null,
) {
  const rowsSince = database
    .prepare<[number, number, number, number], Row>(
      `SELECT ${NOMINAL_COLUMNS.join(', ')} FROM reading
       WHERE unit_id = ? AND time >= ? AND time < ? ORDER BY time LIMIT ?`,
    )
    .raw();
  const lastValue = NOMINAL_COLUMNS.map((name) =>
    database
      .prepare<[number, number], number>(
        `SELECT ${name} FROM reading WHERE unit_id = ? AND time < ? AND ${name} IS NOT NULL
         ORDER BY time DESC LIMIT 1`,
      )
      .pluck(),
  );
  return (unitId: number, to: number, known: KnownNominal): number | null => {
    const before = lastBefore(unitId, known.to);
    const rows = known.to > to ? null : rowsSince.all(unitId, known.to, to, MOST_SINCE);
    if (before === null || rows === null || rows.length === MOST_SINCE) return null;
    const told = nominalSince(known.bits, lastBefore(unitId, to)! - before, rows);
    const isHeld = ({ place, value }: { place: number; value: number }) =>
      (lastValue[place]!.get(unitId, known.to) ?? value) === value;
    return told?.held.every(isHeld) ? told.bits : null;
  };
}

/** Whether a sensor ever held another value than this one, or any at all where this is null: asked within the database. */
function prepareHasOther(database: Database.Database, name: string) {
  const prepare = (is: string) =>
    database.prepare<[number, number, number | null], 1>(
      `SELECT 1 FROM reading WHERE unit_id = ? AND time < ? AND ${is} LIMIT 1`,
    );
  // Each with its three parameters.
  const any = prepare(`${name} IS NOT ?`);
  const other = prepare(`${name} <> ?`);
  return (unitId: number, to: number, value: number | null): boolean =>
    (value === null ? any : other).get(unitId, to, value) !== undefined;
}

import type Database from 'better-sqlite3';
import { countChanged, countMerged, type ImportTally } from './import-tally';
import { type Merged, mergeRow, newRow, type StandingRow } from './merge-row';
import type { ReadingRows } from './reading-rows';
import { VALUE_COLUMNS } from './value-columns';

/** Rows of one INSERT: half the work of as many single ones, and more of them gain nothing more. */
const INSERT_ROWS = 32;
/** Rows of one unit whose stored readings are asked for at once. */
const SEGMENT_ROWS = 1024;
/** Stored readings between the first and last row of a segment beyond which each row asks for its own. */
const SPARSE = 4;
/** Rows after which whatever else this process does gets its turn. */
const PAUSE_ROWS = 8192;

/** Time, values, flow basis, batch. */
type StoredRow = (number | null)[];

const FIRST_VALUE = 1;
const FLOW_BASIS = FIRST_VALUE + VALUE_COLUMNS.length;
const BATCH = FLOW_BASIS + 1;

/** Takes sorted rows into the readings, within a transaction of the caller's. */
export class SqliteMerge {
  readonly #statements: Statements;
  readonly #inserter: Inserter;
  readonly #batch: number;
  readonly #tally: ImportTally;

  constructor(database: Database.Database, batch: number, tally: ImportTally) {
    this.#statements = prepare(database);
    this.#inserter = new Inserter(database, batch);
    this.#batch = batch;
    this.#tally = tally;
  }

  /** @param rows by unit and time; those of one unit and instant in the order in which they count */
  async take(rows: ReadingRows): Promise<void> {
    let sincePause = 0;
    for (let from = 0; from < rows.length; ) {
      const to = segmentEnd(rows, from);
      this.#takeSegment(rows, from, to);
      sincePause += to - from;
      from = to;
      if (sincePause < PAUSE_ROWS) continue;
      sincePause = 0;
      await new Promise(setImmediate);
    }
    this.#inserter.flush();
  }

  #takeSegment(rows: ReadingRows, from: number, to: number): void {
    const find = this.#storedIn(rows, from, to);
    if (find === null) {
      for (let i = from; i < to; i++) this.#inserter.addRow(rows, i);
      this.#tally.added += to - from;
      const stretch = { first: rows.time[from]!, last: rows.time[to - 1]! };
      countChanged(this.#tally, rows.unitId[from]!, stretch);
      return;
    }
    for (let i = from; i < to; ) {
      const end = keyEnd(rows, i, to);
      this.#takeKey(rows, [i, end], find(rows.time[i]!));
      i = end;
    }
  }

  /** Finds the stored row of an instant, instants asked for in ascending order; null where all rows are new and none comes twice. */
  #storedIn(
    { unitId, time }: ReadingRows,
    from: number,
    to: number,
  ): ((time: number) => StoredRow | undefined) | null {
    const unit = unitId[from]!;
    const most = (to - from) * SPARSE + INSERT_ROWS;
    const stored = this.#statements.findRange.all(unit, time[from]!, time[to - 1]!, most);
    if (stored.length === 0 && hasEveryKeyOnce(time, from, to)) return null;
    if (stored.length === most) return (instant) => this.#statements.find.get(unit, instant);
    let at = 0;
    return (instant) => {
      while (at < stored.length && stored[at]![0]! < instant) at++;
      return at < stored.length && stored[at]![0] === instant ? stored[at] : undefined;
    };
  }

  #takeKey(rows: ReadingRows, [from, to]: [number, number], stored: StoredRow | undefined): void {
    const unitId = rows.unitId[from]!;
    const time = rows.time[from]!;
    const count = (merged: Merged) => countMerged(this.#tally, unitId, time, merged);
    const standing = stored === undefined ? newRow(rows, from) : standingOf(stored);
    if (stored === undefined) count('added');
    let isChanged = false;
    for (let i = stored === undefined ? from + 1 : from; i < to; i++) {
      const merged = mergeRow(standing, rows, i);
      count(merged);
      isChanged ||= merged !== 'unchanged';
    }
    if (stored === undefined) this.#inserter.addStanding(unitId, time, standing);
    else if (isChanged) this.#change(unitId, stored, standing);
  }

  #change(unitId: number, stored: StoredRow, { values, flowBasis }: StandingRow): void {
    const [time, ...before] = stored;
    // A row this very batch has already written has its earlier state kept, or had none.
    if (stored[BATCH] !== this.#batch) this.#statements.keepBefore.run(this.#batch, unitId, time, ...before);
    this.#statements.update.run(...values, flowBasis, this.#batch, unitId, time);
  }
}

function standingOf(stored: StoredRow): StandingRow {
  return { values: stored.slice(FIRST_VALUE, FLOW_BASIS), flowBasis: stored[FLOW_BASIS]! };
}

/** Row after the last of a segment: of one unit, and never between two rows of one instant. */
function segmentEnd({ length, unitId, time }: ReadingRows, from: number): number {
  let to = from + 1;
  while (
    to < length &&
    unitId[to] === unitId[from] &&
    (to - from < SEGMENT_ROWS || time[to] === time[to - 1])
  )
    to++;
  return to;
}

function keyEnd({ time }: ReadingRows, from: number, most: number): number {
  let to = from + 1;
  while (to < most && time[to] === time[from]) to++;
  return to;
}

function hasEveryKeyOnce(time: Float64Array, from: number, to: number): boolean {
  for (let i = from + 1; i < to; i++) if (time[i] === time[i - 1]) return false;
  return true;
}

/** Gathers new rows for one INSERT of many. */
class Inserter {
  readonly #many: Database.Statement;
  readonly #one: Database.Statement;
  readonly #batch: number;
  /** Parameters of the statement; NaN is bound as NULL by SQLite itself, and keeps this an array of nothing but numbers. */
  readonly #bound: number[] = new Array<number>(INSERT_ROWS * INSERTED).fill(Number.NaN);
  #at = 0;

  constructor(database: Database.Database, batch: number) {
    const columns = ['unit_id', 'time', ...VALUE_COLUMNS, 'flow_basis', 'batch_id'];
    const row = `(${columns.map(() => '?').join(', ')})`;
    const into = `INSERT INTO reading (${columns.join(', ')}) VALUES`;
    this.#many = database.prepare(`${into} ${Array(INSERT_ROWS).fill(row).join(', ')}`);
    this.#one = database.prepare(`${into} ${row}`);
    this.#batch = batch;
  }

  addRow({ unitId, time, values, flowBasis }: ReadingRows, i: number): void {
    const bound = this.#bound;
    let at = this.#at;
    bound[at++] = unitId[i]!;
    bound[at++] = time[i]!;
    for (let s = 0; s < VALUE_COLUMNS.length; s++) bound[at++] = values[s]![i]!;
    bound[at++] = flowBasis[i]!;
    bound[at++] = this.#batch;
    this.#grown(at);
  }

  addStanding(unitId: number, time: number, { values, flowBasis }: StandingRow): void {
    const row = [unitId, time, ...values.map((value) => value ?? Number.NaN), flowBasis, this.#batch];
    row.forEach((value, c) => {
      this.#bound[this.#at + c] = value;
    });
    this.#grown(this.#at + row.length);
  }

  #grown(at: number): void {
    this.#at = at;
    if (at < this.#bound.length) return;
    this.#many.run(this.#bound);
    this.#at = 0;
  }

  flush(): void {
    for (let at = 0; at < this.#at; at += INSERTED) this.#one.run(this.#bound.slice(at, at + INSERTED));
    this.#at = 0;
  }
}

/** Columns of an inserted row: unit, time, values, flow basis, batch. */
const INSERTED = VALUE_COLUMNS.length + 4;

type Statements = ReturnType<typeof prepare>;

function prepare(database: Database.Database) {
  const values = VALUE_COLUMNS.join(', ');
  const stored = `SELECT time, ${values}, flow_basis, batch_id FROM reading`;
  return {
    findRange: database
      .prepare<[number, number, number, number], StoredRow>(
        `${stored} WHERE unit_id = ? AND time BETWEEN ? AND ? ORDER BY time LIMIT ?`,
      )
      .raw(),
    find: database.prepare<[number, number], StoredRow>(`${stored} WHERE unit_id = ? AND time = ?`).raw(),
    update: database.prepare(
      `UPDATE reading SET ${VALUE_COLUMNS.map((name) => `${name} = ?`).join(', ')}, flow_basis = ?, batch_id = ?
       WHERE unit_id = ? AND time = ?`,
    ),
    keepBefore: database.prepare(
      `INSERT INTO reading_before (batch_id, unit_id, time, ${values}, flow_basis, previous_batch_id)
       VALUES (?, ?, ?, ${VALUE_COLUMNS.map(() => '?').join(', ')}, ?, ?)`,
    ),
  };
}

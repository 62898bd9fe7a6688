import type Database from 'better-sqlite3';
import { SENSORS } from '@/lib/core/exchange/exchanger';
import { COLD_FLOW_IS_VOLUME, HOT_FLOW_IS_VOLUME } from '@/lib/core/series/reading-columns';
import type { ReadingChunk } from '@/lib/ingest/reading-chunk';
import { inTurn, onceFree, SHORT_WAIT_MS } from '../write-turn';
import { prepareMarkDue } from './mark-due';
import { openSqlite } from './open-sqlite';
import { prepareRecord } from './prepare-record';
import type { ImportBatch, ImportCounts } from './series-store';
import { VALUE_COLUMNS } from './value-columns';

const HOT_FLOW = SENSORS.indexOf('hotFlow');
const COLD_FLOW = SENSORS.indexOf('coldFlow');

type StoredRow = (number | null)[];

/**
 * Takes a batch of readings in one transaction on a connection of its own, so that a process killed anywhere leaves
 * the whole batch or none of it, and other work of this process never lands inside.
 */
export async function importBatchSqlite(path: string, batch: ImportBatch): Promise<ImportCounts> {
  return inTurn(path, () => takeBatch(path, batch));
}

async function takeBatch(path: string, batch: ImportBatch): Promise<ImportCounts> {
  const database = openSqlite(path);
  try {
    database.pragma(`busy_timeout = ${SHORT_WAIT_MS}`);
    await onceFree(() => database.exec('BEGIN IMMEDIATE'));
    const counts = await takeChunks(database, batch);
    database.exec(batch.check ? 'ROLLBACK' : 'COMMIT');
    return batch.check ? { ...counts, batch: null, changed: new Map() } : counts;
  } finally {
    // Closing rolls back whatever an error left open.
    database.close();
  }
}

async function takeChunks(database: Database.Database, batch: ImportBatch): Promise<ImportCounts> {
  const statements = prepare(database);
  const { source, at, actor, mappingName = null, contentHash = null } = batch;
  const named = [source, at, actor.name, mappingName, contentHash];
  const id = Number(statements.addBatch.run(...named).lastInsertRowid);
  const counts: ImportCounts = {
    batch: id,
    read: 0,
    added: 0,
    replaced: 0,
    unchanged: 0,
    setAside: 0,
    firstTime: null,
    lastTime: null,
    changed: new Map(),
  };
  for await (const chunk of batch.chunks) {
    takeRows(chunk, { statements, counts, unitIds: batch.unitIds, id });
    for (const row of chunk.setAside) {
      statements.addSetAside.run(id, row.line, row.text, row.reason, row.field, row.message);
    }
    counts.read += chunk.read;
    counts.setAside += chunk.setAside.length;
  }
  const { read, added, replaced, unchanged, setAside } = counts;
  statements.closeBatch.run(read, added, replaced, unchanged, setAside, id);
  for (const [unitId, since] of counts.changed) statements.markDue(unitId, since);
  const after = { batch: id, read, added, replaced, unchanged, setAside, units: changedTags(batch, counts) };
  prepareRecord(database, batch)({ subject: 'import', name: source, action: 'added', after });
  return counts;
}

/** Units that a record names; beyond that it only counts. */
const MOST_TAGS = 50;

function changedTags({ unitIds }: ImportBatch, { changed }: ImportCounts): string[] | number {
  if (changed.size > MOST_TAGS) return changed.size;
  return [...unitIds].filter(([, id]) => changed.has(id)).map(([tag]) => tag);
}

type Statements = ReturnType<typeof prepare>;

function prepare(database: Database.Database) {
  const values = VALUE_COLUMNS.join(', ');
  const marks = VALUE_COLUMNS.map(() => '?').join(', ');
  return {
    addBatch: database.prepare(
      `INSERT INTO import_batch
         (source, created_at, imported_by, mapping_name, content_hash, read, added, replaced, unchanged, set_aside)
       VALUES (?, ?, ?, ?, ?, 0, 0, 0, 0, 0)`,
    ),
    closeBatch: database.prepare(
      'UPDATE import_batch SET read = ?, added = ?, replaced = ?, unchanged = ?, set_aside = ? WHERE id = ?',
    ),
    addSetAside: database.prepare(
      'INSERT INTO row_set_aside (batch_id, line, text, reason, field, message) VALUES (?, ?, ?, ?, ?, ?)',
    ),
    find: database
      .prepare<[number, number], StoredRow>(
        `SELECT ${values}, flow_basis, batch_id FROM reading WHERE unit_id = ? AND time = ?`,
      )
      .raw(),
    insert: database.prepare(
      `INSERT INTO reading (unit_id, time, ${values}, flow_basis, batch_id) VALUES (?, ?, ${marks}, ?, ?)`,
    ),
    update: database.prepare(
      `UPDATE reading SET ${VALUE_COLUMNS.map((name) => `${name} = ?`).join(', ')}, flow_basis = ?, batch_id = ?
       WHERE unit_id = ? AND time = ?`,
    ),
    keepBefore: database.prepare(
      `INSERT INTO reading_before (batch_id, unit_id, time, ${values}, flow_basis, previous_batch_id)
       VALUES (?, ?, ?, ${marks}, ?, ?)`,
    ),
    markDue: prepareMarkDue(database),
  };
}

type Taking = {
  statements: Statements;
  counts: ImportCounts;
  unitIds: ReadonlyMap<string, number>;
  id: number;
};

function takeRows(chunk: ReadingChunk, taking: Taking): void {
  const units = chunk.tags.map((tag) => taking.unitIds.get(tag));
  for (let i = 0; i < chunk.length; i++) {
    const unitId = units[chunk.tag[i]!];
    if (unitId === undefined) throw new Error(`no unit for tag ${chunk.tags[chunk.tag[i]!]}`);
    takeRow(chunk, i, { ...taking, unitId });
  }
}

function takeRow(chunk: ReadingChunk, i: number, taking: Taking & { unitId: number }): void {
  const { statements, counts, unitId, id } = taking;
  const time = chunk.time[i]!;
  counts.firstTime = counts.firstTime === null ? time : Math.min(counts.firstTime, time);
  counts.lastTime = counts.lastTime === null ? time : Math.max(counts.lastTime, time);
  const stored = statements.find.get(unitId, time);
  if (stored === undefined) {
    statements.insert.run(
      unitId,
      time,
      ...SENSORS.map((sensor) => orNull(chunk[sensor][i]!)),
      chunk.flowBasis[i]!,
      id,
    );
    counts.added++;
  } else {
    const merged = merge(stored, chunk, i);
    if (merged === null) {
      counts.unchanged++;
      return;
    }
    // A row this very batch has already written has its earlier state kept, or had none.
    if (stored.at(-1) !== id) statements.keepBefore.run(id, unitId, time, ...stored);
    statements.update.run(...merged.values, id, unitId, time);
    if (merged.replaces) counts.replaced++;
    else counts.added++;
  }
  counts.changed.set(unitId, Math.min(counts.changed.get(unitId) ?? time, time));
}

/** Stored values overlaid by the file's; null when that changes nothing. `replaces`: a value that was there changed. */
function merge(
  stored: StoredRow,
  chunk: ReadingChunk,
  i: number,
): { values: StoredRow; replaces: boolean } | null {
  const values = stored.slice(0, SENSORS.length + 1);
  let changes = false;
  let replaces = false;
  let basis = stored[SENSORS.length]!;
  for (let s = 0; s < SENSORS.length; s++) {
    const given = chunk[SENSORS[s]!][i]!;
    if (Number.isNaN(given)) continue;
    const bit = s === HOT_FLOW ? HOT_FLOW_IS_VOLUME : s === COLD_FLOW ? COLD_FLOW_IS_VOLUME : 0;
    const sameBasis = ((basis ^ chunk.flowBasis[i]!) & bit) === 0;
    if (stored[s] === given && sameBasis) continue;
    changes = true;
    if (stored[s] !== null) replaces = true;
    values[s] = given;
    basis = (basis & ~bit) | (chunk.flowBasis[i]! & bit);
  }
  values[SENSORS.length] = basis;
  return changes ? { values, replaces } : null;
}

function orNull(value: number): number | null {
  return Number.isNaN(value) ? null : value;
}

import type { Pool, PoolClient } from 'pg';
import { ENTITY_LOCK, IMPORT_LOCK, takeLock } from '../postgres-locks';
import { countsOf, type ImportTally, importDocument, newTally, uncount } from './import-tally';
import { markDue } from './postgres-due';
import { mergeStaged } from './postgres-merge';
import { createPartitions } from './postgres-partitions';
import { INSTANT, recordBulk } from './postgres-record';
import { letGoStaged, type Staged, stageBatch } from './postgres-staging';
import { inTransaction, withClient } from './postgres-transaction';
import { bumpRevision } from './revision';
import type { ImportBatch, ImportCounts } from './series-store';

/** Number of a batch that is only checked: none is used up. */
const NO_BATCH = 0;

/**
 * Takes a batch of readings: sends it to the server as it is read, and puts it into its place in one transaction when nothing
 * more can go wrong with the file. Imports put into place one after the other; everything else goes on meanwhile.
 */
export async function importBatchPostgres(pool: Pool, batch: ImportBatch): Promise<ImportCounts> {
  const tally = newTally();
  const staged = await stageBatch(pool, batch, tally);
  let failed: Error | undefined;
  try {
    const act = (client: PoolClient) => takeStaged(client, batch, { staged, tally });
    const id = await (staged.client === null ? withClient(pool, act) : act(staged.client));
    return countsOf(tally, id, batch);
  } catch (error) {
    failed = error as Error;
    throw error;
  } finally {
    await letGoStaged(staged, failed);
  }
}

type Taking = { staged: Staged; tally: ImportTally };

/** @returns number of the batch */
function takeStaged(client: PoolClient, batch: ImportBatch, { staged, tally }: Taking): Promise<number> {
  const take = async () => {
    uncount(tally);
    // However long it takes: it does not wait for anybody, and nobody but imports for it.
    await client.query('SET LOCAL statement_timeout = 0');
    await client.query(takeLock(IMPORT_LOCK));
    await createPartitions(client, staged.months);
    const id = batch.check ? NO_BATCH : await addBatch(client, batch);
    await mergeStaged(client, id, staged, tally);
    if (!batch.check) await closeBatch(client, batch, { id, tally, isEmpty: staged.client === null });
    return id;
  };
  return inTransaction(client, take, batch.check ? 'ROLLBACK' : 'COMMIT');
}

async function addBatch(client: PoolClient, batch: ImportBatch): Promise<number> {
  const { source, at, actor, mappingName = null, contentHash = null } = batch;
  const { rows } = await client.query<{ id: number }>(
    `INSERT INTO import_batch
       (source, created_at, imported_by, mapping_name, content_hash, read, added, replaced, unchanged, set_aside)
     VALUES ($1, ${INSTANT('$2')}, $3, $4, $5, 0, 0, 0, 0, 0) RETURNING id`,
    [source, at, actor.name, mappingName, contentHash],
  );
  return rows[0]!.id;
}

async function closeBatch(
  client: PoolClient,
  batch: ImportBatch,
  { id, tally, isEmpty }: { id: number; tally: ImportTally; isEmpty: boolean },
): Promise<void> {
  const { read, added, replaced, unchanged, setAside, changed } = tally;
  await client.query(
    'UPDATE import_batch SET read = $1, added = $2, replaced = $3, unchanged = $4, set_aside = $5 WHERE id = $6',
    [read, added, replaced, unchanged, setAside, id],
  );
  const units = [...changed];
  await client.query(
    `INSERT INTO import_batch_unit (batch_id, unit_id, first_time, last_time)
     SELECT $1, * FROM unnest($2::int[], $3::bigint[], $4::bigint[])`,
    [id, units.map(([unit]) => unit), units.map(([, { first }]) => first), units.map(([, { last }]) => last)],
  );
  if (!isEmpty) {
    await client.query(
      `INSERT INTO row_set_aside (batch_id, line, text, reason, field, message)
       SELECT $1, line, text, reason, field, message FROM staged_set_aside ORDER BY ordinal`,
      [id],
    );
  }
  // Whoever changes entities marks units due too.
  await client.query(takeLock(ENTITY_LOCK));
  await markDue(client, new Map(units.map(([unit, { first }]) => [unit, first])));
  const after = importDocument(tally, id, batch);
  await recordBulk(client, batch, { subject: 'import', name: batch.source, action: 'added', after });
  await client.query(bumpRevision('readings'));
}

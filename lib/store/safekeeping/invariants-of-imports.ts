import { type Invariant, sqlInvariant } from './finding';

export const IMPORT_INVARIANTS: readonly Invariant[] = [
  sqlInvariant({
    name: 'readings',
    tables: ['reading', 'unit', 'import_batch'],
    count: 'SELECT count(*) AS n FROM reading',
    things: 'readings, each of a unit and of a batch that was not undone',
    wrong: `
      SELECT n || ' readings of unit ' || unit_id || ' and batch ' || batch_id || ', but there is no such ' ||
        CASE WHEN unit.id IS NULL THEN 'unit' WHEN batch.id IS NULL THEN 'batch'
          ELSE 'batch any more: it was undone' END AS problem
      FROM (SELECT unit_id, batch_id, count(*) AS n FROM reading GROUP BY unit_id, batch_id) AS held
        LEFT JOIN unit ON unit.id = unit_id LEFT JOIN import_batch AS batch ON batch.id = batch_id
      WHERE unit.id IS NULL OR batch.id IS NULL OR batch.undone_at IS NOT NULL ORDER BY unit_id, batch_id`,
  }),
  sqlInvariant({
    name: 'values before a change',
    tables: ['reading_before', 'unit', 'import_batch'],
    count: 'SELECT count(*) AS n FROM reading_before',
    things: 'earlier readings, each of a unit, of the batch that changed it and of the one before',
    wrong: `
      SELECT n || ' earlier readings of unit ' || unit_id || ', changed by batch ' || batch_id || ' after batch ' ||
        previous_batch_id || ': one of these is missing' AS problem
      FROM (SELECT unit_id, batch_id, previous_batch_id, count(*) AS n FROM reading_before GROUP BY 1, 2, 3) AS held
        LEFT JOIN unit ON unit.id = unit_id
        LEFT JOIN import_batch AS batch ON batch.id = batch_id
        LEFT JOIN import_batch AS previous ON previous.id = previous_batch_id
      WHERE unit.id IS NULL OR batch.id IS NULL OR previous.id IS NULL OR previous_batch_id = batch_id
      ORDER BY unit_id, batch_id, previous_batch_id`,
  }),
  sqlInvariant({
    name: 'batches',
    tables: ['import_batch', 'row_set_aside', 'reading'],
    count: 'SELECT count(*) AS n FROM import_batch',
    things: 'batches, each with its rows set aside and no more readings than it brought',
    wrong: `
      WITH aside AS (SELECT batch_id, count(*) AS n FROM row_set_aside GROUP BY batch_id),
        standing AS (SELECT batch_id, count(*) AS n FROM reading GROUP BY batch_id)
      SELECT 'batch ' || id || ' (' || source || '): ' || set_aside || ' rows set aside of which ' ||
        coalesce(aside.n, 0) || ' are there, ' || (added + replaced) || ' readings added or replaced and ' ||
        coalesce(standing.n, 0) || ' are there' AS problem
      FROM import_batch LEFT JOIN aside ON aside.batch_id = id LEFT JOIN standing ON standing.batch_id = id
      WHERE set_aside <> coalesce(aside.n, 0) OR coalesce(standing.n, 0) > added + replaced
        OR read < 0 OR added < 0 OR replaced < 0 OR unchanged < 0 OR set_aside < 0 ORDER BY id`,
  }),
  sqlInvariant({
    name: 'watched files',
    tables: ['watched_file', 'import_batch'],
    count: 'SELECT count(*) AS n FROM watched_file',
    things: 'files of watched folders, each taken as a batch or refused',
    wrong: `
      SELECT name || ' was taken as batch ' || batch_id || ', which is missing' AS problem FROM watched_file
      WHERE batch_id IS NOT NULL AND batch_id NOT IN (SELECT id FROM import_batch) ORDER BY id`,
  }),
];

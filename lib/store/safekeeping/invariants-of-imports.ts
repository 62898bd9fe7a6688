import { type Invariant, sqlInvariant } from './finding';

export const IMPORT_INVARIANTS: readonly Invariant[] = [
  sqlInvariant({
    name: 'readings',
    tables: ['reading', 'unit', 'import_batch'],
    count: 'SELECT count(*) AS n FROM reading',
    things: 'readings, each of a unit and of a batch that was not undone',
    wrong: `
      SELECT printf('%d readings of unit %d and batch %d, but there is no such %s', n, unit_id, batch_id,
        iif(unit.id IS NULL, 'unit', iif(batch.id IS NULL, 'batch', 'batch any more: it was undone'))) AS problem
      FROM (SELECT unit_id, batch_id, count(*) AS n FROM reading GROUP BY unit_id, batch_id)
        LEFT JOIN unit ON unit.id = unit_id LEFT JOIN import_batch AS batch ON batch.id = batch_id
      WHERE unit.id IS NULL OR batch.id IS NULL OR batch.undone_at IS NOT NULL`,
  }),
  sqlInvariant({
    name: 'values before a change',
    tables: ['reading_before', 'unit', 'import_batch'],
    count: 'SELECT count(*) AS n FROM reading_before',
    things: 'earlier readings, each of a unit, of the batch that changed it and of the one before',
    wrong: `
      SELECT printf('%d earlier readings of unit %d, changed by batch %d after batch %d: one of these is missing',
        n, unit_id, batch_id, previous_batch_id) AS problem
      FROM (SELECT unit_id, batch_id, previous_batch_id, count(*) AS n FROM reading_before GROUP BY 1, 2, 3)
        LEFT JOIN unit ON unit.id = unit_id
        LEFT JOIN import_batch AS batch ON batch.id = batch_id
        LEFT JOIN import_batch AS previous ON previous.id = previous_batch_id
      WHERE unit.id IS NULL OR batch.id IS NULL OR previous.id IS NULL OR previous_batch_id = batch_id`,
  }),
  sqlInvariant({
    name: 'batches',
    tables: ['import_batch', 'row_set_aside', 'reading'],
    count: 'SELECT count(*) AS n FROM import_batch',
    things: 'batches, each with its rows set aside and no more readings than it brought',
    wrong: `
      WITH aside AS (SELECT batch_id, count(*) AS n FROM row_set_aside GROUP BY batch_id),
        standing AS (SELECT batch_id, count(*) AS n FROM reading GROUP BY batch_id)
      SELECT printf('batch %d (%s): %d rows set aside of which %d are there, %d readings added or replaced and %d are there',
        id, source, set_aside, ifnull(aside.n, 0), added + replaced, ifnull(standing.n, 0)) AS problem
      FROM import_batch LEFT JOIN aside ON aside.batch_id = id LEFT JOIN standing ON standing.batch_id = id
      WHERE set_aside <> ifnull(aside.n, 0) OR ifnull(standing.n, 0) > added + replaced
        OR min(read, added, replaced, unchanged, set_aside) < 0`,
  }),
  sqlInvariant({
    name: 'watched files',
    tables: ['watched_file', 'import_batch'],
    count: 'SELECT count(*) AS n FROM watched_file',
    things: 'files of watched folders, each taken as a batch or refused',
    wrong: `
      SELECT printf('%s was taken as batch %d, which is missing', name, batch_id) AS problem FROM watched_file
      WHERE batch_id IS NOT NULL AND batch_id NOT IN (SELECT id FROM import_batch)`,
  }),
];

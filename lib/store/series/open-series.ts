import { databasePath, isPostgres } from '../database-path';
import type { SeriesStore } from './series-store';
import { openSqliteSeries } from './sqlite';

/** Opens readings and results of a database whose schema is up to date already, without its entities. */
export async function openSeries(databaseUrl: string): Promise<SeriesStore> {
  if (!isPostgres(databaseUrl)) return openSqliteSeries(databasePath(databaseUrl));
  const [{ openPool }, { openPostgresSeries }] = await Promise.all([
    import('../postgres-pool'),
    import('./postgres'),
  ]);
  const pool = openPool(databaseUrl);
  const series = openPostgresSeries(pool);
  return {
    ...series,
    close: async () => {
      await series.close();
      await pool.end();
    },
  };
}

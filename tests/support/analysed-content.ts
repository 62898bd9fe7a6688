import { WORKED_OUT_AUTOMATICALLY } from '@/lib/contract/clean-references';
import type { Context } from '@/lib/work/context';

/** Everything that analyses have written, to the last digit, on any database; instants of the computing left out. */
export async function analysedContent({ store }: Context) {
  const { entities, series } = store;
  const units = await entities.unit.findMany({ orderBy: { id: 'asc' } });
  const results = await entities.unitResult.findMany({ orderBy: { unitId: 'asc' } });
  const statements = await entities.unitStatement.findMany({ orderBy: [{ unitId: 'asc' }, { day: 'asc' }] });
  const references = await entities.cleanReference.findMany({
    orderBy: [{ unitId: 'asc' }, { number: 'asc' }],
  });
  return {
    results: results.map(({ computedAt: _, ...rest }) => rest),
    statements: statements.map(({ computedAt: _, ...rest }) => rest),
    references: references.map(({ id: _, createdAt: _at, ...rest }) => rest),
    daily: await Promise.all(units.map(({ id }) => series.readDaily(id))),
    due: (await series.due()).size,
  };
}

/** Takes away what analyses have written: every unit is due from the beginning. */
export async function forgetAnalyses({ store }: Context): Promise<void> {
  const { entities, series } = store;
  await entities.unitResult.deleteMany();
  await entities.unitStatement.deleteMany();
  await entities.dailyBlock.deleteMany();
  await entities.cleanReference.deleteMany({ where: { acceptedBy: WORKED_OUT_AUTOMATICALLY } });
  const units = await entities.unit.findMany();
  await series.markAllDue(
    units.map(({ id }) => id),
    0,
  );
}

import type Database from 'better-sqlite3';
import { inTurn, onceFree } from '../write-turn';
import type { AnalysisStore, Phase, TakenUnit, Taking } from './analysis-store';
import { SET_ASIDE, TO_BE_TOLD } from './analysis-store';
import { prepareSaveAnalysed } from './save-analysed-sqlite';
import { prepareKnownResults, standings, tellings, tellingsRevision } from './unit-results-sqlite';

const CHANGED: Record<Phase, string> = { own: `since < ${TO_BE_TOLD}`, told: `since >= ${TO_BE_TOLD}` };
/** Units by number, or all where none are named. Parameter: a JSON array, or null. */
const AMONG = '(@of IS NULL OR unit_id IN (SELECT value FROM json_each(@of)))';
const IS_FREE = '(held_until IS NULL OR held_until <= @now)';
const IS_WAITED_FOR = `(held_by IS NOT '${SET_ASIDE}' OR held_until <= @now)`;

/** Analysis over one SQLite file; leases go by this machine's clock, on which every process with the file runs. */
export function openSqliteAnalysis(path: string, database: Database.Database): AnalysisStore {
  const write = <T>(act: () => T) => inTurn(path, () => onceFree(act));
  const leases = prepareLeases(database);
  const saveAnalysed = prepareSaveAnalysed(database);
  const knownResults = prepareKnownResults(database);
  return {
    ...leases.reads,
    takeDue: (taking) => write(() => leases.takeDue(taking)),
    holdOn: (worker, leaseMs) => write(() => leases.holdOn(worker, leaseMs)),
    letGo: (worker) => write(() => leases.letGo(worker)),
    setAside: (worker, unitIds, forMs) => write(() => leases.setAside(worker, unitIds, forMs)),
    standings: async () => standings(database),
    tellings: async () => tellings(database),
    tellingsRevision: async () => tellingsRevision(database),
    knownResults: async (unitIds) => knownResults(unitIds),
    saveAnalysed: (worker, units) => write(() => saveAnalysed(worker, units)),
  };
}

type Asked = { of: string | null; now: number };

function asked(of: readonly number[] | null): Asked {
  return { of: of === null ? null : JSON.stringify(of), now: Date.now() };
}

function prepareLeases(database: Database.Database) {
  const isWaiting = database
    .prepare<[Asked], number>(
      `SELECT 1 FROM unit_due WHERE ${CHANGED.own} AND ${AMONG} AND ${IS_WAITED_FOR} LIMIT 1`,
    )
    .pluck();
  const take = (phase: Phase) =>
    database.prepare<[Asked & { worker: string; until: number; most: number }], TakenUnit>(
      `UPDATE unit_due SET held_by = @worker, held_until = @until WHERE unit_id IN (
         SELECT unit_id FROM unit_due WHERE ${CHANGED[phase]} AND ${AMONG} AND ${IS_FREE}
         ORDER BY since, unit_id LIMIT @most)
       RETURNING unit_id AS unitId, since, mark`,
    );
  const takes = { own: take('own'), told: take('told') };
  const hold = database.prepare('UPDATE unit_due SET held_until = ? WHERE held_by = ?');
  const release = database.prepare('UPDATE unit_due SET held_by = NULL, held_until = NULL WHERE held_by = ?');
  const aside = database.prepare(
    `UPDATE unit_due SET held_by = '${SET_ASIDE}', held_until = ? WHERE unit_id = ? AND held_by = ?`,
  );
  const workers = database
    .prepare<[], string>(
      `SELECT DISTINCT held_by FROM unit_due WHERE held_by IS NOT NULL AND held_by <> '${SET_ASIDE}'`,
    )
    .pluck();
  const counts = database.prepare<[Asked], Record<Phase, number>>(
    `SELECT count(*) FILTER (WHERE ${CHANGED.own}) AS own, count(*) FILTER (WHERE ${CHANGED.told}) AS told
     FROM unit_due WHERE ${AMONG} AND ${IS_WAITED_FOR}`,
  );
  return {
    takeDue: database.transaction(({ worker, phase, most, leaseMs, of }: Taking): TakenUnit[] => {
      const among = asked(of);
      if (phase === 'told' && isWaiting.get(among) !== undefined) return [];
      const taken = takes[phase].all({ ...among, worker, most, until: among.now + leaseMs });
      return taken.sort((a, b) => a.unitId - b.unitId);
    }).immediate,
    holdOn: (worker: string, leaseMs: number) => void hold.run(Date.now() + leaseMs, worker),
    letGo: (worker: string) => void release.run(worker),
    setAside: database.transaction((worker: string, unitIds: readonly number[], forMs: number) => {
      for (const unitId of unitIds) aside.run(Date.now() + forMs, unitId, worker);
    }).immediate,
    reads: {
      workers: async () => workers.all(),
      dueCounts: async (of: readonly number[] | null) => counts.get(asked(of))!,
    },
  };
}

import type { PrismaClient } from '@/generated/sqlite/client';
import type { CleanReferenceRecord } from '@/lib/contract/clean-references';
import type { JudgedPeriod } from '@/lib/core/checks/judged-period';
import type { StoredCleaning } from './events';
import { answerOf, explainedFalls } from './fall-answers';
import { referenceOf } from './references';
import type { StoredSite } from './units';
import { standing, verdictOf } from './verdicts';

/** Everything people have said of a unit that its results hang on. */
export type UnitDossier = {
  id: number;
  tag: string;
  site: StoredSite;
  /** Every version of its datasheet, the first one first, as JSON; savedAt [ms]. */
  versions: { number: number; document: string; savedAt: number }[];
  /** Recorded cleanings, ascending. */
  cleanings: StoredCleaning[];
  /** What people said of readings, oldest first. */
  judged: JudgedPeriod[];
  /** Local days of falls of the fouling that were no cleaning. */
  explainedFalls: number[];
  /** Every clean reference, in the order they were accepted. */
  references: CleanReferenceRecord[];
};

const WITH = {
  site: true,
  versions: { orderBy: { number: 'asc' } },
  cleanings: { orderBy: { at: 'asc' } },
  verdicts: { orderBy: { id: 'asc' } },
  fallAnswers: { orderBy: { id: 'asc' } },
  references: { orderBy: { number: 'asc' } },
} as const;

/** The dossiers of some units, in a handful of queries. */
export async function listDossiers(
  entities: PrismaClient,
  unitIds: readonly number[],
): Promise<Map<number, UnitDossier>> {
  const rows = await entities.unit.findMany({ where: { id: { in: [...unitIds] } }, include: WITH });
  return new Map(
    rows.map(({ id, tag, site, versions, cleanings, verdicts, fallAnswers, references }) => [
      id,
      {
        id,
        tag,
        site,
        versions: versions.map(({ number, document, createdAt }) => ({
          number,
          document,
          savedAt: createdAt.getTime(),
        })),
        cleanings: cleanings.map(({ unitId: _, at, ...rest }) => ({ ...rest, at: at.getTime() })),
        judged: standing(verdicts.map(verdictOf)),
        explainedFalls: explainedFalls(fallAnswers.map(answerOf)),
        references: references.map(referenceOf),
      },
    ]),
  );
}

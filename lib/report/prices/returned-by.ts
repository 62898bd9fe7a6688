import type { AnalysedUnit } from '@/lib/report/records';

/** Money that a recorded cleaning [ms] has returned so far, as the last analysis says; null where it says nothing of it. */
export function returnedBy({ result }: Pick<AnalysedUnit, 'result'>, at: number): number | null {
  // Results of an earlier version do not hold it yet, and a result tells whole seconds.
  return (
    result?.returned?.find(({ cleanedAt }) => secondOf(Date.parse(cleanedAt)) === secondOf(at))?.money ?? null
  );
}

function secondOf(instant: number): number {
  return Math.floor(instant / 1000);
}

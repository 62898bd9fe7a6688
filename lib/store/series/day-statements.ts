import type { DayStatement } from './analysis-store';

/** What is kept of a unit's statements: whether there is one of a later day, and that of the day itself. */
export type KeptStatements = { hasLater: boolean; ofDay: { isAfterwards: boolean } | null };

/**
 * What is written of a day, as JSON; null where what was said on the day itself stands: the same day worked out when the
 * record already reached beyond it does not take its place.
 */
export function statementToWrite(
  { isBehind, statement }: DayStatement,
  { hasLater, ofDay }: KeptStatements,
): string | null {
  const isAfterwards = isBehind || hasLater;
  if (isAfterwards && ofDay !== null && !ofDay.isAfterwards) return null;
  return JSON.stringify({ ...statement, isAfterwards });
}

/** Whether a kept statement was made when the record reached beyond its day. */
export function isAfterwards(statement: string): boolean {
  return (JSON.parse(statement) as { isAfterwards: boolean }).isAfterwards;
}

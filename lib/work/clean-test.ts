import type { Fault } from '@/lib/contract/app-error';
import { toCheckSettings, toExchanger } from '@/lib/contract/exchanger-from-unit';
import type { Unit } from '@/lib/contract/fleet-file';
import { AS_ON_DATASHEET, type CleanFactors, scaledFactors } from '@/lib/core/clean/clean-reference';
import { type CleanTest, cleanTestScale } from '@/lib/core/clean/clean-test';
import type { ReadingColumns } from '@/lib/core/series/reading-columns';
import { REASON_WORDS } from '@/lib/report/format/words';
import { readingColumns } from './reading-columns';

/** The clean test a datasheet states, as one reading; null where it states none. */
export function statedTest({ cleanTest }: Unit): ReadingColumns | null {
  if (cleanTest === undefined) return null;
  const { at, ...measured } = cleanTest;
  return readingColumns([{ time: at ?? NO_TIME, ...measured }]);
}

/** A test that states no time is evaluated like any other: nothing in one reading hangs on when it was. */
const NO_TIME = '1970-01-01T00:00:00Z';

/** The clean factors that a datasheet states itself: those of its clean test, else 1. */
export function statedFactors(unit: Unit): CleanFactors {
  const scale = testedScale(unit)?.scale ?? null;
  return scale === null ? AS_ON_DATASHEET : scaledFactors(scale);
}

/** What is wrong with the clean test that a datasheet's reference comes from; empty when nothing. */
export function cleanTestFaults(unit: Unit): Fault[] {
  const reasons = testedScale(unit)?.reasons ?? [];
  if (reasons.length === 0) return [];
  const said = reasons.map((reason) => REASON_WORDS[reason]).join(', ');
  const message = `cannot be evaluated: ${said}; at most one of the six values may be left out, and the balance must close`;
  return [{ field: 'cleanTest', message }];
}

/** What the clean test teaches, where the reference is to come from it. */
function testedScale(unit: Unit): CleanTest | null {
  const test = unit.clean === 'test' ? statedTest(unit) : null;
  return test === null ? null : cleanTestScale(toExchanger(unit), toCheckSettings(unit), test);
}

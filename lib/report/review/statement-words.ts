import type { UnitStatement } from '@/lib/contract/review';
import { formatFigureText } from '../format/figure';
import { formatDay } from '../format/time';
import type { UnitSystem } from '../format/unit-system';
import { monthsInWords } from '../unit/clean-by-statement';

type Span = Pick<UnitStatement, 'p10Day' | 'p50Day' | 'p90Day' | 'horizonDays'>;

/** "12 Mar 2027 (P10 3 Feb 2027 – P90 later than 24 months)", or "not within 24 months". */
export function cleanByText(said: Span): string {
  const { p10Day, p50Day, p90Day, horizonDays } = said;
  if (p50Day === null) return `not within ${monthsInWords(horizonDays)}`;
  const first = p10Day === null ? 'open' : dayBeside(p10Day, p50Day);
  const last = p90Day === null ? 'open' : dayBeside(p90Day, p50Day);
  return `${formatDay(p50Day)} (P10 ${first} – P90 ${last})`;
}

/** The year is said once unless it differs. */
function dayBeside(day: number, beside: number): string {
  const isSameYear = formatDay(day).slice(-4) === formatDay(beside).slice(-4);
  return formatDay(day, { year: !isSameYear });
}

/** "94 ± 3 %" of the allowance; a dash where nothing can be said. */
export function usedText(
  said: Pick<UnitStatement, 'allowanceUsed' | 'allowanceUsedUncertainty'>,
  system: UnitSystem,
): string {
  return formatFigureText(said.allowanceUsed, 'fraction', system, {
    uncertainty: said.allowanceUsedUncertainty,
    digits: 2,
  });
}

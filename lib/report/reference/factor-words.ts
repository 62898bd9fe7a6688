import type { ReferenceMethod } from '@/lib/contract/clean-references';
import type { CleanFactors } from '@/lib/core/clean/clean-reference';
import { formatNumber } from '@/lib/report/format/figure';
import { isAsOnDatasheet } from './basis-words';

export const METHOD_WORDS: Record<ReferenceMethod, string> = {
  datasheet: 'as on the datasheet',
  test: 'one clean test',
  scale: 'one factor, learned',
  'two-films': 'two films, learned',
};

/** Digits of a factor whose uncertainty is not known. */
const FACTOR_DECIMALS = 3;

/** "1.064 ± 0.004 on all resistances", "hot film 1.30 ± 0.01, cold film 0.81 ± 0.01". */
export function factorsInWords(
  factors: CleanFactors,
  uncertainty: { hot: number | null; cold: number | null },
): string {
  if (isAsOnDatasheet(factors)) return 'none: as on the datasheet';
  const { hot, wall, cold } = factors;
  if (hot === cold && hot === wall) return `${factorText(hot, uncertainty.hot)} on all resistances`;
  return `hot film ${factorText(hot, uncertainty.hot)}, cold film ${factorText(cold, uncertainty.cold)}`;
}

function factorText(factor: number, uncertainty: number | null): string {
  const text = formatNumber(factor, FACTOR_DECIMALS);
  return uncertainty === null ? text : `${text} ± ${formatNumber(uncertainty, FACTOR_DECIMALS)}`;
}

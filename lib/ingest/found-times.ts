import type { TimeFormat } from '@/lib/contract/time-format';

/** How the times of a file are written, and what shows it; `format` is null where nothing does. */
export type FoundTimes = { format: TimeFormat | null; evidence: string };

/** Times of workbooks and JSON lines, which have but one way to write them unless a mapping says otherwise. */
export function plainTimes(named: TimeFormat | undefined): FoundTimes {
  return named === undefined ? { format: 'iso', evidence: '' } : namedTimes(named);
}

export function namedTimes(format: TimeFormat): FoundTimes {
  return { format, evidence: 'as chosen' };
}

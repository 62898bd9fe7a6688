import type { ColumnGuess, FittingMapping, MappedColumn, MappingTask } from '@/lib/contract/column-guess';
import { formatNumber } from '@/lib/report/format/figure';
import { ucumInWords } from '@/lib/report/format/ucum-words';
import { countOf, SENSOR_WORDS } from '@/lib/report/format/words';
import { type ChoiceCounts, isSure } from './mapping-choices';

export type GuessLevel = 'sure' | 'likely' | 'unsure';

const LIKELY = 0.5;

/** A guess in words: what it says, how sure it is, and why. */
export function guessWords(guess: ColumnGuess): {
  what: string;
  how: { level: GuessLevel; words: string };
  why: string;
} {
  const { tag, sensor, unit, confidence, reasons } = guess;
  const level = isSure(guess) ? 'sure' : confidence >= LIKELY ? 'likely' : 'unsure';
  // Never "100 %": a guess stays one.
  const share = Math.min(99, Math.round(confidence * 100));
  return {
    what: `${tag} ${SENSOR_WORDS[sensor]}, ${ucumInWords(unit)}`,
    how: { level, words: `${level}, ${share} %` },
    why: reasons.join('; '),
  };
}

/** The first cells of a column and the range of its numbers, as written. */
export function columnWords(column: MappedColumn): { first: string; range: string } {
  const { first, filled, numbers, low, high, writtenUnit } = column;
  const unit = writtenUnit === null || writtenUnit === '' ? '' : ` ${writtenUnit}`;
  const range =
    low === null || high === null
      ? filled === 0
        ? 'empty'
        : 'no numbers'
      : `${plain(low)} to ${plain(high)}${unit}${numbers < filled ? `; ${formatNumber(filled - numbers, 0)} other cells` : ''}`;
  return { first: first.join(' · '), range };
}

function plain(value: number): string {
  return String(Number(value.toPrecision(5)));
}

/** "60 columns: 41 chosen, 3 skipped, 16 open." */
export function countWords({ all, taken, skipped, open }: ChoiceCounts, more: number): string {
  const left = more === 0 ? '' : ` ${countOf(more, 'further name')} cannot be shown: split the file.`;
  const [chosen, passed, waiting] = [taken, skipped, open].map((count) => formatNumber(count, 0));
  return `${countOf(all, 'column')}: ${chosen} chosen, ${passed} skipped, ${waiting} open.${left}`;
}

/** Which saved mapping suits the file, in words; null where none does. */
export function savedOffer(
  task: MappingTask,
): { title: string; labelOf: (saved: FittingMapping) => string } | null {
  const [best] = task.saved;
  if (best === undefined) return null;
  const all = task.columns.length + task.more;
  const labelOf = ({ name, known }: FittingMapping) => `${name} (${known} of ${all})`;
  const title =
    best.known === all
      ? `This header fits the saved mapping “${best.name}”: all ${countOf(all, 'column')}`
      : `The saved mapping “${best.name}” explains ${best.known} of ${countOf(all, 'column')}`;
  return { title, labelOf };
}

import type { ReplacedReadings } from '@/lib/contract/replaced-readings';
import { valueInWords, withUnit } from '../changes/values-in-words';
import { formatDay } from '../format/time';
import { countOf, SENSOR_WORDS } from '../format/words';

/** Rows a page shows; the file has all. */
const MOST_ROWS = 500;

export type ReplacedView = {
  batch: number;
  title: string;
  sentence: string;
  rows: {
    key: string;
    tag: string;
    time: string;
    sensor: string;
    before: string;
    after: string;
    /** The import the value was from before. */
    from: string;
    fromHref: string;
    since: string;
  }[];
  /** What is not shown; null where all is. */
  more: string | null;
  csvHref: string;
};

export function replacedView(replaced: ReplacedReadings): ReplacedView {
  const { batch, file, rows, isComplete } = replaced;
  const shown = rows.slice(0, MOST_ROWS);
  return {
    batch,
    title: `Values that import ${batch} replaced`,
    sentence: `${countOf(replaced.replaced, 'reading')} of ${file} took the place of other values. Those are kept: undoing the import puts them back.`,
    rows: shown.map(rowOf),
    more: moreInWords(rows.length - shown.length, isComplete),
    csvHref: `/api/v1/imports/${batch}/replaced?format=csv`,
  };
}

function rowOf(row: ReplacedReadings['rows'][number]): ReplacedView['rows'][number] {
  const { tag, time, sensor, unit, before, after, unitAfter, beforeImport, isChangedSince } = row;
  const words = (value: number, of: string) => withUnit(valueInWords({ value, unit: of }, 'UTC'));
  return {
    key: `${tag} ${time} ${sensor}`,
    tag,
    time: `${formatDay(time.slice(0, 'YYYY-MM-DD'.length))}, ${time.slice(11, 16)}`,
    sensor: SENSOR_WORDS[sensor],
    before: before === null ? '' : words(before, unit),
    after: after === null ? 'taken back' : words(after, unitAfter),
    from: `import ${beforeImport}`,
    fromHref: `/import?batch=${beforeImport}`,
    since: isChangedSince ? 'changed again by a later import' : '',
  };
}

function moreInWords(hidden: number, isComplete: boolean): string | null {
  if (!isComplete) return 'There are more than are listed at once; undo the import or read a part of it.';
  return hidden === 0 ? null : `And ${countOf(hidden, 'more value')}: the file has all.`;
}

import type { State } from '@/lib/contract/results';
import { formatAge, formatInstant, localDay } from '@/lib/report/format/time';
import type { UnitSystem } from '@/lib/report/format/unit-system';
import type { UnitRecords } from '@/lib/report/records';
import { type AllowanceBar, allowanceBar } from './allowance-bar';
import { arrangementInWords, constructionInWords } from './arrangement-words';
import { blamedSensors } from './blamed-sensors';
import { cleanByStatement, type Statement } from './clean-by-statement';
import { fluidInWords } from './datasheet';
import { lastFigureRow, type MainFigure, mainFigures } from './main-figures';

/** The top of the page: what it is, how it stands, and how old that knowledge is. */
export type UnitHeader = {
  tag: string;
  service: string | null;
  site: string;
  /** Construction, arrangement and fluids in words. */
  description: string;
  state: State | null;
  statement: Statement;
  /** Age and instant of the last reading; null without any. */
  lastReading: { age: string; at: string } | null;
  bar: AllowanceBar | null;
  figures: MainFigure[];
};

export function unitHeader(records: UnitRecords, system: UnitSystem): UnitHeader {
  const { record, trend, now, readings } = records;
  const { unit, exchanger, site } = record;
  const today = localDay(now, site.timeZone);
  const row = lastFigureRow(records.daily);
  const last = trend?.lastReading ?? readings.time.at(-1) ?? null;
  return {
    tag: record.tag,
    service: unit.service ?? null,
    site: site.name,
    description: `${sentence(constructionInWords(unit.construction))}, ${arrangementInWords(exchanger.arrangement)}; ${fluidInWords(unit.hot)} against ${fluidInWords(unit.cold)}`,
    state: trend?.state ?? null,
    statement: cleanByStatement({
      trend,
      system,
      today,
      lastAcceptedDay: row === null ? null : records.daily.day[row]!,
      sensors: causeOf(records),
    }),
    lastReading:
      last === null ? null : { age: formatAge(now - last), at: formatInstant(last, site.timeZone) },
    bar: allowanceBar(trend, today, system),
    figures: mainFigures(records, system),
  };
}

function causeOf({ trend, readings, evaluation }: UnitRecords) {
  const reason = trend?.health.worstReason ?? null;
  return reason === null ? [] : blamedSensors(readings, evaluation, reason);
}

function sentence(text: string): string {
  return text.replace(/^./, (letter) => letter.toUpperCase());
}

import type { State } from '@/lib/contract/results';
import { formatAge, formatInstant } from '@/lib/report/format/time';
import type { UnitSystem } from '@/lib/report/format/unit-system';
import type { UnitRecords } from '@/lib/report/records';
import { localDay } from '@/lib/time/local-clock';
import { type AllowanceBar, allowanceBar } from './allowance-bar';
import { arrangementInWords, constructionInWords } from './arrangement-words';
import { blamedSensors } from './blamed-sensors';
import { cleanByStatement, type Statement } from './clean-by-statement';
import { fluidInWords } from './datasheet';
import { lastFigureRow, type MainFigure, mainFigures } from './main-figures';
import { surenessInWords } from './record-view';
import type { TypicalBudget } from './typical-budget';

/** An accepted reading at most this much older than the last one goes without saying [ms]. */
const SAME_AGE_MS = 6 * 3_600_000;

/** The top of the page: what it is, how it stands, and how old that knowledge is. */
export type UnitHeader = {
  tag: string;
  service: string | null;
  site: string;
  /** Construction, arrangement and fluids in words. */
  description: string;
  state: State | null;
  statement: Statement;
  /** How past projections did; null where no day is projected. */
  sureness: string | null;
  /** How old the last reading is, and the last accepted one where that is another; null without any. */
  age: string | null;
  bar: AllowanceBar | null;
  figures: MainFigure[];
};

export function unitHeader(
  records: UnitRecords,
  system: UnitSystem,
  typical: TypicalBudget | null,
): UnitHeader {
  const { record, trend, now } = records;
  const { unit, exchanger, site } = record;
  const today = localDay(now, site.timeZone);
  const row = lastFigureRow(records.daily);
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
    sureness: surenessInWords(trend),
    age: ageInWords(records, row),
    bar: allowanceBar(trend, today, system),
    figures: mainFigures(records, system, typical),
  };
}

function causeOf({ trend, readings, evaluation }: UnitRecords) {
  const reason = trend?.health.worstReason ?? null;
  return reason === null ? [] : blamedSensors(readings, evaluation, reason);
}

function ageInWords(
  { trend, readings, daily, record, clock }: UnitRecords,
  row: number | null,
): string | null {
  const last = Math.max(readings.time.at(-1) ?? 0, trend?.lastReading ?? 0);
  if (last === 0) return null;
  const { timeZone } = record.site;
  const words = (at: number) => `${formatAge(clock - at)} (${formatInstant(at, timeZone)})`;
  const accepted = row === null ? Number.NaN : daily.lastAccepted[row]!;
  if (!Number.isFinite(accepted)) return `Last reading ${words(last)}; none was accepted yet.`;
  if (last - accepted < SAME_AGE_MS) return `Last reading ${words(last)}.`;
  return `Last reading ${words(last)}; last accepted ${words(accepted)}.`;
}

function sentence(text: string): string {
  return text.replace(/^./, (letter) => letter.toUpperCase());
}

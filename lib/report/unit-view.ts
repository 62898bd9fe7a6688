import type { UnitSystem } from './format/unit-system';
import type { UnitRecords } from './records';
import { emptySpotCheckHref } from './spot-check/spot-check-entries';
import { unitStaleness } from './staleness';
import { type ChartsView, chartsIn, contextOf } from './unit/charts-view';
import { type CleaningTable, cleaningTable } from './unit/cleaning-rows';
import { completeTrend } from './unit/complete-trend';
import { type CycleTable, cycleTable } from './unit/cycle-rows';
import { type Datasheet, datasheet } from './unit/datasheet';
import { type FallQuestion, fallQuestions } from './unit/fall-questions';
import { type HealthView, healthView } from './unit/health-view';
import { type InstalledView, installedView } from './unit/installed-sensors';
import { type JudgingView, judgingView } from './unit/judging-view';
import { type LeftOut, leftOut } from './unit/left-out';
import { type LimitTable, limitTable } from './unit/limit-rows';
import { type RecordView, recordView } from './unit/record-view';
import { typicalBudget } from './unit/typical-budget';
import { type CertaintyView, certaintyView } from './unit/uncertainty-budget';
import { type UnitAddress, unitHref, unitPath } from './unit/unit-address';
import { approachAdvice } from './unit/unit-advice';
import { type UnitHeader, unitHeader } from './unit/unit-header';
import { type WorkedView, workedView } from './worked/worked-view';

/** Everything the unit page shows, as plain data. */
export type UnitView = ChartsView & {
  header: UnitHeader;
  limits: LimitTable;
  /** What must be said of the age of all this; empty where it is fresh. */
  staleness: string[];
  /** What is not measured and what stands in for it; null where all of it is measured. */
  installed: InstalledView | null;
  /** What keeps U from being well known; empty where it is. */
  illDetermined: string[];
  /** False: nothing was ever read; the page says how to import. */
  hasReadings: boolean;
  leftOut: LeftOut;
  /** Falls of the fouling that wait for somebody to say whether they were cleanings. */
  falls: FallQuestion[];
  /** How far the data can be believed, and how past projections did; null before the first analysis. */
  health: HealthView | null;
  record: RecordView | null;
  judging: JudgingView;
  /** What the uncertainty of Rf is made of; null where the period holds no accepted reading. */
  certainty: CertaintyView | null;
  /** Null while "How was this worked out?" is closed. */
  worked: WorkedView | null;
  /** Address that opens it at a step, `{step}` standing for the step. */
  workedHref: string;
  closeWorkedHref: string;
  spotCheckHref: string;
  cycles: CycleTable;
  /** The recorded cleanings and what each did. */
  cleanings: CleaningTable;
  datasheet: Datasheet;
  editHref: string;
  cleaning: CleaningForm;
};

/** What the form that records a cleaning starts from. */
export type CleaningForm = { tag: string; timeZone: string; currency: string; method: string; cost: string };

/** Builds the page of one unit from its records, for one address and unit system. */
export function unitView(stored: UnitRecords, address: UnitAddress, system: UnitSystem): UnitView {
  const records = { ...stored, trend: completeTrend(stored.trend) };
  const { record, daily, trend, evaluation } = records;
  const { site, unit } = record;
  const { shown: period, context } = contextOf(records, address, system);
  const typical = typicalBudget(records);
  return {
    header: unitHeader(records, system, typical),
    limits: limitTable(records, system),
    staleness: unitStaleness(records),
    installed: installedView(records, system),
    illDetermined: approachAdvice(records, system),
    hasReadings: daily.day.length > 0 || evaluation.time.length > 0,
    ...chartsIn(context, { address, period }),
    leftOut: leftOut(
      evaluation,
      { from: context.axis.from, to: context.axis.end, interval: context.interval },
      { address, timeZone: site.timeZone },
    ),
    falls: fallQuestions(trend, { address, system, timeZone: site.timeZone }),
    health: healthView(records),
    record: recordView(trend, system),
    judging: judgingView(records, address, period),
    certainty: certaintyView(records, typical, system),
    worked: address.isWorkedOut ? workedView(records, address, system) : null,
    workedHref: unitHref(address, { isWorkedOut: true }, 'how-{step}'),
    closeWorkedHref: unitHref(address, { isWorkedOut: false, reading: null }),
    spotCheckHref: emptySpotCheckHref(record.tag, address.units),
    cycles: cycleTable(records, system),
    cleanings: cleaningTable(records, system),
    datasheet: datasheet(records, system),
    editHref: `${unitPath(record.tag)}/setup`,
    cleaning: {
      tag: record.tag,
      timeZone: site.timeZone,
      currency: site.currency,
      method: unit.cleaning?.method ?? '',
      cost: unit.cleaning?.cost === undefined ? '' : `${unit.cleaning.cost}`,
    },
  };
}

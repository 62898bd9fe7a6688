import { BALANCE_SENSORS } from '@/lib/core/exchange/reconcile';
import {
  BETTER_FLOW,
  BETTER_TEMPERATURE,
  type Bought,
  type SensorBudget,
} from '@/lib/core/fouling/uncertainty-budget';
import { PLACE } from '@/lib/core/fouling/unit-model';
import { displayUnit } from '@/lib/report/format/display-unit';
import { formatFigure, formatFigureText, formatNumber } from '@/lib/report/format/figure';
import { formatInstant } from '@/lib/report/format/time';
import type { UnitSystem } from '@/lib/report/format/unit-system';
import { countOf, SENSOR_WORDS } from '@/lib/report/format/words';
import type { UnitRecords } from '@/lib/report/records';
import { boughtFor, type Prospect } from './bought-certainty';
import { type SuspectsView, suspectsView } from './period-suspects';
import type { TypicalBudget } from './typical-budget';

/** One cause of u(Rf): a sensor, or the scatter that no sensor explains. */
export type BudgetRow = {
  key: string;
  label: string;
  /** Standard uncertainty of its value, or why there is none. */
  has: string;
  /** Share of u²(Rf) of a day's figure [-], for the bar, and in words. */
  share: number;
  shareText: string;
  systematic: string;
  oneReading: string;
  halved: string;
  better: string;
};

/** The uncertainty budget of the fouling resistance in words and rows. */
export type BudgetView = {
  sentence: string;
  /** What state it holds for, and what it leaves out. */
  basis: string;
  /** What the cells of "halved" and "better" hold, one after the other. */
  bought: string;
  rows: BudgetRow[];
};

/** "What limits the certainty": the budget, null without an accepted reading, and the suspects where the balance is off. */
export type CertaintyView = { budget: BudgetView | null; suspects: SuspectsView | null };

/** Null where the shown period has neither. A balance so far off that every reading is left out still has its suspects. */
export function certaintyView(
  records: UnitRecords,
  typical: TypicalBudget | null,
  system: UnitSystem,
): CertaintyView | null {
  const budget = typical === null ? null : budgetView(records, typical, system);
  const suspects = suspectsView(records, system);
  return budget === null && suspects === null ? null : { budget, suspects };
}

function budgetView(records: UnitRecords, typical: TypicalBudget, system: UnitSystem): BudgetView {
  const { budget, time, readingsPerDay } = typical;
  const rows = budget.sensors.map((sensor) => sensorRow(records, typical, { sensor, system }));
  const hasScatter = budget.scatterShare > LEAST_SHOWN;
  const at = rows.findIndex(({ share }) => share < budget.scatterShare);
  if (hasScatter) rows.splice(at < 0 ? rows.length : at, 0, scatterRow(budget.scatterShare));
  const { timeZone } = records.record.site;
  const isLearned = records.record.exchanger.clean === 'learned';
  const learned = isLearned
    ? 'The clean reference was learned with the same sensors: of their systematic errors only what it does not share is counted. '
    : '';
  return {
    sentence: sentenceOf(typical, system),
    basis: `At the reading of ${formatInstant(time, timeZone)}, whose u(Rf) is the median of the last two weeks of the shown period; a day is the median of ${countOf(Math.round(readingsPerDay), 'reading')}. ${learned}The clean reference itself and the fluids’ properties count as known.`,
    bought: `Rf of a day in ${displayUnit('foulingResistance', system).label} · share of the allowance used · days from P10 to P90 of the clean-by date`,
    rows,
  };
}

/** A share below this would be shown as nothing [-]. */
const LEAST_SHOWN = 0.005;

function sensorRow(
  records: UnitRecords,
  typical: TypicalBudget,
  { sensor, system }: { sensor: SensorBudget; system: UnitSystem },
): BudgetRow {
  const { place, status, uncertainty } = sensor;
  const isFlow = place >= PLACE.hotFlow;
  const kind = isFlow ? 'massFlow' : 'temperatureDifference';
  const spread = `± ${formatFigureText(uncertainty, kind, system, { digits: 2 })}`;
  const words = { measured: spread, inferred: 'inferred from the balance', nominal: `${spread}, nominal` };
  const prospect = (bought: Bought | null) =>
    bought === null ? '' : prospectText(boughtFor(records, typical, bought), system);
  const better = prospect(sensor.better);
  const instrument = isFlow
    ? formatFigureText(BETTER_FLOW, 'fraction', system, { digits: 1 })
    : formatFigureText(BETTER_TEMPERATURE, 'temperatureDifference', system, { digits: 1 });
  return {
    key: BALANCE_SENSORS[place]!,
    label: sentenceCase(SENSOR_WORDS[BALANCE_SENSORS[place]!]),
    has: words[status],
    share: sensor.dailyShare,
    shareText: percent(sensor.dailyShare),
    systematic: percent(sensor.systematicShare),
    oneReading: percent(sensor.readingShare),
    halved: prospect(sensor.halved),
    better: better === '' ? '' : `${status === 'measured' ? '' : 'measured to '}${instrument}: ${better}`,
  };
}

function scatterRow(share: number): BudgetRow {
  return {
    key: 'scatter',
    label: 'Scatter beyond the sensors',
    has: 'unsteady operation',
    share,
    shareText: percent(share),
    systematic: '',
    oneReading: '',
    halved: '',
    better: '',
  };
}

function prospectText({ daily, used, days }: Prospect, system: UnitSystem): string {
  const rf = formatFigure(daily, 'foulingResistance', system, { digits: 2 }).number;
  const share = used === null ? [] : [`± ${formatNumber(used * 100, 1)} %`];
  const width = days === null ? [] : [`${formatNumber(days, 0)} d`];
  return [`± ${rf}`, ...share, ...width].join(' · ');
}

function sentenceOf({ budget }: TypicalBudget, system: UnitSystem): string {
  const text = (value: number) => formatFigureText(value, 'foulingResistance', system, { digits: 2 });
  const now = budget.foulingResistance.daily;
  const most = budget.sensors[0];
  if (most === undefined || budget.scatterShare > most.dailyShare) {
    return `${percent(budget.scatterShare)} of u²(Rf) of a day, ± ${text(now)}, is scatter that the sensors do not explain: steadier operation, not a better instrument, would narrow it.`;
  }
  const name = SENSOR_WORDS[BALANCE_SENSORS[most.place]!];
  const cause = `${percent(most.dailyShare)} of u²(Rf) of a day comes from the ${name}`;
  const gain =
    most.halved !== null
      ? `halving its uncertainty would narrow Rf from ± ${text(now)} to ± ${text(most.halved.daily)}`
      : `measuring it would narrow Rf from ± ${text(now)} to ± ${text(most.better?.daily ?? now)}`;
  const inferred = budget.sensors.find(({ status }) => status === 'inferred');
  const measured =
    inferred?.better == null
      ? ''
      : ` Measuring the ${SENSOR_WORDS[BALANCE_SENSORS[inferred.place]!]}, which is inferred, would narrow it to ± ${text(inferred.better.daily)}.`;
  return `${cause}; ${gain}.${measured}`;
}

function percent(share: number): string {
  return `${formatNumber(share * 100, share < 0.0995 ? 1 : 0)} %`;
}

function sentenceCase(words: string): string {
  return words.replace(/^./, (letter) => letter.toUpperCase());
}

import { BALANCE_SENSORS } from '@/lib/core/exchange/reconcile';
import {
  rankSuspects,
  type Suspect,
  type SuspectRanking,
  TIED_CHI_SQUARED,
} from '@/lib/core/fouling/suspects';
import { PLACE, unitModel } from '@/lib/core/fouling/unit-model';
import { formatFigureText, formatNumber } from '@/lib/report/format/figure';
import { formatInstant } from '@/lib/report/format/time';
import type { UnitSystem } from '@/lib/report/format/unit-system';
import { SENSOR_WORDS } from '@/lib/report/format/words';
import type { UnitRecords } from '@/lib/report/records';

export type PeriodSuspect = {
  key: string;
  label: string;
  bias: string;
  /** χ² it explains, against the first of the list [-] for the bar, and in words. */
  share: number;
  explained: string;
  standing: string;
};

/** The sensors that would explain a balance that is off over weeks, ranked; nobody is blamed. */
export type SuspectsView = { lead: string; rows: PeriodSuspect[]; note: string };

/** Null where the balance is within what the sensors state, or cannot be judged. */
export function suspectsView(
  { bases, readings, evaluation, record }: UnitRecords,
  system: UnitSystem,
): SuspectsView | null {
  const basis = bases.at(-1);
  if (basis === undefined) return null;
  const ranking = rankSuspects(unitModel(basis.exchanger, basis.settings), readings, evaluation);
  if (ranking === null || !ranking.isOff) return null;
  const most = ranking.suspects[0]?.explained ?? 0;
  return {
    lead: leadOf(ranking, record.site.timeZone),
    rows: ranking.suspects.map((suspect, index) => suspectRow(suspect, { index, most, system })),
    note: noteOf(ranking),
  };
}

function leadOf(
  { meanBalance, meanBalanceUncertainty, readings, from, to }: SuspectRanking,
  zone: string,
): string {
  const percent = (share: number) => formatNumber(Math.abs(share) * 100, 1);
  const sides =
    meanBalance > 0 ? 'gave more heat than the cold side took' : 'gave less heat than the cold side took';
  return `From ${formatInstant(from, zone)} to ${formatInstant(to, zone)} (${formatNumber(readings, 0)} readings with a balance) the hot side ${sides}, by ${percent(meanBalance)} ± ${percent(meanBalanceUncertainty)} % of the duty on average: more than the stated uncertainties explain. Each line asks what constant error of that sensor alone would explain it best. The list ranks suspects and blames none: check them in this order.`;
}

function suspectRow(
  { place, bias, biasUncertainty, explained, isTied }: Suspect,
  { index, most, system }: { index: number; most: number; system: UnitSystem },
): PeriodSuspect {
  const isFlow = place >= PLACE.hotFlow;
  return {
    key: BALANCE_SENSORS[place]!,
    label: SENSOR_WORDS[BALANCE_SENSORS[place]!].replace(/^./, (letter) => letter.toUpperCase()),
    bias: formatFigureText(bias, isFlow ? 'fraction' : 'temperatureDifference', system, {
      uncertainty: biasUncertainty,
      signed: true,
    }),
    share: most > 0 ? Math.max(0, explained / most) : 0,
    explained: formatNumber(Math.max(0, explained), 1),
    standing: index === 0 ? 'explains most' : isTied ? 'cannot be told from the first' : 'explains less',
  };
}

function noteOf({ suspects }: SuspectRanking): string {
  const tied = suspects.filter(({ isTied }) => isTied).length;
  const test = `Two explanations cannot be told apart where the χ² they leave differs by less than ${formatNumber(TIED_CHI_SQUARED, 2)} (one degree of freedom, 5 %)`;
  if (tied === suspects.length)
    return `${test}. Conditions varied too little here to tell any of them apart.`;
  if (tied < 2) return `${test}.`;
  return `${test}; ${tied} of them are so tied here. The two thermometers of a stream, and the two meters, look alike in any heat balance.`;
}

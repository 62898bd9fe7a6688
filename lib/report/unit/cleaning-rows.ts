import type { CleaningEffect, CleaningResult, NoResultReason } from '@/lib/core/cycles/cleaning-result';
import { displayUnit } from '@/lib/report/format/display-unit';
import { type Figure, formatFigure, formatMoney, formatNumber, MISSING } from '@/lib/report/format/figure';
import { formatInstant } from '@/lib/report/format/time';
import type { UnitSystem } from '@/lib/report/format/unit-system';
import { countOf } from '@/lib/report/format/words';
import { returnedBy } from '@/lib/report/prices/returned-by';
import type { AnalysedUnit, CleaningRecord, UnitRecords } from '@/lib/report/records';
import { type KeptFile, keptFiles } from '@/lib/report/work-list/kept-files';
import { localDateTime } from '@/lib/time/local-instant';
import { type CleaningChangeRow, cleaningHistory } from './cleaning-history';
import { priceInWords } from './price-in-words';

/** A recorded cleaning as the form that corrects it begins. */
export type CleaningEntries = {
  id: number;
  revision: number;
  at: string;
  method: string;
  cost: string;
  note: string;
};

/** A recorded cleaning and what it did; without a result the reason stands in `recovered`. */
export type CleaningRow = {
  key: string;
  cleaned: string;
  how: string;
  before: Figure;
  after: Figure;
  recovered: string;
  isPartial: boolean;
  duty: Figure;
  energy: Figure;
  /** Days counted of those gone by; empty where there is no result. */
  days: string;
  worth: string;
  back: string;
  files: KeptFile[];
  entries: CleaningEntries;
};

export type CleaningTable = {
  rows: CleaningRow[];
  foulingUnit: string;
  dutyUnit: string;
  energyUnit: string;
  /** How the worth was worked out. */
  working: string;
  /** What people corrected or withdrew, the latest first. */
  changed: CleaningChangeRow[];
};

const NO_RESULT_WORDS: Record<NoResultReason, string> = {
  'no-figures-between': 'not known: no figures between it and the next',
  'too-few-before': 'not known: too few figures before it',
  'too-few-after': 'not known yet: too few figures after it',
};

/** A unit with the prices of its site that are in force. */
type CleanedUnit = AnalysedUnit & Pick<UnitRecords, 'supplies' | 'files' | 'cleaningChanges'>;

/** The recorded cleanings of a unit with their results, the newest first. */
export function cleaningTable(unit: CleanedUnit, system: UnitSystem): CleaningTable {
  const { trend, cleanings, record } = unit;
  const results = new Map((trend?.cleaningResults ?? []).map((result) => [result.at, result]));
  const largest = (pick: (effect: CleaningEffect) => number | null) =>
    Math.max(
      0,
      ...[...results.values()].map(({ effect }) => (effect === null ? 0 : Math.abs(pick(effect) ?? 0))),
    );
  const shown = {
    duty: displayUnit(
      'power',
      system,
      largest(({ dutyRecovered }) => dutyRecovered),
    ),
    energy: displayUnit('energy', system),
  };
  const rows = cleanings.map((cleaning): CleaningRow => {
    const result = results.get(cleaning.at) ?? null;
    const effect = result?.effect ?? null;
    const fouling = (value: number | undefined, uncertainty: number | undefined) =>
      formatFigure(value, 'foulingResistance', system, { uncertainty: uncertainty ?? null });
    return {
      key: `${cleaning.id}`,
      cleaned: formatInstant(cleaning.at, record.site.timeZone),
      how: howOf(cleaning, record.site.currency),
      before: fouling(effect?.before, effect?.beforeUncertainty),
      after: fouling(effect?.after, effect?.afterUncertainty),
      recovered: recoveredInWords(result),
      isPartial: effect?.isPartial === true,
      duty: formatFigure(effect?.dutyRecovered, 'power', system, { shown: shown.duty, digits: 2 }),
      energy: formatFigure(effect?.energySoFar, 'energy', system, { shown: shown.energy, digits: 2 }),
      days: effect === null ? '' : `${effect.daysCounted} of ${countOf(effect.daysElapsed, 'day')} counted`,
      worth: worthOf(returnedBy(unit, cleaning.at), record.site.currency),
      back: backInWords(effect),
      files: keptFiles(unit.files.filter(({ cleaningId }) => cleaningId === cleaning.id)),
      entries: entriesOf(cleaning, record.site.timeZone),
    };
  });
  return {
    changed: cleaningHistory(unit),
    rows: rows.reverse(),
    foulingUnit: displayUnit('foulingResistance', system).label,
    dutyUnit: shown.duty.label,
    energyUnit: shown.energy.label,
    working: workingInWords(unit),
  };
}

function howOf({ method, cost }: CleaningRecord, currency: string): string {
  const parts = [method ?? 'method not stated'];
  if (cost !== null) parts.push(formatMoney(cost, currency));
  return parts.join(', ');
}

/** "82 ± 4 %", or why nobody can say. */
function recoveredInWords(result: CleaningResult | null): string {
  if (result === null) return 'not known: outside the readings';
  const { effect, reason } = result;
  if (effect === null) return reason === null ? MISSING : NO_RESULT_WORDS[reason];
  const { shareRecovered, shareRecoveredUncertainty } = effect;
  if (shareRecovered === null) return 'no share: it was not fouled';
  const percent = (share: number | null) => formatNumber((share ?? 0) * 100, 0);
  return `${percent(shareRecovered)} ± ${percent(shareRecoveredUncertainty)} %`;
}

/** To the two digits of the energy behind it. */
function worthOf(money: number | null, currency: string): string {
  return formatMoney(money === null ? null : Number(money.toPrecision(2)), currency);
}

function backInWords(effect: CleaningEffect | null): string {
  if (effect === null) return MISSING;
  return effect.daysUntilBack === null ? 'not yet' : `after ${countOf(effect.daysUntilBack, 'day')}`;
}

function entriesOf(
  { id, revision, at, method, cost, note }: CleaningRecord,
  timeZone: string,
): CleaningEntries {
  return {
    id,
    revision,
    at: localDateTime(at, timeZone),
    method: method ?? '',
    cost: cost === null ? '' : `${cost}`,
    note: note ?? '',
  };
}

function workingInWords({ record, supplies }: CleanedUnit): string {
  const price = priceInWords(record.unit, supplies, record.site.currency);
  const money = price === null ? ' No price of energy is stated.' : ` Money: ${price}.`;
  return `Energy so far is the duty of each day since, until the next cleaning or today, less what the unit would have transferred at the same inlets and flows had it stayed as fouled as just before. It is a floor: without the cleaning the fouling would have gone on growing, and days without figures are not counted. It lies below 0 where the unit has fouled beyond that level for long.${money} A cleaning is called partial where the share recovered is below 80 % and clearly below all.`;
}

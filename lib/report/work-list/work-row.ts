import type { PlannedState } from '@/lib/contract/planned';
import type { State } from '@/lib/contract/results';
import { formatMoney, formatNumber } from '@/lib/report/format/figure';
import { formatInstant } from '@/lib/report/format/time';
import type { UnitSystem } from '@/lib/report/format/unit-system';
import { plannedSaves } from '@/lib/report/plan/planned-saves';
import { savesInWords } from '@/lib/report/plan/saves-words';
import type { AnalysedUnit, CleaningRecord, FleetRecords, PlannedRecord } from '@/lib/report/records';
import { localDateTime } from '@/lib/time/local-instant';
import { type DoneResult, doneResult } from './done-result';
import { type KeptFile, keptFiles } from './kept-files';
import { REASON_WORDS } from './reason-words';
import { windowInWords } from './window-words';
import { workHistory } from './work-history';
import { type WorkOffer, workOffers } from './work-offers';
import { isOverdue, type WorkRecords } from './work-records';

/** One piece of dated work, ready to be shown. */
export type WorkRow = {
  id: number;
  /** State of it that is shown: a change of an older one is refused. */
  revision: number;
  tag: string;
  href: string;
  service: string;
  site: string;
  /** Its service, and its site where there is work at several. */
  about: string;
  state: PlannedState;
  when: string;
  timeZone: string;
  place: string;
  method: string;
  crew: string;
  cost: string;
  /** As projected when the plan was accepted. */
  saves: string;
  reason: string;
  /** State of the unit today. */
  unitState: State;
  isOverdue: boolean;
  history: string[];
  offers: WorkOffer[];
  /** What the forms begin with. */
  entries: { from: string; at: string; method: string; cost: string; hours: string; currency: string };
  done: WorkDoneRow | null;
};

/** The cleaning recorded for it. */
export type WorkDoneRow = {
  cleaning: number;
  at: string;
  how: string;
  note: string | null;
  result: DoneResult;
  files: KeptFile[];
};

const HOUR_MS = 3_600_000;

export function workRow(
  piece: PlannedRecord,
  { fleet, work, changes, files }: WorkRecords,
  system: UnitSystem,
): WorkRow {
  const unit = fleet.units.find(({ record }) => record.id === piece.unitId)!;
  const { site, unit: datasheet } = unit.record;
  const { timeZone, currency } = site;
  const cleaning = unit.cleanings.find(({ id }) => id === piece.cleaningId) ?? null;
  return {
    id: piece.id,
    revision: piece.revision,
    tag: piece.tag,
    href: `/units/${encodeURIComponent(piece.tag)}`,
    service: datasheet.service ?? '',
    site: site.name,
    about: [datasheet.service ?? '', work.every((each) => each.site === site.name) ? '' : site.name]
      .filter((words) => words !== '')
      .join(', '),
    state: piece.state,
    when: windowInWords(piece, timeZone),
    timeZone,
    place: piece.outage ?? 'outside outages',
    method: piece.method ?? 'method not stated',
    crew: `${formatNumber(piece.crewHours, piece.crewHours % 1 === 0 ? 0 : 1)} h`,
    cost: formatMoney(piece.cost, currency),
    saves: savesInWords(plannedSaves(piece, fleet), currency),
    reason: REASON_WORDS[piece.reason],
    unitState: unit.trend?.state ?? 'no-data',
    isOverdue: isOverdue(piece, fleet.now),
    history: workHistory(changes.get(piece.id), timeZone),
    offers: piece.state === 'open' ? workOffers(piece, { unit, work }) : [],
    entries: {
      from: localDateTime(piece.from, timeZone),
      // Work can be done ahead of its time, and never after the newest reading that is known.
      at: localDateTime(Math.min(piece.to, fleet.now, fleet.clock), timeZone),
      method: piece.method ?? '',
      cost: datasheet.cleaning?.cost === undefined ? '' : `${datasheet.cleaning.cost}`,
      hours: `${Math.round((10 * (piece.to - piece.from)) / HOUR_MS) / 10}`,
      currency,
    },
    done:
      cleaning === null
        ? null
        : doneRow(cleaning, { unit, fleet, system, files: keptFiles(files.get(cleaning.id)) }),
  };
}

function doneRow(
  { id, at, method, cost, note }: CleaningRecord,
  {
    unit,
    fleet,
    system,
    files,
  }: { unit: AnalysedUnit; fleet: FleetRecords; system: UnitSystem; files: KeptFile[] },
): WorkDoneRow {
  const { timeZone, currency } = unit.record.site;
  const paid = cost === null ? 'cost not stated' : formatMoney(cost, currency);
  return {
    cleaning: id,
    at: formatInstant(at, timeZone),
    how: `${method ?? 'method not stated'}, ${paid}`,
    note,
    result: doneResult(unit, { at, fleet, system }),
    files,
  };
}

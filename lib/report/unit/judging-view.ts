import type { FallAnswerRecord } from '@/lib/contract/fall-answers';
import type { VerdictRecord } from '@/lib/contract/verdicts';
import type { Withdrawn } from '@/lib/contract/withdrawal';
import type { EvaluationColumns } from '@/lib/core/fouling/evaluation-columns';
import { firstNotBefore } from '@/lib/core/series/first-not-before';
import { formatNumber } from '@/lib/report/format/figure';
import { formatDay, formatInstant } from '@/lib/report/format/time';
import type { UnitRecords } from '@/lib/report/records';
import { localDay } from '@/lib/time/local-clock';
import { startOfLocalDay } from '@/lib/time/local-day';
import { localDateTime } from '@/lib/time/local-instant';
import { VERDICT_WORDS } from './judged-spans';
import { type UnitAddress, unitHref } from './unit-address';
import type { Period } from './unit-period';

/** Something a person said of the record: a verdict on a period, or an answer to a fall. */
export type HistoryRow = {
  key: string;
  about: string;
  said: string;
  note: string;
  by: string;
  given: string;
  /** Whether it holds, or who took it back when and why. */
  standing: string;
  showHref: string;
  /** What can be withdrawn; null where it was. */
  withdraw: { kind: 'verdict' | 'answer'; id: number } | null;
};

/** The form that judges a period, as it opens, and everything people said before, the newest first. */
export type JudgingView = {
  tag: string;
  timeZone: string;
  /** Local times of the site as a form's field writes them. */
  from: string;
  to: string;
  /** Where the two times come from, and what readings lie between them. */
  filledWith: string;
  history: HistoryRow[];
};

/** A day is shown with so many to either side (own choice). */
const DAYS_BESIDE = 3;

export function judgingView(records: UnitRecords, address: UnitAddress, period: Period): JudgingView {
  const { record, verdicts, fallAnswers, now } = records;
  const { timeZone } = record.site;
  const endOfToday = startOfLocalDay(localDay(now, timeZone) + 1, timeZone);
  const { from, to } = address.stretch ?? { from: period.from, to: Math.min(period.to, endOfToday) };
  const rows = [
    ...verdicts.map((verdict) => ({ at: verdict.givenAt, row: verdictRow(verdict, address, timeZone) })),
    ...fallAnswers.map((answer) => ({ at: answer.givenAt, row: answerRow(answer, address, timeZone) })),
  ];
  return {
    tag: record.tag,
    timeZone,
    from: localDateTime(from, timeZone),
    to: localDateTime(Math.max(from, to), timeZone),
    filledWith: filledWith(records.evaluation, { from, to, isPicked: address.stretch !== null }),
    history: rows.sort((a, b) => b.at - a.at).map(({ row }) => row),
  };
}

function filledWith(
  { time, reasons }: EvaluationColumns,
  { from, to, isPicked }: { from: number; to: number; isPicked: boolean },
): string {
  const inside = reasons.subarray(firstNotBefore(time, from), firstNotBefore(time, to));
  const accepted = inside.reduce((sum, mask) => sum + (mask === 0 ? 1 : 0), 0);
  const what = isPicked
    ? 'Filled in with the stretch you picked'
    : 'Filled in with the period shown; to pick a stretch of one reason, see “Readings left out”';
  if (inside.length === 0) return `${what}. No reading lies in it.`;
  const count = (size: number) => formatNumber(size, 0);
  return `${what}. Readings in it: ${count(inside.length)}; now counted: ${count(accepted)}.`;
}

function verdictRow(verdict: VerdictRecord, address: UnitAddress, timeZone: string): HistoryRow {
  const { id, from, to, note, by, givenAt, withdrawn } = verdict;
  return {
    key: `verdict-${id}`,
    about: `${formatInstant(from, timeZone)} – ${formatInstant(to, timeZone)}`,
    said: VERDICT_WORDS[verdict.verdict],
    note,
    by,
    given: formatInstant(givenAt, timeZone),
    standing: standingOf(withdrawn, timeZone),
    showHref: around(address, localDay(from, timeZone), localDay(to, timeZone)),
    withdraw: withdrawn === null ? { kind: 'verdict', id } : null,
  };
}

function answerRow(answer: FallAnswerRecord, address: UnitAddress, timeZone: string): HistoryRow {
  const { id, day, note, by, givenAt, withdrawn } = answer;
  return {
    key: `answer-${id}`,
    about: `fall of ${formatDay(day)}`,
    said: answer.answer === 'cleaning' ? 'was a cleaning' : 'was not a cleaning',
    note: note ?? '',
    by,
    given: formatInstant(givenAt, timeZone),
    standing: standingOf(withdrawn, timeZone),
    showHref: around(address, day, day),
    withdraw: withdrawn === null ? { kind: 'answer', id } : null,
  };
}

function standingOf(withdrawn: Withdrawn | null, timeZone: string): string {
  if (withdrawn === null) return 'holds';
  return `withdrawn by ${withdrawn.by}, ${formatInstant(withdrawn.at, timeZone)}: ${withdrawn.note}`;
}

function around(address: UnitAddress, first: number, last: number): string {
  const changes = { period: 'custom', fromDay: first - DAYS_BESIDE, toDay: last + DAYS_BESIDE } as const;
  return unitHref(address, { ...changes, reading: null, stretch: null }, 'charts');
}

import {
  CHANGE_KINDS,
  type Review,
  type ReviewUnit,
  type Said,
  type StatementRecord,
  URGENCIES,
} from '@/lib/contract/review';
import type { CleaningResult } from '@/lib/core/cycles/cleaning-result';
import type { StepDown } from '@/lib/core/cycles/find-step-downs';
import type { UnitTrend } from '@/lib/core/pipeline/unit-trend';
import { isoDay } from '@/lib/time/calendar-day';
import { localDay } from '@/lib/time/local-clock';
import { isoInZone } from '@/lib/time/local-day';
import type { UnitSystem } from '../format/unit-system';
import { changePlace } from './change-place';
import { changeWords } from './change-words';
import { changesOf } from './changes';
import { cleaningsDone } from './cleaning-done';
import { isWanted } from './is-wanted';
import { lineMarks } from './line-marks';
import { reviewNotices } from './review-notices';
import type { ReviewedUnit, ReviewRecords } from './review-records';
import type { UnitFacts } from './unit-facts';
import { urgencyOf } from './urgency-of';

/** The review, ready for a page or a program: what changed per unit, the most urgent unit first, and what did not. */
export function review(records: ReviewRecords, system: UnitSystem): Review {
  const { query, sinceDay, today, units: reviewed } = records;
  const units = reviewed.map((unit) => reviewUnit(unit, records, system));
  const changed = units.filter(({ lines }) => lines.length > 0);
  const assignees = changed.flatMap(({ lines }) => lines.flatMap(({ assignedTo }) => assignedTo ?? []));
  return {
    since: isoDay(sinceDay),
    today: today === null ? null : isoDay(today),
    site: query.site ?? null,
    counts: {
      units: units.length + records.notAnalysed.length,
      act: changed.filter((unit) => urgencyOf(unit) === 'act').length,
      look: changed.filter((unit) => urgencyOf(unit) === 'look').length,
      know: changed.filter((unit) => urgencyOf(unit) === 'know').length,
      seen: changed.filter((unit) => urgencyOf(unit) === null).length,
      unchanged: units.length - changed.length,
    },
    units: changed
      .map((unit) => ({ ...unit, lines: unit.lines.filter((line) => isWanted(line, query)) }))
      .filter(({ lines }) => lines.length > 0)
      .sort(byUrgency),
    unchanged: unchangedOf(reviewed, units, records.notAnalysed),
    sites: records.sites.map(({ name }) => name),
    assignees: [...new Set(assignees)].sort((a, b) => a.localeCompare(b, 'en')),
    notices: reviewNotices(records),
  };
}

function reviewUnit(unit: ReviewedUnit, { marks }: ReviewRecords, system: UnitSystem): ReviewUnit {
  const facts = factsOf(unit);
  const { tag, service, site } = unit;
  const place = { today: facts.nowDay, units: system === 'si' ? null : system };
  return {
    tag,
    service,
    site: site.name,
    before: saidOf(unit.before, site.timeZone),
    now: saidOf(unit.now, site.timeZone),
    lines: changesOf(facts).map((change) => ({
      key: change.key,
      kind: change.kind,
      urgency: change.urgency,
      ...changeWords(change, facts, system),
      href: changePlace(tag, change, place),
      ...lineMarks(
        marks.filter(({ unitId, line }) => unitId === unit.id && line === change.key),
        site.timeZone,
      ),
    })),
  };
}

function factsOf({ before, now, site, cleanings, trend, lastReceived }: ReviewedUnit): UnitFacts {
  const dayOf = (instant: number) => localDay(instant, site.timeZone);
  const recorded = cleanings
    .map(({ at, method }) => ({ at, method, day: dayOf(at) }))
    .filter(({ day }) => day >= before.day && day <= now.day);
  return {
    before: before.statement,
    beforeDay: before.day,
    now: now.statement,
    nowDay: now.day,
    cleanings: cleaningsDone(recorded, cleaningResultsOf(trend)),
    falls: fallsOf(trend),
    lastAcceptedDay: trend.lastReading === null ? null : dayOf(trend.lastReading),
    lastReceivedDay: lastReceived === null ? null : dayOf(lastReceived),
  };
}

// Results of an earlier method have neither.
function cleaningResultsOf({
  cleaningResults,
}: Partial<Pick<UnitTrend, 'cleaningResults'>>): CleaningResult[] {
  return cleaningResults ?? [];
}

function fallsOf({ probableCleanings }: Partial<Pick<UnitTrend, 'probableCleanings'>>): StepDown[] {
  return probableCleanings ?? [];
}

function saidOf(
  { day, computedAt, methodVersion, isAfterwards, statement }: StatementRecord,
  zone: string,
): Said {
  const date = (value: number | null) => (value === null ? null : isoDay(value));
  const { state, limit, allowanceUsed, allowanceUsedUncertainty, usable, worstReason } = statement;
  return {
    day: isoDay(day),
    state,
    limit,
    allowanceUsed,
    allowanceUsedUncertainty,
    cleanBy: {
      p10: date(statement.p10Day),
      p50: date(statement.p50Day),
      p90: date(statement.p90Day),
      withinHorizon: statement.withinHorizon,
      horizonDays: statement.horizonDays,
      crossedOn: date(statement.crossedDay),
    },
    usable,
    worstReason,
    computedAt: isoInZone(computedAt, zone),
    methodVersion,
    isAfterwards,
  };
}

/** By urgency, then by kind of its first line, then by the day its limit is reached. */
function byUrgency(a: ReviewUnit, b: ReviewUnit): number {
  const rank = (unit: ReviewUnit) => {
    const urgency = urgencyOf(unit);
    return urgency === null ? URGENCIES.length : URGENCIES.indexOf(urgency);
  };
  const kind = ({ lines }: ReviewUnit) => Math.min(...lines.map((line) => CHANGE_KINDS.indexOf(line.kind)));
  const day = ({ now }: ReviewUnit) => now.cleanBy.crossedOn ?? now.cleanBy.p50 ?? '9999-12-31';
  return (
    rank(a) - rank(b) ||
    kind(a) - kind(b) ||
    day(a).localeCompare(day(b), 'en') ||
    a.tag.localeCompare(b.tag, 'en')
  );
}

function unchangedOf(
  reviewed: ReviewedUnit[],
  units: ReviewUnit[],
  notAnalysed: string[],
): Review['unchanged'] {
  const still = units.filter(({ lines }) => lines.length === 0);
  const inState = (state: Said['state']) =>
    still.filter(({ now }) => now.state === state).map(({ tag }) => tag);
  const asked = new Set(
    units.flatMap(({ tag, lines }) => (lines.some(({ kind }) => kind === 'probable-cleaning') ? tag : [])),
  );
  return {
    overLimit: inState('over-limit'),
    nearLimit: inState('near-limit'),
    noData: inState('no-data'),
    unanswered: reviewed
      .filter(({ tag, trend }) => fallsOf(trend).length > 0 && !asked.has(tag))
      .map(({ tag }) => tag),
    notAnalysed,
  };
}

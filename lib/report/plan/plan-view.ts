import type { PlanRequest, PlanResult } from '@/lib/contract/plan';
import { fleetUnit } from '@/lib/report/fleet/fleet-unit';
import { type FleetRow, type FleetRowFrame, fleetRow } from '@/lib/report/fleet-row';
import type { ShareScale } from '@/lib/report/fleet-trace';
import type { OutageBand } from '@/lib/report/fleet-view';
import { formatDay, formatInstant } from '@/lib/report/format/time';
import { type DaySpan, type MonthTick, monthTicks, shareOf, spanInWords } from '@/lib/report/time-axis';
import { DAY_MS, isoDay } from '@/lib/time/calendar-day';
import { localClock } from '@/lib/time/local-clock';
import { type CalendarDraft, readCalendar } from './calendar-draft';
import type { DatedCleaning } from './draft-plan';
import { type PlanAddress, planSettings } from './plan-address';
import type { DeskInput } from './plan-desk';
import { planInput } from './plan-input';
import type { LeftOut, Planning } from './planning';

/** One unit on the axis; `unit` is its index in the input. */
export type PlanRow = {
  unit: number;
  tag: string;
  service: string;
  /** Its fouling so far and to come. */
  picture: FleetRow;
  /** What is missing or suspect of it, by itself: a cleaning makes that no less so; null where nothing is. */
  doubts: FleetRow | null;
};

/** The frame all pictures of the page share; outages are drawn beneath them, by the page. */
export type PlanFrame = { scale: ShareScale; outages: OutageBand[]; now: number };

/** The plan somebody took on, to begin from. */
export type AcceptedView = {
  by: string;
  at: string;
  note: string | null;
  cleanings: DatedCleaning[];
  /** Cleanings of it whose time has come already. */
  past: number;
  result: PlanResult;
};

/** Everything the planner's page shows before anybody moves anything, as plain data. */
export type PlanView = {
  site: string;
  sites: string[];
  today: string;
  desk: DeskInput;
  /** The calendar as a request, at the address's horizon and confidence. */
  request: PlanRequest;
  calendar: CalendarDraft;
  span: DaySpan;
  spanWords: string;
  months: MonthTick[];
  frame: PlanFrame;
  outages: OutageBand[];
  rows: PlanRow[];
  leftOut: LeftOut[];
  accepted: AcceptedView | null;
  /** The accepted plan was made from the same calendar, horizon and confidence. */
  isAsAccepted: boolean;
};

/** The past shown before today: a part of the horizon, within bounds [days]. */
const PAST_SHARE = 0.15;
const LEAST_PAST = 21;
const MOST_PAST = 75;
const POINTS = 120;
/** As on the fleet's page: a little below clean, and above the limit. */
const SCALE: ShareScale = { low: -0.12, high: 1.25 };

/** Null where there is no unit that anything can be planned for; `leftOut` of `planning` then says why. */
export function planView(planning: Planning, address: PlanAddress): PlanView | null {
  const { site, fleet } = planning;
  if (site === null) return null;
  const accepted = planning.accepted?.request.site === site.name ? planning.accepted : null;
  const settings = planSettings(address, accepted?.request ?? null);
  const request: PlanRequest = { ...planning.request, ...settings, site: site.name, locked: [] };
  const { input, leftOut } = planInput(fleet, request);
  if (input === null) return null;
  const nowDays = localClock(fleet.now, site.timeZone) / DAY_MS;
  const past = Math.min(MOST_PAST, Math.max(LEAST_PAST, PAST_SHARE * (input.to - input.from)));
  const span = { from: Math.floor(input.from - past), to: input.to };
  const frame = { span, scale: SCALE, today: Math.floor(nowDays), nowDays, now: fleet.now, points: POINTS };
  return {
    site: site.name,
    sites: planning.sites.map(({ name }) => name),
    today: formatDay(Math.floor(nowDays)),
    desk: { input, timeZone: site.timeZone, currency: site.currency },
    request,
    calendar: readCalendar(planning.request, site.timeZone),
    span,
    spanWords: spanInWords(span),
    months: monthTicks(span),
    frame: { scale: SCALE, outages: [], now: shareOf(span, nowDays) },
    outages: outageBands(planning, span),
    rows: rowsOf(planning, { tags: input.units.map(({ tag }) => tag), frame }),
    leftOut,
    accepted: acceptedView(accepted, { from: input.from, timeZone: site.timeZone }),
    isAsAccepted: accepted !== null && isSameAsk(accepted.request, request),
  };
}

const NO_PROJECTION: Pick<FleetRow, 'trace' | 'band' | 'bar' | 'end' | 'cleanings' | 'probable'> = {
  trace: { solid: '', dashed: '' },
  band: null,
  bar: null,
  end: null,
  cleanings: [],
  probable: [],
};

function rowsOf({ fleet }: Planning, { tags, frame }: { tags: string[]; frame: FleetRowFrame }): PlanRow[] {
  const units = new Map(fleet.units.map((unit) => [unit.record.tag, unit]));
  return tags.map((tag, unit): PlanRow => {
    const whole = fleetRow(fleetUnit(units.get(tag)!), frame);
    const hasDoubts = whole.absence !== null || whole.suspect !== null;
    return {
      unit,
      tag,
      service: whole.service,
      picture: { ...whole, absence: null, suspect: null },
      doubts: hasDoubts ? { ...whole, ...NO_PROJECTION } : null,
    };
  });
}

function outageBands({ fleet, site }: Planning, span: DaySpan): OutageBand[] {
  if (site === null) return [];
  return fleet.outages.flatMap(({ name, from, to }): OutageBand[] => {
    const [first, last] = [from, to].map((at) => localClock(at, site.timeZone) / DAY_MS) as [number, number];
    if (last <= span.from || first >= span.to) return [];
    return [
      {
        site: site.name,
        name,
        from: Math.max(0, shareOf(span, first)),
        to: Math.min(1, shareOf(span, last)),
        words: `${name}, ${formatDay(first)} to ${formatDay(last)}`,
      },
    ];
  });
}

function acceptedView(
  accepted: Planning['accepted'],
  { from, timeZone }: { from: number; timeZone: string },
): AcceptedView | null {
  if (accepted === null) return null;
  const coming = accepted.result.cleanings.filter(
    ({ start }) => start.slice(0, 'YYYY-MM-DD'.length) >= isoDay(from),
  );
  return {
    by: accepted.acceptedBy,
    at: `${formatInstant(accepted.acceptedAt, timeZone)} (${timeZone})`,
    note: accepted.note,
    cleanings: coming.map(({ tag, start, isLocked }) => ({ tag, start, isLocked })),
    past: accepted.result.cleanings.length - coming.length,
    result: accepted.result,
  };
}

function isSameAsk(one: PlanRequest, other: PlanRequest): boolean {
  const asked = ({ outages, online, notTogether, confidence, weeks }: PlanRequest) =>
    JSON.stringify([outages, online, notTogether, confidence, weeks]);
  return asked(one) === asked(other);
}

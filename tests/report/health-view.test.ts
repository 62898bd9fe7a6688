import { describe, expect, it } from 'vitest';
import { dataHealthSchema } from '@/lib/contract/data-health';
import { REASONS, type Reason } from '@/lib/core/checks/reasons';
import type { BalanceDrift } from '@/lib/core/pipeline/balance-drift';
import { makeDailyColumns } from '@/lib/core/series/daily-columns';
import { healthCsv } from '@/lib/report/health/health-csv';
import { healthDays, leftOutByReason, usableShare } from '@/lib/report/health/health-days';
import { healthDocument } from '@/lib/report/health/health-document';
import { healthView } from '@/lib/report/health/health-view';
import { driftInWords } from '@/lib/report/health/health-words';
import type { FleetRecords } from '@/lib/report/records';
import { fleetOf, type Story, TODAY } from '../support/fleet-records';

type Day = { ago: number; readings?: number; accepted?: number; off?: number; reason?: Reason };

/** Daily columns of the days given, oldest first. */
function dailyOf(days: Day[]) {
  const daily = makeDailyColumns(days.length);
  [...days]
    .sort((a, b) => b.ago - a.ago)
    .forEach(({ ago, readings = 24, accepted = 24, off = 0, reason }, row) => {
      daily.day[row] = TODAY - ago;
      daily.readings[row] = readings;
      daily.accepted[row] = accepted;
      daily.off[row] = off;
      daily.worstReason[row] = reason === undefined ? -1 : REASONS.indexOf(reason);
    });
  return daily;
}

const DRIFT: BalanceDrift = {
  kind: 'drift',
  sinceDay: TODAY - 60,
  change: 0.031,
  changeUncertainty: 0.004,
  perMonth: 0.0155,
  perMonthUncertainty: 0.002,
};

type UnitGiven = Story & { days?: Day[]; reason?: Reason; drift?: BalanceDrift; suspectAgo?: number };

function fleetWith(units: UnitGiven[]): FleetRecords {
  const fleet = fleetOf(units);
  units.forEach(({ days, reason, drift, suspectAgo }, index) => {
    const unit = fleet.units[index]!;
    unit.daily = dailyOf(days ?? [{ ago: 0 }, { ago: 1 }]);
    const { health } = unit.trend!;
    health.worstReason = reason ?? null;
    health.sinceDay = reason === undefined ? null : TODAY - 20;
    health.drift = drift ?? null;
    health.suspectSinceDay = suspectAgo === undefined ? null : TODAY - suspectAgo;
  });
  return fleet;
}

const FLEET = fleetWith([
  { tag: 'F-1', usable: 0.97 },
  { tag: 'T-1', usable: 0.7, reason: 'not-steady' },
  { tag: 'T-2', usable: 0.55, reason: 'flow-below-turndown' },
  { tag: 'S-1', usable: 0.9, drift: DRIFT, suspectAgo: 60 },
  { tag: 'S-2', usable: 0.4, reason: 'frozen-sensor', suspectAgo: 20 },
  { tag: 'N-1', state: 'no-data', usable: null, reason: 'missing', days: [] },
]);

describe('data health of the fleet', () => {
  it('puts suspect data first, then few usable readings, each the worst first; without data apart', () => {
    const { groups, sentence } = healthView(FLEET, null);
    const tags = (kind: keyof typeof groups) => groups[kind].map(({ tag }) => tag);
    expect(tags('suspect')).toEqual(['S-2', 'S-1']);
    expect(tags('few')).toEqual(['T-2', 'T-1']);
    expect(tags('fine')).toEqual(['F-1']);
    expect(tags('no-data')).toEqual(['N-1']);
    expect(sentence).toBe(
      'Of 6 units, 2 have data that are suspect, 2 have few usable readings, 1 has no usable data at all; 1 is sound.',
    );
  });

  it('asks for a look below 80 % usable, not at it', () => {
    const kindAt = (usable: number) => {
      const { groups } = healthView(fleetWith([{ tag: 'A-1', usable }]), null);
      return groups.fine.length === 1 ? 'fine' : 'few';
    };
    expect([kindAt(0.8), kindAt(0.7999)]).toEqual(['fine', 'few']);
  });

  it('says what is wrong since when and what to do, drift before reasons', () => {
    const { suspect } = healthView(FLEET, null).groups;
    expect(suspect[0]).toMatchObject({ usable: '40 %', what: 'a sensor is frozen since 5 Nov 2026' });
    expect(suspect[0]!.todo).toContain('Check the transmitter');
    expect(suspect[1]!.what).toBe('heat balance drifts by +1.55 ± 0.20 % a month since 26 Sep 2026');
    expect(suspect[1]!.suspectSince).toBe('26 Sep 2026');
  });

  it('says of a sudden change when it came, and how large', () => {
    const shift = {
      ...DRIFT,
      kind: 'shift',
      change: -0.0312,
      perMonth: null,
      perMonthUncertainty: null,
    } as const;
    expect(driftInWords(shift)).toBe('heat balance shifted by −3.1 ± 0.4 % on 26 Sep 2026');
  });

  it('leads into the unit from two weeks before it began to today, at the readings left out', () => {
    const { suspect } = healthView(FLEET, 'us').groups;
    expect(suspect[1]!.href).toBe('/units/S-1?from=2026-09-12&to=2026-11-25&units=us#left-out');
  });

  it('says of a sound fleet that all data are', () => {
    const view = healthView(fleetWith([{ tag: 'F-1' }, { tag: 'F-2' }]), null);
    expect(view.sentence).toBe('The data of all 2 units are sound.');
    expect(view.reasons).toEqual([]);
  });
});

describe('the last thirty days', () => {
  it('are thirty to today; a day without a row had no readings, one before them does not count', () => {
    const days = healthDays(dailyOf([{ ago: 30 }, { ago: 29 }, { ago: 0, accepted: 6 }]), TODAY);
    expect(days).toHaveLength(30);
    expect(days[0]).toMatchObject({ day: TODAY - 29, readings: 24 });
    expect(days.filter(({ readings }) => readings > 0)).toHaveLength(2);
    expect(usableShare(days[29]!)).toBe(0.25);
  });

  it('count left-out readings under the chief reason of their day, standstill nowhere', () => {
    const days = healthDays(
      dailyOf([
        { ago: 3, accepted: 20, reason: 'spike' },
        { ago: 2, accepted: 10, off: 8, reason: 'not-steady' },
        { ago: 1, accepted: 0, off: 24, reason: 'unit-off' },
        { ago: 0, accepted: 22, reason: 'spike' },
      ]),
      TODAY,
    );
    expect([...leftOutByReason(days)]).toEqual([
      ['spike', 6],
      ['not-steady', 6],
    ]);
  });

  it('tell a day without readings from standstill and from none usable', () => {
    const { groups } = healthView(
      fleetWith([
        { tag: 'A-1', days: [{ ago: 0, accepted: 0 }, { ago: 1, accepted: 0, off: 24 }, { ago: 3 }] },
      ]),
      null,
    );
    expect(groups.fine[0]!.days.slice(-4)).toEqual([{ share: 1 }, 'none', 'off', { share: 0 }]);
    expect(groups.fine[0]!.daysSentence).toBe(
      'A-1, last 30 days: 1 day with fewer than half of the readings usable, 27 days without readings, 1 day at standstill',
    );
  });

  it('name the reasons of the fleet by readings left out, and the units most hit', () => {
    const view = healthView(
      fleetWith([
        { tag: 'A-1', days: [{ ago: 0, accepted: 14, reason: 'spike' }] },
        { tag: 'A-2', days: [{ ago: 0, accepted: 4, reason: 'not-steady' }] },
        { tag: 'A-3', days: [{ ago: 0, accepted: 23, reason: 'spike' }] },
      ]),
      null,
    );
    expect(view.reasons.map(({ name, readings, share, units }) => [name, readings, share, units])).toEqual([
      ['not steady', '20', '28 %', '1'],
      ['spikes', '11', '15 %', '2'],
    ]);
    expect(view.reasons[1]!.most.map(({ tag, count }) => [tag, count])).toEqual([
      ['A-1', '10'],
      ['A-3', '1'],
    ]);
  });
});

describe('data health for other programs', () => {
  it('is what the contract says, in the order of the page', () => {
    const document = dataHealthSchema.parse(JSON.parse(JSON.stringify(healthDocument(FLEET))));
    expect(document.units.map(({ tag }) => tag)).toEqual(['S-2', 'S-1', 'T-2', 'T-1', 'F-1', 'N-1']);
    expect(document.units[1]).toMatchObject({
      kind: 'suspect',
      suspectSince: '2026-09-26',
      drift: { kind: 'drift', since: '2026-09-26', change: 0.031 },
      readings: 48,
      accepted: 48,
    });
    expect(healthCsv(document).split('\r\n')[2]).toMatch(
      /^S-1,,Quay,fouling,suspect,0.9,48,48,,,2026-09-26,0.031/,
    );
  });
});

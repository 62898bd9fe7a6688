import { describe, expect, test } from 'vitest';
import type { AppError } from '@/lib/contract/app-error';
import type { VerdictRecord } from '@/lib/contract/verdicts';
import { REASON_BIT, REASONS } from '@/lib/core/checks/reasons';
import type { StepDown } from '@/lib/core/cycles/find-step-downs';
import type { UnitRecords } from '@/lib/report/records';
import { statementText } from '@/lib/report/unit/clean-by-statement';
import { readCleaningCorrection } from '@/lib/report/unit/cleaning-correction-input';
import { readFallForm } from '@/lib/report/unit/fall-input';
import { parseUnitAddress, unitHref } from '@/lib/report/unit/unit-address';
import { readVerdictForm } from '@/lib/report/unit/verdict-input';
import { readWithdrawal } from '@/lib/report/unit/withdrawal-input';
import { unitView } from '@/lib/report/unit-view';
import { DAY_MS, EPOCH, HOUR_MS } from '../support/forward-readings';
import { freshRecords, LIMIT, linearTrend, NOW, PORT, unitRecords } from '../support/unit-records';

const DAY = (n: number) => EPOCH + n * DAY_MS;
const viewOf = (records: UnitRecords, query: Record<string, string> = {}) =>
  unitView(records, parseUnitAddress('HX-1', query), 'si');
const chartOf = (view: ReturnType<typeof viewOf>, name: string) =>
  view.charts.find((chart) => chart.view.name === name)!.view;

/** Days 60 to 69 do not balance, day 75 has one spike, days 90 and 91 were left out by a person. */
function spoiled(): UnitRecords {
  const records = unitRecords();
  const set = (from: number, to: number, reason: (typeof REASONS)[number]) => {
    records.evaluation.time.forEach((at, i) => {
      if (at >= from && at < to) records.evaluation.reasons[i] = REASON_BIT[reason];
    });
  };
  records.evaluation.reasons.fill(0);
  set(DAY(60), DAY(70), 'balance-not-closed');
  set(DAY(75), DAY(75) + HOUR_MS, 'spike');
  set(DAY(90), DAY(92), 'excluded-by-person');
  const { daily } = records;
  daily.accepted.set(daily.readings);
  daily.worstReason.fill(-1);
  for (let row = 60; row < 70; row++) {
    daily.accepted[row] = row === 60 ? 12 : 0;
    daily.worstReason[row] = REASONS.indexOf('balance-not-closed');
    if (row > 60) daily.foulingResistance[row] = Number.NaN;
  }
  daily.accepted[75]!--;
  daily.worstReason[75] = REASONS.indexOf('spike');
  return { ...records, verdicts: [VERDICT, WITHDRAWN] };
}

const VERDICT: VerdictRecord = {
  id: 4,
  from: DAY(90),
  to: DAY(92),
  verdict: 'exclude',
  note: 'meter out for calibration',
  by: 'R. Silva',
  givenAt: NOW - 2 * DAY_MS,
  withdrawn: null,
};
const WITHDRAWN: VerdictRecord = {
  ...VERDICT,
  id: 3,
  from: DAY(20),
  to: DAY(21),
  verdict: 'include',
  note: 'start-up was steady enough',
  givenAt: NOW - 5 * DAY_MS,
  withdrawn: { at: NOW - 4 * DAY_MS, by: 'A. Costa', note: 'it was not' },
};

const RECORDS = spoiled();
const ALL = viewOf(RECORDS, { period: 'all' });

describe('what was left out stands on the charts', () => {
  const remarkAt = (name: string, at: number) => {
    const { time, lane } = chartOf(ALL, name);
    const row = time.findLastIndex((own) => own <= at);
    return lane!.remarks[row];
  };

  test('as a bar whose height is the share, with the reason by name where it lasts', () => {
    const { bars, names } = chartOf(ALL, 'balance').lane!;
    const long = bars.find(({ from, to }) => from <= DAY(65) && to >= DAY(65))!;
    expect(long.share).toBe(1);
    // A stretch of the lane is a quarter of a day here: 120 days in 480.
    expect(Math.abs(long.from - DAY(60))).toBeLessThan(DAY_MS / 2);
    expect(Math.abs(long.to - DAY(70))).toBeLessThan(DAY_MS / 2);
    expect(names.map(({ label }) => label)).toEqual(['heat balance does not close']);
    const spike = bars.find(({ from, to }) => from <= DAY(75) && to > DAY(75))!;
    expect(spike.share).toBeGreaterThan(0);
    expect(spike.share).toBeLessThan(0.5);
  });

  test('in words at each point: how many of how many, and for which reasons', () => {
    expect(remarkAt('duty', DAY(65) + HOUR_MS)).toMatch(
      /^(\d) of \1 left out: heat balance does not close \1$/,
    );
    expect(remarkAt('duty', DAY(75) + HOUR_MS / 2)).toMatch(/^1 of \d left out: spikes 1$/);
    expect(remarkAt('duty', DAY(80))).toBeNull();
  });

  test('day by day on the fouling chart, days without a figure among them', () => {
    const { lane, time, columns } = chartOf(ALL, 'fouling');
    const rowOf = (n: number) => time.findIndex((at) => at >= DAY(n) && at < DAY(n + 1));
    expect(lane!.remarks[rowOf(60)]).toBe('12 of 24 left out, most for: heat balance does not close');
    expect(columns[0]!.values[rowOf(60)]).not.toBeNull();
    expect(lane!.remarks[rowOf(65)]).toBe('24 of 24 left out, most for: heat balance does not close');
    expect(columns[0]!.values[rowOf(65)]).toBeNull();
    expect(lane!.bars.find(({ from }) => from === DAY(60))!.share).toBe(0.5);
    // One spike a day is as usual: no bar, but a remark.
    expect(lane!.bars.some(({ from }) => from === DAY(75))).toBe(false);
    expect(lane!.remarks[rowOf(75)]).toBe('1 of 24 left out, most for: spikes');
  });

  test('a period a person judged is a named span, and a withdrawn one is not', () => {
    const { judged } = chartOf(ALL, 'duty').lane!;
    expect(judged).toEqual([
      {
        from: DAY(90),
        to: DAY(92),
        label: 'left out by R. Silva: meter out for calibration',
        short: 'left out by R. Silva',
      },
    ]);
    expect(remarkAt('duty', DAY(91))).toBe('left out by R. Silva: meter out for calibration');
    expect(remarkAt('duty', DAY(20) + HOUR_MS)).toBeNull();
  });

  test('each reason leads to its longest stretch, shown and ready to be judged', () => {
    const balance = ALL.leftOut.reasons.find(({ reason }) => reason === 'balance-not-closed')!;
    expect(balance.longest.count).toBe(240);
    expect(balance.longest.showHref).toBe('/units/HX-1?from=2025-03-04&to=2025-03-20#charts');
    expect(balance.longest.judgeHref).toBe(
      '/units/HX-1?from=2025-03-04&to=2025-03-20&stretch=2025-03-07T00:00Z/2025-03-17T00:00Z#judging',
    );
  });
});

describe('judging a period', () => {
  test('begins with the period shown, or with the stretch that was picked', () => {
    const shown = viewOf(RECORDS, { from: '2025-03-01', to: '2025-03-10' }).judging;
    expect([shown.from, shown.to]).toEqual(['2025-03-01T00:00', '2025-03-11T00:00']);
    expect(shown.filledWith).toContain('the period shown');
    const stretch = '2025-03-07T00:00Z/2025-03-08T06:00Z';
    const picked = viewOf(RECORDS, { from: '2025-03-01', to: '2025-03-10', stretch }).judging;
    expect([picked.from, picked.to]).toEqual(['2025-03-07T00:00', '2025-03-08T06:00']);
    expect(picked.filledWith).toBe(
      'Filled in with the stretch you picked. Readings in it: 30; now counted: 0.',
    );
  });

  test('a stretch comes back the same through a link; one that cannot be is none', () => {
    const address = parseUnitAddress('HX-1', { stretch: '2025-03-07T00:00Z/2025-03-08T06:00Z' });
    expect(unitHref(address)).toBe('/units/HX-1?stretch=2025-03-07T00:00Z/2025-03-08T06:00Z');
    for (const stretch of ['soon', '2025-03-08T06:00Z', '2025-03-08T06:00Z/2025-03-07T00:00Z'])
      expect(parseUnitAddress('HX-1', { stretch }).stretch).toBeNull();
  });

  test('everything people said stands in the history, the newest first, with what can be withdrawn', () => {
    const answer = {
      id: 9,
      day: Math.floor(DAY(50) / DAY_MS),
      answer: 'not-cleaning' as const,
      note: 'meter replaced',
      by: 'A. Costa',
      givenAt: NOW - DAY_MS,
      cleaning: null,
      withdrawn: null,
    };
    const { history } = viewOf({ ...RECORDS, fallAnswers: [answer] }).judging;
    expect(
      history.map(({ about, said, note, by, standing, withdraw }) => [
        about,
        said,
        note,
        by,
        standing,
        withdraw,
      ]),
    ).toEqual([
      [
        'fall of 25 Feb 2025',
        'was not a cleaning',
        'meter replaced',
        'A. Costa',
        'holds',
        { kind: 'answer', id: 9 },
      ],
      [
        '6 Apr 2025, 01:00 – 8 Apr 2025, 01:00',
        'left out',
        'meter out for calibration',
        'R. Silva',
        'holds',
        { kind: 'verdict', id: 4 },
      ],
      [
        '26 Jan 2025, 00:00 – 27 Jan 2025, 00:00',
        'counted in',
        'start-up was steady enough',
        'R. Silva',
        'withdrawn by A. Costa, 1 May 2025, 23:00: it was not',
        null,
      ],
    ]);
  });

  test('works on a unit without readings', () => {
    const view = viewOf(freshRecords());
    expect(view.judging.history).toEqual([]);
    expect(view.leftOut.reasons).toEqual([]);
    expect(view.falls).toEqual([]);
    expect(view.health).toBeNull();
    expect(view.record).toBeNull();
    expect(view.cleanings.rows).toEqual([]);
  });
});

describe('a probable cleaning', () => {
  const fall = (day: number): StepDown => ({
    day: Math.floor(DAY(day) / DAY_MS),
    earliest: DAY(day) - 10 * HOUR_MS,
    latest: DAY(day) + 6 * HOUR_MS,
    before: 9e-5,
    after: 1e-5,
    fall: 8e-5,
    fallUncertainty: 4e-6,
    share: 8e-5 / LIMIT,
  });
  const withFall = (day: number, isRunning: boolean): UnitRecords => {
    const trend = linearTrend();
    const running = trend.cycles.at(-1)!;
    if (isRunning)
      Object.assign(running, { began: 'probable-cleaning', start: null, startDay: fall(day).day });
    return { ...RECORDS, trend: { ...trend, probableCleanings: [fall(day)] } };
  };

  test('is put as a question: how much, which share, between which readings, and what holds until then', () => {
    const [question] = viewOf(withFall(70, false), { period: 'all' }).falls;
    expect(question!.sentence).toBe(
      'The fouling fell by 0.080 ± 0.004 m²·K/kW (40 % of the allowance) between 16 Mar 2025, 14:00 and 17 Mar 2025, 06:00, and no cleaning is recorded.',
    );
    expect(question!.standing).toContain('two cycles');
    expect(question!.day).toBe('2025-03-17');
    expect(question!.at).toBe('2025-03-16T22:00');
  });

  test('says so in the statement while the trend rests on the figures since the fall', () => {
    const view = viewOf(withFall(70, true), { period: 'all' });
    expect(view.falls[0]!.standing).toContain('since the fall only');
    expect(statementText(view.header.statement)).toContain(
      'fitted to the figures since the fall of 17 Mar 2025',
    );
  });

  test('is marked on the charts by a shape of its own, and no line runs across it', () => {
    const chart = chartOf(viewOf(withFall(80, true), { period: 'all' }), 'fouling');
    expect(chart.marks.find(({ symbol }) => symbol === '△')!.label).toBe(
      'cleaned around 26 Mar? not recorded',
    );
    expect(chart.note).toBe('△ cleaned around 26 Mar? not recorded.');
    const after = chart.time.findIndex((at) => at >= fall(80).latest);
    expect(chart.columns[0]!.values[after - 1]).toBeNull();
  });
});

describe('the forms', () => {
  const faultsOf = (read: () => unknown) => {
    try {
      read();
    } catch (error) {
      return Object.fromEntries((error as AppError).faults.map(({ field, message }) => [field, message]));
    }
    return null;
  };
  const verdict = {
    from: '2025-05-01T08:00',
    to: '2025-05-02T08:00',
    verdict: 'exclude',
    note: 'n',
  };

  test('take local times of the site', () => {
    expect(readVerdictForm(verdict, PORT.timeZone)).toEqual({
      from: '2025-05-01T07:00:00.000Z',
      to: '2025-05-02T07:00:00.000Z',
      verdict: 'exclude',
      note: 'n',
    });
  });

  test('name each field that is wrong', () => {
    const read = (fields: Record<string, string>) =>
      faultsOf(() => readVerdictForm({ ...verdict, ...fields }, PORT.timeZone));
    expect(read({ from: 'soon', note: ' ' })).toEqual({
      from: expect.stringContaining('such as'),
      note: 'say why',
    });
    expect(read({ to: '2025-03-30T01:30' })).toEqual({ to: expect.stringContaining('twice or never') });
    expect(read({ to: '2025-04-30T08:00' })).toEqual({ to: expect.stringContaining('after') });
    expect(faultsOf(() => readWithdrawal({ kind: 'verdict', id: '3', note: '' }))).toEqual({
      note: 'say why',
    });
    expect(faultsOf(() => readWithdrawal({ kind: 'everything', note: 'n' }))).toHaveProperty('kind');
  });

  test('an answer carries time, method and cost only where it was a cleaning', () => {
    const fields = {
      day: '2025-03-17',
      note: '',
      at: '2025-03-17T05:00',
      method: ' brushed ',
      cost: '1200,5',
    };
    expect(readFallForm({ ...fields, answer: 'cleaning' }, PORT.timeZone)).toMatchObject({
      at: '2025-03-17T05:00:00.000Z',
      method: 'brushed',
      cost: 1200.5,
      note: null,
    });
    expect(readFallForm({ ...fields, cost: 'dear', answer: 'not-cleaning' }, PORT.timeZone)).toMatchObject({
      at: null,
      method: null,
      cost: null,
    });
    expect(
      faultsOf(() => readFallForm({ ...fields, cost: 'dear', answer: 'cleaning' }, PORT.timeZone)),
    ).toEqual({
      cost: expect.stringContaining('plain number'),
    });
    expect(faultsOf(() => readFallForm(fields, PORT.timeZone))).toHaveProperty('answer');
  });

  test('a correction empties what was emptied, and asks why; it says which state it corrects', () => {
    const fields = {
      id: '5',
      at: '2025-05-01T08:00',
      method: '',
      cost: '',
      note: '',
      reason: 'r',
      revision: '2',
    };
    expect(readCleaningCorrection(fields, PORT.timeZone)).toEqual({
      id: 5,
      at: '2025-05-01T07:00:00.000Z',
      method: null,
      cost: null,
      note: null,
      reason: 'r',
      revision: 2,
    });
    expect(faultsOf(() => readCleaningCorrection({ ...fields, at: '', reason: '' }, PORT.timeZone))).toEqual({
      at: expect.stringContaining('such as'),
      reason: 'say why',
    });
  });
});

import { describe, expect, it } from 'vitest';
import { COST_PERIODS } from '@/lib/contract/costs';
import { energyHref, monthHref, readEnergyAddress } from '@/lib/report/energy/energy-address';
import {
  energyPeriod,
  monthPeriod,
  monthsUpTo,
  periodBefore,
  periodInWords,
} from '@/lib/report/energy/energy-period';
import { dayNumber, isoDay } from '@/lib/time/calendar-day';

const paramsOf = (href: string) => Object.fromEntries(new URLSearchParams(href.split('?')[1] ?? ''));
const daysOf = (params: Record<string, string>, today: string) => {
  const { from, to } = energyPeriod(readEnergyAddress(params), dayNumber(today));
  return [isoDay(from), isoDay(to)];
};

describe('the address of the page', () => {
  it('shows the same thing again when it is read back', () => {
    for (const params of [
      {},
      { period: 'last-quarter' },
      { from: '2026-03-01', to: '2026-03-31', site: 'Hill', units: 'us' },
      { period: 'this-year', site: 'Quay & Co' },
    ]) {
      const address = readEnergyAddress(params);
      expect(readEnergyAddress(paramsOf(energyHref(address)))).toEqual(address);
    }
    expect(energyHref(readEnergyAddress({}))).toBe('/energy');
  });

  it('takes what cannot be read as not given', () => {
    for (const params of [
      { period: 'next-year' },
      { from: '2026-02-30', to: '2026-03-01' },
      { from: '2026-03-02', to: '2026-03-01' },
      { from: '2026-03-02' },
    ])
      expect(readEnergyAddress(params)).toMatchObject({ period: 'last-30-days', fromDay: null });
  });

  it('leads to the sheet of a month with the site kept', () => {
    expect(monthHref('2026-10', { site: 'Hill', units: null })).toBe('/energy/month?month=2026-10&site=Hill');
  });
});

describe('the period', () => {
  it('is that of the calendar where it is named so', () => {
    const today = '2026-11-25';
    expect(COST_PERIODS.map((period) => daysOf({ period }, today))).toEqual([
      ['2026-10-27', '2026-11-25'],
      ['2026-11-01', '2026-11-25'],
      ['2026-10-01', '2026-10-31'],
      ['2026-10-01', '2026-11-25'],
      ['2026-07-01', '2026-09-30'],
      ['2026-01-01', '2026-11-25'],
      ['2025-11-26', '2026-11-25'],
    ]);
    expect(daysOf({ period: 'last-quarter' }, '2027-01-01')).toEqual(['2026-10-01', '2026-12-31']);
    expect(daysOf({ period: 'last-month' }, '2028-03-31')).toEqual(['2028-02-01', '2028-02-29']);
  });

  it('is set against as many days just before it', () => {
    const before = periodBefore({ from: dayNumber('2026-07-01'), to: dayNumber('2026-09-30') });
    expect(periodInWords(before)).toBe('from 31 Mar 2026 to 30 Jun 2026');
  });

  it('is a whole month on the sheet, and none for what is no month', () => {
    expect(monthPeriod('2028-02')).toEqual({ from: dayNumber('2028-02-01'), to: dayNumber('2028-02-29') });
    for (const wrong of ['2026-13', '2026-1', 'October', '', null]) expect(monthPeriod(wrong)).toBeNull();
  });

  it('goes back month by month across the year', () => {
    const months = monthsUpTo(dayNumber('2026-02-10'), 3).map(({ from, to }) => [isoDay(from), isoDay(to)]);
    expect(months).toEqual([
      ['2025-12-01', '2025-12-31'],
      ['2026-01-01', '2026-01-31'],
      ['2026-02-01', '2026-02-28'],
    ]);
  });
});

import { describe, expect, it } from 'vitest';
import {
  figureText,
  formatFigure,
  formatFigureText,
  formatMoney,
  formatNumber,
} from '@/lib/report/format/figure';
import { formatAge, formatDay, formatInstant, formatSpan } from '@/lib/report/format/time';
import { dayNumber, isoDay } from '@/lib/time/calendar-day';
import { localDay } from '@/lib/time/local-clock';

describe('figures', () => {
  it.each([
    [12_345, 456, '12.3 ± 0.5 kW'],
    [12_345, 120, '12.35 ± 0.12 kW'],
    [1_234_567, 56_000, '1,230 ± 60 kW'],
    [-12_345, 456, '−12.3 ± 0.5 kW'],
    [100, 5000, '0 ± 5 kW'],
  ])('%d W with a standard uncertainty of %d W reads "%s"', (value, uncertainty, text) => {
    expect(formatFigureText(value, 'power', 'si', { uncertainty })).toBe(text);
  });

  it('have three significant digits where no uncertainty is known', () => {
    expect(formatFigureText(12_345, 'power', 'si')).toBe('12.3 kW');
    expect(formatFigureText(0.6234, 'fraction', 'si')).toBe('62.3 %');
    expect(formatFigureText(4.2e-4, 'foulingResistance', 'si')).toBe('0.420 m²·K/kW');
  });

  it('without an answer are a dash, never zero', () => {
    for (const nothing of [null, undefined, Number.NaN, Number.POSITIVE_INFINITY]) {
      expect(figureText(formatFigure(nothing, 'power', 'si'))).toBe('–');
    }
  });

  it('rounded to zero carry no minus sign', () => {
    expect(formatNumber(-0.004, 1)).toBe('0.0');
  });

  it('of money show cents below ten only', () => {
    expect(formatMoney(8.5, 'EUR')).toBe('8.50\u00a0€');
    expect(formatMoney(1890.4, 'USD')).toBe('1,890\u00a0$');
    expect(formatMoney(12, 'SEK')).toBe('12\u00a0SEK');
    expect(formatMoney(null, 'EUR')).toBe('–');
  });
});

describe('times', () => {
  it('a day number and its ISO form read the same', () => {
    expect(formatDay('2026-09-05')).toBe('5 Sep 2026');
    expect(formatDay(dayNumber('2026-09-05'))).toBe('5 Sep 2026');
    expect(formatDay('2026-09-05', { year: false })).toBe('5 Sep');
    expect(isoDay(dayNumber('2026-02-28') + 1)).toBe('2026-03-01');
  });

  it('an instant is shown on the clock of the named zone, summer and winter', () => {
    expect(formatInstant(Date.UTC(2026, 6, 1, 12), 'Europe/Lisbon')).toBe('1 Jul 2026, 13:00');
    expect(formatInstant(Date.UTC(2026, 11, 1, 12), 'Europe/Lisbon')).toBe('1 Dec 2026, 12:00');
    expect(formatInstant(Date.UTC(2026, 6, 1, 0, 15), 'UTC')).toBe('1 Jul 2026, 00:15');
  });

  it('the local day of an instant follows the zone', () => {
    const late = Date.UTC(2026, 10, 25, 23, 30);
    expect(localDay(late, 'UTC')).toBe(dayNumber('2026-11-25'));
    expect(localDay(late, 'Europe/Berlin')).toBe(dayNumber('2026-11-26'));
    expect(localDay(late, 'America/Chicago')).toBe(dayNumber('2026-11-25'));
  });

  it('ages come in the largest unit that leaves two of it', () => {
    expect(formatAge(20_000)).toBe('just now');
    expect(formatAge(25 * 60_000)).toBe('25 min ago');
    expect(formatAge(3 * 3_600_000)).toBe('3 h ago');
    expect(formatAge(-72 * 3_600_000)).toBe('in 3 days');
    expect(formatSpan(12 * 86_400_000)).toBe('12 days');
  });
});

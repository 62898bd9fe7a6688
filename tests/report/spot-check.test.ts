import { describe, expect, it } from 'vitest';
import { sliceReadings } from '@/lib/core/series/reading-columns';
import { againstTrend } from '@/lib/report/spot-check/against-trend';
import { entriesOfReading } from '@/lib/report/spot-check/last-reading';
import { readEntries } from '@/lib/report/spot-check/read-entries';
import {
  emptySpotCheckHref,
  isBlank,
  readSpotCheckAddress,
  spotCheckHref,
} from '@/lib/report/spot-check/spot-check-entries';
import { linearTrend, NOW, PLATE_UNIT, PORT, unitRecords } from '../support/unit-records';

const CLOCK = Date.parse('2026-05-04T07:00:00Z');
const zone = { timeZone: PORT.timeZone, now: CLOCK };
const addressOf = (href: string) =>
  Object.fromEntries(new URL(href, 'http://localhost').searchParams.entries());

describe('the address of a spot check', () => {
  const typed = {
    hotIn: '80,5',
    hotInUnit: 'Cel',
    coldFlow: '90',
    coldFlowUnit: 'm3/h',
    temperatureUncertainty: '0.5',
    at: '2026-05-04T08:00',
    by: 'shift B',
    note: 'after the trip',
  };

  it('holds what was typed, so that a link shows the same', () => {
    const entries = readSpotCheckAddress(typed, PLATE_UNIT, 'si');
    expect(readSpotCheckAddress(addressOf(spotCheckHref('HX-1', entries)), PLATE_UNIT, 'us')).toEqual({
      ...readSpotCheckAddress({}, PLATE_UNIT, 'us'),
      ...Object.fromEntries(
        Object.entries(entries).filter(([, own]) => (typeof own === 'string' ? own : own.value) !== ''),
      ),
    });
  });

  it('asks in the reader’s units, for a flow in the datasheet’s own where that is one of them', () => {
    const si = readSpotCheckAddress({}, PLATE_UNIT, 'si');
    expect([si.hotIn.unit, si.hotFlow.unit, si.coldFlow.unit]).toEqual(['Cel', 't/h', 'kg/s']);
    const us = readSpotCheckAddress({}, PLATE_UNIT, 'us');
    expect([us.hotIn.unit, us.hotFlow.unit, us.hotPressureDrop.unit]).toEqual([
      '[degF]',
      '[lb_av]/h',
      '[psi]',
    ]);
    expect([isBlank(si), isBlank(readSpotCheckAddress(typed, PLATE_UNIT, 'si'))]).toEqual([true, false]);
  });

  it('keeps the unit system that a link asks for', () => {
    expect(emptySpotCheckHref('HX 1', 'us')).toBe('/units/HX%201/spot-check?units=us');
    expect(emptySpotCheckHref('HX 1', null)).toBe('/units/HX%201/spot-check');
  });
});

describe('what was typed', () => {
  const read = (params: Record<string, string>) =>
    readEntries(readSpotCheckAddress(params, PLATE_UNIT, 'si'), zone);

  it('becomes a reading with its time on the site’s clock, and instruments in SI', () => {
    const { reading, at, instruments, faults } = read({
      hotIn: '80,5',
      at: '2026-05-04T08:00',
      temperatureUncertainty: '0.9',
      temperatureUncertaintyUnit: '[degF]',
      flowUncertainty: '3',
    });
    expect(faults).toEqual([]);
    expect(reading.hotIn).toEqual({ value: 80.5, unit: 'Cel' });
    // Lisbon keeps summer time in May: 08:00 there is 07:00 UTC.
    expect(at).toBe(CLOCK);
    expect(instruments).toEqual({ temperature: expect.closeTo(0.5, 12), flow: 0.03 });
  });

  it('is now where no time is given, and has no instruments of its own where none are stated', () => {
    expect(read({ hotIn: '80' })).toMatchObject({
      at: CLOCK,
      instruments: { temperature: null, flow: null },
    });
  });

  it.each([
    ['hotIn', { hotIn: 'eighty' }],
    ['hotIn', { hotIn: '1,234' }],
    ['coldFlow', { coldFlow: '1e999' }],
    ['coldFlow', { coldFlow: '10', coldFlowUnit: 'Cel' }],
    ['temperatureUncertainty', { temperatureUncertainty: '-1' }],
    ['temperatureUncertainty', { temperatureUncertainty: '1', temperatureUncertaintyUnit: 'kg' }],
    ['flowUncertainty', { flowUncertainty: '300' }],
    ['at', { at: 'yesterday' }],
    // The clock goes back there: 01:30 occurs twice.
    ['at', { at: '2026-10-25T01:30' }],
  ])('is refused at its own field: %s of %j', (field, params) => {
    expect(read(params).faults.map((fault) => fault.field)).toEqual([field]);
  });
});

describe('starting from the last reading', () => {
  it('writes its values in the units of the form', () => {
    const { readings } = unitRecords();
    const last = sliceReadings(readings, readings.time.length - 1, readings.time.length);
    const entries = entriesOfReading(last, readSpotCheckAddress({}, PLATE_UNIT, 'us'), 'us');
    expect(entries.hotIn.unit).toBe('[degF]');
    expect((Number(entries.hotIn.value) - 32) / 1.8).toBeCloseTo(last.hotIn[0]!, 2);
    expect(Number(entries.hotFlow.value) * (0.45359237 / 3600)).toBeCloseTo(last.hotFlow[0]!, 3);
    expect(entries.hotPressureDrop.value).toBe('');
  });
});

describe('a check beside the trend', () => {
  const beside = (foulingResistance: number, uncertainty = 3e-6) =>
    againstTrend({ foulingResistance, uncertainty }, linearTrend(), {
      now: NOW,
      timeZone: PORT.timeZone,
      system: 'si',
    });
  const { foulingResistance, foulingResistanceUncertainty } = linearTrend();

  it('agrees within two standard uncertainties of the difference, else says by how many it differs', () => {
    const u = Math.hypot(3e-6, foulingResistanceUncertainty!);
    expect(beside(foulingResistance! + 0.8 * u)).toMatchObject({
      agrees: true,
      sentence: expect.stringContaining('they differ by 0.8 u'),
    });
    const dirtier = beside(foulingResistance! + 2.3 * u);
    expect(dirtier.agrees).toBe(false);
    expect(dirtier.sentence).toMatch(/^Differs by 2\.3 u .*dirtier/);
    expect(beside(foulingResistance! - 2.3 * u).sentence).toContain('cleaner');
  });

  it('says so where there is no trend', () => {
    const options = { now: NOW, timeZone: PORT.timeZone, system: 'si' as const };
    expect(againstTrend({ foulingResistance: 1e-4, uncertainty: 1e-5 }, null, options).agrees).toBeNull();
  });
});

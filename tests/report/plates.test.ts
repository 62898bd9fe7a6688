import { describe, expect, test } from 'vitest';
import { unitSchema } from '@/lib/contract/fleet-file';
import { channelVelocity } from '@/lib/core/exchange/plate-channel';
import type { UnitRecords } from '@/lib/report/records';
import { draftDocument } from '@/lib/report/setup/draft-document';
import { draftFromUnit } from '@/lib/report/setup/draft-from-unit';
import { figuresView } from '@/lib/report/setup/figures-view';
import { datasheet } from '@/lib/report/unit/datasheet';
import { approachAdvice } from '@/lib/report/unit/unit-advice';
import { unitFigures } from '@/lib/work/unit-figures';
import { PLATE_UNIT, PORT, unitRecords } from '../support/unit-records';

const UNIT = unitSchema.parse({
  ...PLATE_UNIT,
  plates: {
    ...PLATE_UNIT.plates,
    channelGap: { value: 3, unit: 'mm' },
    channelWidth: { value: 16, unit: '[in_i]' },
  },
  pressureDrop: { coldExponent: 1.72 },
});
const RECORDS = unitRecords(() => {}, UNIT);
const PACK = { count: 102, channelGap: 3e-3, channelWidth: 16 * 0.0254, hotPasses: 1, coldPasses: 1 };

const groupOf = (records: UnitRecords, title: string) =>
  datasheet(records, 'si').groups.find((group) => group.title === title)?.rows ?? [];

describe('the plate channels on the unit page', () => {
  test('have the velocity of the duty point and that of late, with Reynolds numbers', () => {
    const rows = groupOf(RECORDS, 'Plate channels');
    expect(rows.map(({ label }) => label)).toEqual([
      'Gap between plates',
      'Width of a channel',
      'Hot velocity, duty point',
      'Hot velocity, of late',
      'Cold velocity, duty point',
      'Cold velocity, of late',
    ]);
    // 20 kg/s of water at 65 °C, 980.5 kg/m³ (common tables), in 50 channels of 3 mm by 406 mm.
    const hot = channelVelocity(PACK, 'hot', 20, 980.5);
    expect(Number.parseFloat(rows[2]!.si)).toBeCloseTo(hot, 2);
    expect(rows[4]!.note).toMatch(/^51 channels in each pass\. /);
    expect(rows[2]!.us).toMatch(/ft\/s$/);
    // 0.433 mPa·s at 65 °C (common tables): Re = 2·ρ·v·b/μ = 4460.
    expect(rows[2]!.note).toBe('50 channels in each pass. Re 4,500, on twice the gap.');
    expect(rows[1]!.given).toBe('16 in');
  });

  test('are left out where the datasheet states no gap', () => {
    expect(groupOf(unitRecords(), 'Plate channels')).toEqual([]);
  });

  test('are advised on where the stream has become slow, in words with the figures', () => {
    const slow = {
      ...RECORDS,
      daily: { ...RECORDS.daily, hotMassFlow: RECORDS.daily.hotMassFlow.map(() => 10) },
    };
    const advice = datasheet(slow, 'si').advice.find((line) => line.includes('channels'));
    expect(advice).toMatch(
      /^The hot stream runs at 0\.17 m\/s in the channels, 50 % of the 0\.33 m\/s of its duty point/,
    );
    expect(datasheet(RECORDS, 'si').advice.some((line) => line.includes('in the channels'))).toBe(false);
  });

  test('say the area and the channels as they are counted', () => {
    const [plates, , area] = groupOf(RECORDS, 'Area');
    expect(plates).toMatchObject({ given: 'N = 102', note: 'N − 1 = 101 channels' });
    expect(area).toMatchObject({ given: 'A = (102 − 2) · a', si: '50.00 m²' });
  });
});

describe('the plate channels in the form', () => {
  const draft = draftFromUnit(UNIT, PORT, 'si');

  test('come back the same through the form, with the exponents of pressure drop', () => {
    const { document, faults } = draftDocument(draft);
    expect(faults).toEqual([]);
    const again = unitSchema.parse(JSON.parse(JSON.stringify((document as { unit: unknown }).unit)));
    expect(again.plates).toEqual(UNIT.plates);
    expect(again.pressureDrop).toEqual({ coldExponent: 1.72 });
  });

  test('have their velocities beside it as soon as plates, streams and flows are there', () => {
    const { document } = draftDocument(draft);
    const figures = unitFigures({ ...(document.unit as Record<string, unknown>), limits: undefined });
    expect(figures.hotChannelVelocity).toBeCloseTo(channelVelocity(PACK, 'hot', 20, 980.5), 3);
    expect([figures.hotChannels, figures.coldChannels]).toEqual([50, 51]);
    const rows = figuresView(figures, draft, 'si').rows.filter(({ label }) => label.startsWith('Velocity'));
    expect(rows[0]).toMatchObject({
      label: 'Velocity in the hot channels',
      figure: { number: '0.33', unit: 'm/s' },
      note: '50 channels in each pass, Re 4,500',
    });
    expect(unitFigures({ ...(document.unit as object), design: undefined }).hotChannelVelocity).toBeNull();
  });

  test('are not spoken of while gap or width is missing', () => {
    const half = { ...draft, plates: { ...draft.plates, channelGap: { value: '', unit: 'mm' } } };
    const labels = figuresView(null, half, 'si').rows.map(({ label }) => label);
    expect(labels.some((label) => label.startsWith('Velocity'))).toBe(false);
  });
});

describe('a close temperature approach', () => {
  /** The cold end closed up to a few uncertainties, by a reading of the hot outlet alone. */
  const close = (approach: number) =>
    unitRecords((readings) => {
      readings.hotOut = readings.coldIn.map((cold) => cold + approach);
      readings.hotFlow = readings.coldFlow.map(
        (flow, i) =>
          (flow * (readings.coldOut[i]! - readings.coldIn[i]!)) / (readings.hotIn[i]! - readings.hotOut[i]!),
      );
    });

  test('is said in words with its figures, and how much of U that leaves', () => {
    const [advice, ...more] = approachAdvice(close(0.6), 'si');
    expect(more).toEqual([]);
    expect(advice).toMatch(
      /^The approach at the cold end is 0\.60 ± 0\.28 K: U is known to ± \d+ % only \(one standard deviation\)\. A reading is left out below 3 times that uncertainty: \d+ % of the last 14 days\.$/,
    );
  });

  test('is not spoken of where it is wide', () => {
    expect(approachAdvice(unitRecords(), 'si')).toEqual([]);
  });
});

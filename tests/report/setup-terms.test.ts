import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { toCheckSettings } from '@/lib/contract/exchanger-from-unit';
import { faultsOf } from '@/lib/contract/faults';
import { type Unit, unitSchema } from '@/lib/contract/fleet-file';
import { DEFAULT_CHECK_SETTINGS } from '@/lib/core/checks/check-settings';
import type { UnitSystem } from '@/lib/report/format/unit-system';
import { CHECK_FIELDS } from '@/lib/report/setup/check-fields';
import { checkAssumed } from '@/lib/report/setup/checks-draft';
import { draftDocument } from '@/lib/report/setup/draft-document';
import { draftFromUnit } from '@/lib/report/setup/draft-from-unit';
import { fieldInWords } from '@/lib/report/setup/field-words';
import { saidOf } from '@/lib/report/setup/optional-words';
import { emptyDraft, type UnitDraft } from '@/lib/report/setup/unit-draft';
import { plainUnit } from '../support/units';

const site = { name: 'Test works', timeZone: 'Europe/Lisbon', currency: 'EUR' };
const SYSTEMS: UnitSystem[] = ['si', 'us'];
const SEED = 20_261;

const number = (least: number, most: number) =>
  fc.double({ min: least, max: most, noNaN: true, noDefaultInfinity: true });
/** As people write them: four digits. */
const digits = (least: number, most: number) =>
  number(least, most).map((value) => Math.min(most, Math.max(least, Number(value.toPrecision(4)))));
const quantityIn = (units: string[], least: number, most: number) =>
  fc.record({ value: digits(least, most), unit: fc.constantFrom(...units) });
const temperature = quantityIn(['Cel', 'K', '[degF]'], -50, 400);
const pressure = quantityIn(['kPa', 'bar', '[psi]'], 0.1, 900);
const flow = quantityIn(['kg/s', 'm3/h', 't/h', '[gal_us]/min', '[lb_av]/h'], 0.1, 9000);
const energyUnit = fc.constantFrom('kW.h', 'MW.h', 'GJ', '10*6.[Btu_IT]');
const name = fc
  .string({ minLength: 1, maxLength: 60 })
  .map((text) => text.trim())
  .filter((text) => text !== '');
const note = fc.string({ maxLength: 900 }).filter((text) => text.trim() !== '');
const some = { requiredKeys: [] };

const bought = {
  supply: name,
  price: fc.record({ amount: digits(0, 500), per: energyUnit }),
  carbon: fc.record({ kg: digits(0, 900), per: energyUnit }),
};
const checks = fc.record(
  {
    minimumTemperature: temperature,
    maximumTemperature: temperature,
    maximumFlowShare: digits(1.01, 100),
    offFlowShare: digits(0, 1),
    turndownFlowShare: digits(0, 1),
    frozenHours: digits(1, 48),
    spikeHalfWindow: fc.integer({ min: 2, max: 24 }),
    spikeThreshold: digits(2, 50),
    terminalDifferenceMultiple: digits(0, 20),
    balanceTolerance: digits(0.001, 1),
    balanceUncertaintyMultiple: digits(1, 10),
    settlingMinutes: digits(0, 240),
    steadyMultiple: digits(1, 20),
  },
  some,
);
const energy = fc.record(
  {
    effect: fc.constantFrom('heating', 'cooling', 'recovery'),
    ...bought,
    efficiency: digits(0.01, 20),
    heldOutlet: fc.constantFrom('hot', 'cold'),
  },
  { requiredKeys: ['effect'] },
);
const pumping = fc.record(
  {
    ...bought,
    efficiency: digits(0.01, 1),
    hotClean: pressure,
    coldClean: pressure,
    hotHead: pressure,
    coldHead: pressure,
    hotMaximumFlow: flow,
    coldMaximumFlow: flow,
  },
  some,
);
const cleaning = fc.record(
  {
    cost: digits(0, 1e6),
    duration: quantityIn(['h', 'd', 'min'], 0.1, 500),
    crewHours: digits(0, 500),
    method: name,
    inOutageOnly: fc.boolean(),
    downtimePerHour: digits(0, 1e5),
    isolation: note,
    compatibility: note,
  },
  some,
);
const terms = fc.record({ checks, energy, pumping, cleaning }, some);

/** A part in which nothing is stated is left out of the datasheet: the meaning is the same. */
const withoutEmptyParts = (unit: Unit): Unit =>
  Object.fromEntries(Object.entries(unit).filter(([, part]) => JSON.stringify(part) !== '{}')) as Unit;

describe('thresholds, energy, pumping and cleaning through the form and back', () => {
  it.each(SYSTEMS)('stay as the datasheet states them, to the digit and the blank (%s)', (system) => {
    let compared = 0;
    fc.assert(
      fc.property(terms, (stated) => {
        const unit = plainUnit('E-1', stated as Partial<Unit>);
        const { document, faults } = draftDocument(draftFromUnit(unit, site, system));
        // A random range of temperatures may hold none: that fault, and no other, is told.
        expect(faults.filter(({ field }) => field !== 'unit.checks.maximumTemperature')).toEqual([]);
        expect(JSON.stringify(unitSchema.parse(document.unit))).toBe(
          JSON.stringify(unitSchema.parse(withoutEmptyParts(unit))),
        );
        compared++;
      }),
      { seed: SEED, numRuns: 400 },
    );
    expect(compared).toBe(400);
  });

  it('have a field for every threshold of the contract', () => {
    expect(CHECK_FIELDS.map((field) => field.name).sort()).toEqual(
      Object.keys(DEFAULT_CHECK_SETTINGS).sort(),
    );
  });

  it('show what is assumed in the unit of measure that is chosen', () => {
    const { checks: metric } = emptyDraft('si', site);
    const { checks: customary } = emptyDraft('us', site);
    // −60 °C is −76 °F, 500 °C is 932 °F.
    expect(checkAssumed('minimumTemperature', metric)).toBe('−60 assumed');
    expect(checkAssumed('minimumTemperature', customary)).toBe('−76 assumed');
    expect(checkAssumed('maximumTemperature', customary)).toBe('932 assumed');
    expect(checkAssumed('balanceTolerance', metric)).toBe('10 assumed');
    expect(checkAssumed('frozenHours', customary)).toBe('8 assumed');
  });

  it('reach the screening as they were typed', () => {
    const draft = emptyDraft('us', site);
    draft.checks.maximumTemperature.value = '302';
    draft.checks.turndownFlowShare = '33,3';
    draft.checks.frozenHours = '12';
    const sent = JSON.stringify(draftDocument(draft).document);
    const { unit } = JSON.parse(sent) as { unit: Unit };
    expect(toCheckSettings(unit)).toEqual({
      ...DEFAULT_CHECK_SETTINGS,
      maximumTemperature: expect.closeTo(150, 9) as number,
      turndownFlowShare: 0.333,
      frozenHours: 12,
    });
  });

  it('say in few words what stands in a closed part', () => {
    const draft = emptyDraft('si', site);
    expect(saidOf(draft)).toMatchObject({
      checks: 'usual thresholds for hourly readings',
      pumping: 'not stated: extra pumping is not priced',
    });
    draft.checks.frozenHours = '12';
    draft.checks.minimumTemperature.value = '-5';
    draft.energy = { ...draft.energy, effect: 'heating', supply: 'natural gas', heldOutlet: 'cold' };
    draft.pumping.supply = 'electricity';
    draft.cleaning.when = 'outage';
    expect(saidOf(draft)).toMatchObject({
      checks: '2 of 13 thresholds stated',
      energy: 'supply: natural gas; a valve holds the cold outlet',
      pumping: 'supply: electricity',
      cleaning: 'not stated: no economic day; in outages only',
    });
  });
});

/** Faults the form finds itself, then those of the contract, as the server tells them. */
function faultsIn(change: (draft: UnitDraft) => void) {
  const draft = draftFromUnit(plainUnit('E-1'), site, 'si');
  change(draft);
  const { document, faults } = draftDocument(draft);
  const parsed = unitSchema.safeParse(document.unit);
  return [...faults, ...(parsed.success ? [] : faultsOf(parsed.error, 'unit.'))];
}

describe('what is wrong with them is told at the field', () => {
  it.each<[string, (draft: UnitDraft) => void, string, string]>([
    ['a word', ({ checks }) => (checks.frozenHours = 'long'), 'frozenHours', 'plain number'],
    ['a share over 100 %', ({ checks }) => (checks.offFlowShare = '120'), 'offFlowShare', '100 %'],
    ['too small a multiple', ({ checks }) => (checks.maximumFlowShare = '1'), 'maximumFlowShare', 'than 1'],
    [
      'part of a reading',
      ({ checks }) => (checks.spikeHalfWindow = '2.5'),
      'spikeHalfWindow',
      'whole number',
    ],
    ['an hour too long', ({ checks }) => (checks.frozenHours = '49'), 'frozenHours', 'at most 48'],
    [
      'a range without temperatures',
      ({ checks }) => (checks.maximumTemperature.value = '-60'),
      'maximumTemperature',
      'above the lowest',
    ],
  ])('%s among the thresholds', (_what, change, field, words) => {
    const faults = faultsIn(change);
    expect(faults).toHaveLength(1);
    expect(faults[0]!.field).toBe(`unit.checks.${field}`);
    expect(faults[0]!.message).toContain(words);
    expect(fieldInWords(faults[0]!.field)).toMatch(/^Which readings count: /);
  });

  it.each<[string, (draft: UnitDraft) => void, string, string]>([
    ['efficiency above 1', ({ pumping: p }) => (p.efficiency = '70'), 'pumping.efficiency', 'at most 1'],
    [
      'pressure of zero',
      ({ pumping: p }) => (p.coldClean.value = '0'),
      'pumping.coldClean',
      'greater than 0',
    ],
    ['price below zero', ({ pumping: p }) => (p.price.amount = '-1'), 'pumping.price.amount', 'at least 0'],
    ['long supply', ({ pumping: p }) => (p.supply = 'x'.repeat(61)), 'pumping.supply', '60 characters'],
    ['supply without a use', ({ energy }) => (energy.supply = 'gas'), 'energy.effect', 'what the unit does'],
    [
      'valve without a use',
      ({ energy }) => (energy.heldOutlet = 'hot'),
      'energy.effect',
      'what the unit does',
    ],
    [
      'loss below zero',
      ({ cleaning: c }) => (c.downtimePerHour = '-5'),
      'cleaning.downtimePerHour',
      'at least 0',
    ],
    [
      'long note',
      ({ cleaning: c }) => (c.isolation = 'x'.repeat(1001)),
      'cleaning.isolation',
      '1000 characters',
    ],
  ])('a %s', (_what, change, field, words) => {
    const faults = faultsIn(change);
    expect(faults).toHaveLength(1);
    expect(faults[0]!.field).toBe(`unit.${field}`);
    expect(faults[0]!.message).toContain(words);
    expect(fieldInWords(faults[0]!.field)).not.toMatch(/^unit\./);
  });
});

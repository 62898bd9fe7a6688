import { toExchanger } from '@/lib/contract/exchanger-from-unit';
import type { Unit } from '@/lib/contract/fleet-file';
import { toSi } from '@/lib/contract/ucum';
import { designConductance } from '@/lib/core/clean/design-conductance';
import { makeFluid } from '@/lib/core/fluids/make-fluid';
import { DEMO_FLEETS } from '@/seed/demo-fleet';
import { readPublished } from '../../support/published-data';
import type { Check, Row } from './check';
import { figure } from './figures';
import type { SourceName } from './sources';
import { absolute, digits } from './tolerance';

type Values = number | number[];
type Service = { service: string; us_h_ft2_F_per_Btu: Values; si_m2K_per_W: Values; printed_in?: string };
type Crude = { range: string; printed_in: string } & Record<
  'dry_us' | 'salt_us' | 'dry_si' | 'salt_si',
  number[]
>;
const { cases } = readPublished<{
  cases: {
    shell_and_tube_water: { rows: [string, ...number[]][] };
    shell_and_tube_industrial: Service[];
    shell_and_tube_crude_oil: Crude[];
    plate: Service[];
    overall_U_W_m2K: { rows: [string, number, number, string][] };
  };
}>('fouling-allowances');

const US_UNIT = 'h.[ft_i]2.[degF]/[Btu_IT]';
const FOUR_DIGITS = digits(4, 'the SI figures have four digits');

function converted(at: string, us: Values, si: Values): Row[] {
  const theirs = [si].flat();
  return [us].flat().map((value, i) => ({
    at,
    theirs: theirs[i]!,
    ours: toSi(value, US_UNIT, 'foulingResistance'),
  }));
}

const isRecalled = ({ printed_in }: { printed_in?: string }) => printed_in?.includes('recalled') ?? true;

function serviceRows(services: Service[]): Row[] {
  return services.flatMap((row) => converted(row.service, row.us_h_ft2_F_per_Btu, row.si_m2K_per_W));
}

function crudeRows(ranges: Crude[]): Row[] {
  return ranges.flatMap((row) => [
    ...converted(`${row.range}, dry`, row.dry_us, row.dry_si),
    ...converted(`${row.range}, with salt`, row.salt_us, row.salt_si),
  ]);
}

/** Allowances stated in US units, read by our units of measure, against their SI figures. */
function conversionChecks(): Check[] {
  const { shell_and_tube_water: water, shell_and_tube_industrial: fluids, plate } = cases;
  const { shell_and_tube_crude_oil: crude } = cases;
  const waterRows = water.rows.flatMap(([name, ...values]) =>
    converted(name, values.slice(0, 4), values.slice(4)),
  );
  const tables: [what: string, source: SourceName, origin: Check['origin'], rows: Row[]][] = [
    ['waters in tubes', 'TEMA', 'printed', waterRows],
    ['industrial fluids in tubes', 'TEMA', 'printed', serviceRows(fluids.filter((row) => !isRecalled(row)))],
    ['four more fluids in tubes', 'TEMA', 'recalled', serviceRows(fluids.filter(isRecalled))],
    [
      'crude oil up to 350 °F in tubes',
      'TEMA',
      'printed',
      crudeRows(crude.filter((row) => !isRecalled(row))),
    ],
    ['crude oil above 350 °F in tubes', 'TEMA', 'recalled', crudeRows(crude.filter(isRecalled))],
    ['plates', 'Marriott 1971', 'recalled', serviceRows(plate)],
  ];
  return tables.map(([what, source, origin, rows]) => ({
    id: `allowances of ${what}`,
    quantity: 'fouling allowance read in h·ft²·°F/Btu',
    unit: 'm²·K/W',
    source,
    origin,
    tolerance: FOUR_DIGITS,
    rows,
  }));
}

type Kind = 'plate' | 'oil in plates' | 'water' | 'oil' | 'steam' | 'steam on oil' | 'finned' | 'gas';

/** The row of the published table that each kind of service of the demonstration fleet belongs to. */
const PUBLISHED_SERVICE: Record<Kind, string> = {
  plate: 'Plate: liquid to liquid',
  'oil in plates': 'Water to oil',
  water: 'Water to water',
  oil: 'Water to oil',
  steam: 'Steam condenser',
  'steam on oil': 'Steam to heavy fuel oil',
  finned: 'Water to air in finned tubes, air-side area',
  gas: 'Tubular: liquid against gas at atmospheric pressure',
};

function kindOf({ construction, hot, cold, service }: Unit): Kind {
  const fluids = [hot.fluid, cold.fluid];
  const isOil = fluids.includes('oil') || /\boil\b/.test(service ?? '');
  if (fluids.includes('air')) return construction === 'air-cooled' && hot.fluid !== 'air' ? 'finned' : 'gas';
  if (hot.fluid === 'steam') return isOil ? 'steam on oil' : 'steam';
  if (construction === 'plate') return isOil ? 'oil in plates' : 'plate';
  return isOil ? 'oil' : 'water';
}

const units = DEMO_FLEETS.flatMap((fleet) => fleet.units);

function cleanUOf(unit: Unit): number {
  const exchanger = toExchanger(unit);
  const fluids = { hot: makeFluid(exchanger.hot), cold: makeFluid(exchanger.cold) };
  return exchanger.design.cleanU ?? designConductance(exchanger, fluids);
}

/** How far a value lies outside a range, as a share of the bound it passes; 0 within. */
function outside(value: number, [low, high]: readonly [number, number]): number {
  return Math.max(0, low / value - 1, value / high - 1);
}

/** The ranges are of typical units; half as much again is not implausible. */
const TYPICAL = absolute(0.5, 'the ranges are of typical units: plausibility, no answer');

function overallChecks(): Check[] {
  return Object.entries(PUBLISHED_SERVICE).map(([kind, service]) => {
    const [, low, high] = cases.overall_U_W_m2K.rows.find(([name]) => name === service)!;
    return {
      id: `clean U of the demonstration fleet: ${kind}`,
      quantity: `share by which clean U is outside "${service}", ${low} to ${high} W/(m²·K)`,
      unit: '–',
      source: 'overall coefficients',
      origin: 'printed',
      tolerance: TYPICAL,
      rows: units
        .filter((unit) => kindOf(unit) === kind)
        .map((unit) => ({ at: unit.tag, theirs: 0, ours: outside(cleanUOf(unit), [low, high]) })),
    };
  });
}

function extremes(values: number[]): [number, number] {
  return [Math.min(...values), Math.max(...values)];
}

/** Limits of fouling resistance lie between the plate values and the sum of two liquid sides in tubes. */
function limitChecks(): Check[] {
  const liquids = cases.shell_and_tube_industrial.filter(
    ({ service }) => !/gas|exhaust|vapour/i.test(service),
  );
  const tubes = extremes([
    ...liquids.flatMap((row) => row.si_m2K_per_W),
    ...cases.shell_and_tube_water.rows.flatMap(([, ...values]) => values.slice(4) as number[]),
  ]);
  const plates = extremes(cases.plate.flatMap((row) => row.si_m2K_per_W));
  const ranges: {
    what: string;
    source: SourceName;
    origin: Check['origin'];
    range: [number, number];
    kinds: Kind[];
  }[] = [
    {
      what: 'plates',
      source: 'Marriott 1971',
      origin: 'recalled',
      range: [plates[0], 2 * tubes[1]],
      kinds: ['plate', 'oil in plates'],
    },
    {
      what: 'tubes with liquids or steam',
      source: 'TEMA',
      origin: 'printed',
      range: [tubes[0], 2 * tubes[1]],
      kinds: ['water', 'oil', 'steam', 'steam on oil'],
    },
  ];
  return ranges.map(({ what, range, kinds, ...check }) => ({
    ...check,
    id: `limits of the demonstration fleet: ${what}`,
    quantity: `share by which a limit of fouling resistance is outside ${range.map((value) => figure(value, 3)).join(' to ')} m²·K/W`,
    unit: '–',
    tolerance: TYPICAL,
    rows: units
      .filter((unit) => kinds.includes(kindOf(unit)))
      .flatMap((unit) =>
        toExchanger(unit).limits.flatMap((limit) =>
          limit.kind === 'fouling-resistance'
            ? [{ at: unit.tag, theirs: 0, ours: outside(limit.value, range) }]
            : [],
        ),
      ),
  }));
}

export function foulingAllowanceChecks(): Check[] {
  return [...conversionChecks(), ...overallChecks(), ...limitChecks()];
}

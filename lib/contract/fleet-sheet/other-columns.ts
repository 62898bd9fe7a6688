import { fleetFileSchema } from '../fleet-file';
import { streamSchema } from '../stream';
import { columnsOf, ownColumn } from './make-columns';
import { schemaLeaves } from './schema-leaves';
import type { SheetColumn } from './sheet-column';

/** Every field of a stream, among them the three ways to state a custom fluid. */
const STREAM_LEAVES = schemaLeaves(streamSchema);
/** Every field of the site in a fleet file. */
export const FLEET_SITE_LEAVES = schemaLeaves(fleetFileSchema.shape.site);

const whose: SheetColumn[] = [
  ownColumn(
    {
      path: 'fluid',
      heading: 'Fluid name',
      meaning: 'As in "Hot fluid name" or "Cold fluid name" of the units whose custom fluid it is',
      example: 'whole milk',
    },
    { by: 'text' },
    'Fluid',
  ),
  ownColumn(
    {
      path: 'tag',
      heading: 'Only of unit',
      meaning: 'Tag of the only unit it holds for; usually left empty',
    },
    { by: 'text' },
    'Fluid',
  ),
  ownColumn(
    { path: 'side', heading: 'Only on side', meaning: 'The stream of that unit; usually left empty' },
    { by: 'choice', words: ['hot', 'cold'] },
    'Fluid',
  ),
];

const change = columnsOf(STREAM_LEAVES, 'Change of phase', [
  {
    path: 'properties.latentHeat',
    heading: 'Latent heat',
    meaning: 'Makes it condense on the hot side, evaporate on the cold one; in one row of the fluid',
  },
  {
    path: 'properties.saturationTemperature',
    heading: 'Saturation temperature',
    meaning: 'Where it condenses or boils; the inlet temperature where left empty',
  },
]);

/** One row per temperature; one row without a temperature for constants. */
export const FLUID_COLUMNS: readonly SheetColumn[] = [
  ...whose,
  ...columnsOf(STREAM_LEAVES, 'Properties', [
    {
      path: 'properties.table[].temperature',
      heading: 'Temperature',
      meaning: 'One row per temperature, at least two; or one row without, for properties that stay the same',
      example: 20,
    },
    {
      path: 'properties.table[].specificHeat',
      heading: 'Specific heat',
      meaning: 'Required',
      example: 3.885,
    },
    {
      path: 'properties.table[].density',
      heading: 'Density',
      meaning: 'Required for flows by volume',
      example: 1023.1,
    },
    {
      path: 'properties.table[].viscosity',
      heading: 'Viscosity',
      meaning: 'Dynamic; without it films are not corrected',
      example: 2.1,
    },
    {
      path: 'properties.table[].conductivity',
      heading: 'Conductivity',
      meaning: 'Thermal; without it films are not corrected',
      example: 0.564,
    },
  ]),
  ...change,
];

/** Coefficients a polynomial may have. */
export const MOST_COEFFICIENTS = 10;
export const POLYNOMIAL_PROPERTIES = ['specificHeat', 'density', 'viscosity', 'conductivity'] as const;

/** One row per property: c0 + c1·t + c2·t² + …, t in °C. */
export const POLYNOMIAL_COLUMNS: readonly SheetColumn[] = [
  ...whose,
  ownColumn(
    {
      path: 'property',
      heading: 'Property',
      meaning: 'Which property the row gives; the specific heat is required',
      example: 'specificHeat',
    },
    { by: 'choice', words: POLYNOMIAL_PROPERTIES },
    'Polynomial',
  ),
  ...columnsOf(STREAM_LEAVES, 'Polynomial', [
    {
      path: 'properties.polynomial.from',
      heading: 'From',
      meaning: 'Lowest temperature it holds for',
      example: 0,
    },
    {
      path: 'properties.polynomial.to',
      heading: 'To',
      meaning: 'Highest temperature it holds for',
      example: 90,
    },
  ]),
  ownColumn(
    {
      path: 'unit',
      heading: 'Unit of the property',
      meaning: 'Unit of the sum, such as kJ/(kg.K)',
      example: 'kJ/(kg.K)',
    },
    { by: 'text' },
    'Polynomial',
  ),
  ...Array.from({ length: MOST_COEFFICIENTS }, (_, power) =>
    ownColumn(
      {
        path: `coefficients.${power}`,
        heading: `c${power}`,
        meaning: power === 0 ? 'The constant' : `Coefficient of the temperature in °C to the power ${power}`,
        ...(power < 2 ? { example: power === 0 ? 3.88 : 0.0004 } : {}),
      },
      { by: 'number', isWhole: false, minimum: null, maximum: null },
      'Polynomial',
    ),
  ),
  ...change,
];

/** One row per site. */
export const SITE_COLUMNS = columnsOf(FLEET_SITE_LEAVES, 'Site', [
  { path: 'name', heading: 'Site', meaning: 'Its name', example: 'Example works' },
  {
    path: 'timeZone',
    heading: 'Time zone',
    meaning: 'Of the IANA list; days are cut at its midnight',
    example: 'Europe/Lisbon',
  },
  {
    path: 'currency',
    heading: 'Currency',
    meaning: 'Three letters of ISO 4217; all money of the site',
    example: 'EUR',
  },
]);

/** One row per supply and day from which a price holds. */
export const SUPPLY_COLUMNS: readonly SheetColumn[] = [
  ownColumn(
    {
      path: 'site',
      heading: 'Site',
      meaning: 'May be left empty where there is one site only',
      example: 'Example works',
    },
    { by: 'text' },
    'Supply',
  ),
  ...columnsOf(FLEET_SITE_LEAVES, 'Supply', [
    {
      path: 'supplies[].name',
      heading: 'Supply',
      meaning: 'Energy the site buys, as in "Energy supply" of its units',
      example: 'natural gas',
    },
    {
      path: 'supplies[].dated[].from',
      heading: 'From',
      meaning: 'Day from which this holds',
      example: '2026-01-01',
    },
    {
      path: 'supplies[].dated[].price',
      heading: 'Price',
      meaning: 'Money of the site per unit of energy bought',
      example: 0.06,
    },
    {
      path: 'supplies[].dated[].carbon',
      heading: 'Carbon',
      meaning: 'Carbon dioxide per unit of energy bought',
      example: 0.2,
    },
  ]),
  ownColumn(
    {
      path: 'stated',
      heading: 'Stated at',
      meaning: 'Written when known prices are downloaded; leave it as it is, and empty for a new price',
    },
    { by: 'text' },
    'Supply',
  ),
];

import { JUDGING_COLUMNS } from './judging-columns';
import { type ColumnWords, columnsOf, ownColumn } from './make-columns';
import type { SheetColumn } from './sheet-column';
import { UNIT_LEAVES } from './unit-leaves';

const group = (name: string, words: ColumnWords[]) => columnsOf(UNIT_LEAVES, name, words);

const SIDES = [
  ['hot', 'Hot'],
  ['cold', 'Cold'],
] as const;

/** Which site a unit stands at. */
export const SITE_COLUMN = ownColumn(
  {
    path: 'site',
    heading: 'Site',
    meaning: 'Name of its site, as on the sheet "Site"; may be left empty where there is one site only',
    example: 'Example works',
  },
  { by: 'text' },
  'Unit',
);

/** The datasheet version a row was written out from: tells whether somebody has changed the unit since. */
export const VERSION_COLUMN = ownColumn(
  {
    path: 'version',
    heading: 'Version',
    meaning:
      'Written when known units are downloaded; leave it as it is, and empty for a new unit. It shows whether somebody has changed the unit since',
  },
  { by: 'number', isWhole: true, minimum: 1, maximum: null },
  'Unit',
);

const [tag, ...identity] = group('Unit', [
  {
    path: 'tag',
    heading: 'Tag',
    meaning: 'Name of the unit on the plant, and in files of readings; at most 40 letters, digits or . _ / -',
    example: 'E-101',
  },
  {
    path: 'service',
    heading: 'Service',
    meaning: 'What it does, in a few words',
    example: 'Product cooler',
  },
  {
    path: 'construction',
    heading: 'Construction',
    meaning: 'How it is built; decides what is assumed of its films',
    example: 'shell-and-tube',
  },
]);

export const TAG_COLUMN = tag!;

const build = group('Build', [
  {
    path: 'arrangement.kind',
    heading: 'Arrangement',
    meaning: 'How the two streams pass each other',
    example: 'shell-and-tube',
  },
  {
    path: 'arrangement.shellPasses',
    heading: 'Shell passes',
    meaning: 'Shell and tube; 1 where left empty',
    example: 1,
  },
  {
    path: 'arrangement.tubePasses',
    heading: 'Tube passes',
    meaning: 'Shell and tube, all shells together; twice the shell passes where left empty',
    example: 2,
  },
  {
    path: 'arrangement.mixed',
    heading: 'Mixed stream',
    meaning: 'Crossflow: which stream mixes across its flow; none where left empty',
  },
  { path: 'arrangement.hotPasses', heading: 'Hot plate passes', meaning: 'Plate; 1 where left empty' },
  { path: 'arrangement.coldPasses', heading: 'Cold plate passes', meaning: 'Plate; 1 where left empty' },
  { path: 'tubeSide', heading: 'Stream in the tubes', example: 'cold' },
  {
    path: 'area',
    heading: 'Area',
    meaning: 'Heat transfer area; state either it or the plates',
    example: 42,
  },
  { path: 'plates.count', heading: 'Number of plates', meaning: 'All plates, the two at the ends included' },
  { path: 'plates.areaEach', heading: 'Area of one plate', meaning: 'Heat transfer area of one plate' },
]);

const streams = SIDES.flatMap(([side, Side]) =>
  group(`${Side} stream`, [
    {
      path: `${side}.fluid`,
      heading: `${Side} fluid`,
      meaning: 'What flows there; "custom" takes its properties from the sheet "Fluids"',
      example: 'water',
    },
    {
      path: `${side}.name`,
      heading: `${Side} fluid name`,
      meaning: 'What people call it; for a custom fluid its name on the sheet "Fluids"',
    },
    { path: `${side}.concentration`, heading: `${Side} concentration` },
    { path: `${side}.pressure`, heading: `${Side} pressure` },
  ]),
);

const design = group('Clean duty point', [
  {
    path: 'design.hotIn',
    heading: 'Hot inlet temperature',
    meaning: 'Hot stream into the unit',
    example: 65,
  },
  {
    path: 'design.hotOut',
    heading: 'Hot outlet temperature',
    meaning: 'Hot stream out of the unit',
    example: 45,
  },
  {
    path: 'design.coldIn',
    heading: 'Cold inlet temperature',
    meaning: 'Cold stream into the unit',
    example: 25,
  },
  {
    path: 'design.coldOut',
    heading: 'Cold outlet temperature',
    meaning: 'Cold stream out of the unit',
    example: 35,
  },
  { path: 'design.hotFlow', heading: 'Hot flow', meaning: 'By mass or by volume at the meter', example: 60 },
  {
    path: 'design.coldFlow',
    heading: 'Cold flow',
    meaning: 'By mass or by volume at the meter',
    example: 118,
  },
  {
    path: 'design.cleanU',
    heading: 'Clean U',
    meaning: 'Clean overall coefficient at this point; follows from temperatures and flows where left empty',
  },
  { path: 'clean', heading: 'Clean reference', example: 'datasheet' },
]);

/** What most units are described by: one row each. */
export const UNIT_COLUMNS: readonly SheetColumn[] = [
  TAG_COLUMN,
  SITE_COLUMN,
  VERSION_COLUMN,
  ...identity,
  ...build,
  ...streams,
  ...design,
  ...JUDGING_COLUMNS,
];

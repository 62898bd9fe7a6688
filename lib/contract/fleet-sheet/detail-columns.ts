import { FLOW_SENSORS, SENSORS, type Sensor, TEMPERATURE_SENSORS } from '@/lib/core/exchange/exchanger';
import { type ColumnWords, columnsOf } from './make-columns';
import { SHARE, type SheetColumn } from './sheet-column';
import { TAG_COLUMN } from './unit-columns';
import { UNIT_LEAVES } from './unit-leaves';

const group = (name: string, words: ColumnWords[]) => columnsOf(UNIT_LEAVES, name, words);

const SIDES = [
  ['hot', 'Hot'],
  ['cold', 'Cold'],
] as const;

const SENSOR_WORDS: Record<Sensor, string> = {
  hotIn: 'Hot inlet',
  hotOut: 'Hot outlet',
  coldIn: 'Cold inlet',
  coldOut: 'Cold outlet',
  hotFlow: 'Hot flow',
  coldFlow: 'Cold flow',
  hotPressureDrop: 'Hot pressure drop',
  coldPressureDrop: 'Cold pressure drop',
};

const build = group('Build', [
  { path: 'validFrom', heading: 'Valid from' },
  { path: 'nozzles.hotIn', heading: 'Hot inlet nozzle', meaning: 'Plate: where the hot stream enters' },
  { path: 'nozzles.coldIn', heading: 'Cold inlet nozzle', meaning: 'Plate: where the cold stream enters' },
  { path: 'plates.channelGap', heading: 'Gap between plates' },
  { path: 'plates.channelWidth', heading: 'Width of a channel' },
]);

const oils = SIDES.flatMap(([side, Side]) =>
  group(`${Side} oil`, [
    { path: `${side}.density`, heading: `${Side} oil density` },
    {
      path: `${side}.characterisationFactor`,
      heading: `${Side} oil characterisation factor`,
      meaning: 'Oil: Watson factor, 10 to 13',
    },
    ...[0, 1].flatMap((i) => [
      {
        path: `${side}.viscosities.${i}.temperature`,
        heading: `${Side} oil viscosity ${i + 1} at`,
        meaning: 'Oil: temperature at which this viscosity holds',
      },
      {
        path: `${side}.viscosities.${i}.value`,
        heading: `${Side} oil viscosity ${i + 1}`,
        meaning: 'Oil: viscosity at that temperature, kinematic or dynamic; state two or none',
      },
    ]),
  ]),
);

const films = group('Films', [
  {
    path: 'films.hotShare',
    heading: 'Share of the hot film',
    meaning: 'Of the clean resistance at the duty point',
  },
  {
    path: 'films.wallShare',
    heading: 'Share of the wall',
    meaning: 'Of the clean resistance; the rest is the cold film',
  },
  { path: 'films.hotExponent', heading: 'Exponent of the hot film', meaning: 'On its flow' },
  { path: 'films.coldExponent', heading: 'Exponent of the cold film', meaning: 'On its flow' },
]);

const cleanTest = group('Clean test', [
  { path: 'cleanTest.at', heading: 'Clean test at', meaning: 'Day and time of the test' },
  ...[...TEMPERATURE_SENSORS, ...FLOW_SENSORS].map((sensor) => ({
    path: `cleanTest.${sensor}`,
    heading: `Clean test ${SENSOR_WORDS[sensor].toLowerCase()}`,
    meaning: 'Measured when the unit was known to be clean; one of the six may be left out',
  })),
]);

const pressureDrop = group('Pressure drop', [
  {
    path: 'pressureDrop.hotExponent',
    heading: 'Exponent of the hot pressure drop',
    meaning: 'On its flow; 1.8 where left empty',
  },
  {
    path: 'pressureDrop.coldExponent',
    heading: 'Exponent of the cold pressure drop',
    meaning: 'On its flow; 1.8 where left empty',
  },
]);

const sensors = SENSORS.flatMap((sensor) =>
  group('Sensors', [
    {
      path: `sensors.${sensor}.uncertainty`,
      heading: `${SENSOR_WORDS[sensor]} uncertainty`,
      meaning: 'One standard deviation: in its unit, or as a share of the reading (0.02 or 2 %)',
      ...((TEMPERATURE_SENSORS as readonly string[]).includes(sensor) ? {} : { unit: SHARE }),
    },
    { path: `sensors.${sensor}.systematicShare`, heading: `${SENSOR_WORDS[sensor]} systematic share` },
    ...((FLOW_SENSORS as readonly string[]).includes(sensor)
      ? [
          {
            path: `sensors.${sensor}.at`,
            heading: `${SENSOR_WORDS[sensor]} meter at`,
            meaning: 'Where the meter sits; inlet where left empty',
          },
          { path: `sensors.${sensor}.nominal`, heading: `${SENSOR_WORDS[sensor]} assumed` },
        ]
      : []),
  ]),
);

const checks = group('Which readings count', [
  {
    path: 'checks.minimumTemperature',
    heading: 'Lowest temperature',
    meaning: 'A thermometer below it is out of range',
  },
  {
    path: 'checks.maximumTemperature',
    heading: 'Highest temperature',
    meaning: 'A thermometer above it is out of range',
  },
  {
    path: 'checks.maximumFlowShare',
    heading: 'Largest flow share',
    meaning: 'Times the design flow; a flow above it is out of range',
  },
  {
    path: 'checks.offFlowShare',
    heading: 'Off below flow share',
    meaning: 'Both flows below this share of design: the unit stands still',
  },
  {
    path: 'checks.turndownFlowShare',
    heading: 'Turndown flow share',
    meaning: 'A flow below this share of design is left out',
  },
  {
    path: 'checks.frozenHours',
    heading: 'Frozen after hours',
    meaning: 'A sensor that repeats one value so long while others move is frozen',
  },
  {
    path: 'checks.spikeHalfWindow',
    heading: 'Spike neighbours',
    meaning: 'Readings on each side that a value is compared with',
  },
  { path: 'checks.spikeThreshold', heading: 'Spike threshold', meaning: 'In deviations of its neighbours' },
  {
    path: 'checks.terminalDifferenceMultiple',
    heading: 'Closest approach',
    meaning: 'Times its uncertainty; a smaller difference is left out',
  },
  {
    path: 'checks.balanceTolerance',
    heading: 'Heat balance tolerance',
    meaning: 'Share of the duty within which the balance closes',
  },
  {
    path: 'checks.balanceUncertaintyMultiple',
    heading: 'Heat balance multiple',
    meaning: 'Times its uncertainty within which the balance closes',
  },
  {
    path: 'checks.settlingMinutes',
    heading: 'Settling minutes',
    meaning: 'Time the unit takes after a change; 0: steadiness is not judged',
  },
  {
    path: 'checks.steadyMultiple',
    heading: 'Steady multiple',
    meaning: 'Times the uncertainty; a value that changes by more is not steady',
  },
]);

const pumping = group('Pumping', [
  { path: 'pumping.supply', heading: 'Pumping supply' },
  {
    path: 'pumping.price',
    heading: 'Pumping price',
    meaning: 'Money of the site per unit of energy that drives the pumps',
  },
  { path: 'pumping.carbon', heading: 'Pumping carbon', meaning: 'Carbon dioxide per unit of that energy' },
  { path: 'pumping.efficiency', heading: 'Pumping efficiency' },
  ...SIDES.flatMap(([side, Side]) => [
    {
      path: `pumping.${side}Clean`,
      heading: `${Side} clean pressure drop`,
      meaning: 'Of the clean unit at the design flow',
    },
    {
      path: `pumping.${side}Head`,
      heading: `${Side} pump pressure`,
      meaning: 'Pressure its pump works against, where a valve takes up the rest',
    },
    {
      path: `pumping.${side}MaximumFlow`,
      heading: `${Side} largest flow`,
      meaning: 'Flow with the control valve fully open',
    },
  ]),
]);

const care = group('Cleaning', [
  { path: 'cleaning.isolation', heading: 'Isolation' },
  { path: 'cleaning.compatibility', heading: 'What materials stand' },
]);

/** What is assumed where nothing is stated: one row per unit that states any of it. */
export const DETAIL_COLUMNS: readonly SheetColumn[] = [
  TAG_COLUMN,
  ...build,
  ...oils,
  ...films,
  ...cleanTest,
  ...pressureDrop,
  ...sensors,
  ...checks,
  ...pumping,
  ...care,
];

/** Thresholds of the screening as the form asks for them: each says in one line what it does. */

const TEMPERATURE_CHECKS = ['minimumTemperature', 'maximumTemperature'] as const;
export const PERCENT_CHECKS = ['offFlowShare', 'turndownFlowShare', 'balanceTolerance'] as const;

export type TemperatureCheck = (typeof TEMPERATURE_CHECKS)[number];
type PercentCheck = (typeof PERCENT_CHECKS)[number];
type PlainCheck =
  | 'maximumFlowShare'
  | 'frozenHours'
  | 'spikeHalfWindow'
  | 'spikeThreshold'
  | 'terminalDifferenceMultiple'
  | 'balanceUncertaintyMultiple'
  | 'settlingMinutes'
  | 'steadyMultiple';
export type NumberCheck = PercentCheck | PlainCheck;

type Words = { label: string; hint: string; suffix?: string };
export type CheckField = Words &
  (
    | { by: 'temperature'; name: TemperatureCheck }
    | { by: 'percent'; name: PercentCheck }
    | { by: 'number'; name: PlainCheck }
  );

/** In the order of the contract. */
export const CHECK_FIELDS: readonly CheckField[] = [
  {
    by: 'temperature',
    name: 'minimumTemperature',
    label: 'Lowest temperature',
    hint: 'A thermometer below it is out of range',
  },
  {
    by: 'temperature',
    name: 'maximumTemperature',
    label: 'Highest temperature',
    hint: 'A thermometer above it is out of range',
  },
  {
    by: 'number',
    name: 'maximumFlowShare',
    label: 'Largest flow',
    suffix: 'times design',
    hint: 'A flow above it is out of range; more than 1',
  },
  {
    by: 'percent',
    name: 'offFlowShare',
    label: 'Off below',
    suffix: '% of design flow',
    hint: 'Both flows below it: the unit stands still',
  },
  {
    by: 'percent',
    name: 'turndownFlowShare',
    label: 'Turndown below',
    suffix: '% of design flow',
    hint: 'A flow below it is left out: the clean films are not known there',
  },
  {
    by: 'number',
    name: 'frozenHours',
    label: 'Frozen after',
    suffix: 'h',
    hint: 'A sensor that repeats one value so long while others move is frozen; 1 to 48',
  },
  {
    by: 'number',
    name: 'spikeHalfWindow',
    label: 'Spikes: neighbours on each side',
    hint: 'Readings before and after that a value is compared with; 2 to 24',
  },
  {
    by: 'number',
    name: 'spikeThreshold',
    label: 'Spikes: threshold',
    suffix: 'deviations',
    hint: 'A value farther from its neighbours than so many of their deviations is a spike; 2 to 50',
  },
  {
    by: 'number',
    name: 'terminalDifferenceMultiple',
    label: 'Closest approach',
    suffix: 'times its uncertainty',
    hint: 'A smaller temperature difference at either end is left out; 0 to 20',
  },
  {
    by: 'percent',
    name: 'balanceTolerance',
    label: 'Heat balance closes within',
    suffix: '% of the duty',
    hint: 'Or within the multiple of its uncertainty, whichever is wider',
  },
  {
    by: 'number',
    name: 'balanceUncertaintyMultiple',
    label: 'Heat balance closes within',
    suffix: 'times its uncertainty',
    hint: 'Or within the share of the duty, whichever is wider; 1 to 10',
  },
  {
    by: 'number',
    name: 'settlingMinutes',
    label: 'Settles within',
    suffix: 'min',
    hint: 'Time the unit takes after a change; 0: steadiness is not judged',
  },
  {
    by: 'number',
    name: 'steadyMultiple',
    label: 'Moving above',
    suffix: 'times the uncertainty',
    hint: 'A value that changes by more within the settling time is not steady; 1 to 20',
  },
];

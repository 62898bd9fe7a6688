import { arrangementChecks } from './arrangements';
import type { Check, Subject } from './check';
import { fluidChecks } from './fluids';
import { foulingAllowanceChecks } from './fouling-allowances';
import { foulingResistanceChecks } from './fouling-resistance';
import { growthChecks } from './growth';
import { meanDifferenceChecks } from './mean-difference';
import { nistChecks } from './nist';
import { optimumCleaningChecks } from './optimum-cleaning';
import { plateChannelChecks } from './plate-channel';
import { pressureChecks } from './pressure';
import { trendStatisticsChecks } from './trend-statistics';
import { unitChecks } from './units';
import { waterChecks } from './water';
import { workedExampleChecks } from './worked-examples';

const SUBJECTS: [title: string, make: () => Check[]][] = [
  ['Water and steam', waterChecks],
  ['Other fluids', fluidChecks],
  ['Arrangements: effectiveness and number of transfer units', arrangementChecks],
  ['Mean temperature difference and its correction', meanDifferenceChecks],
  ['Worked examples of textbooks', workedExampleChecks],
  ['Channels of plate exchangers', plateChannelChecks],
  ['Fouling resistance, cleanliness and uncertainty', foulingResistanceChecks],
  ['Pressure drop', pressureChecks],
  ['Growth of fouling and time to the limit', growthChecks],
  ['Best cleaning interval', optimumCleaningChecks],
  ['Fits: NIST reference data sets', nistChecks],
  ['Trend statistics', trendStatisticsChecks],
  ['Units of measure', unitChecks],
  ['Fouling allowances and overall coefficients: conversion and plausibility', foulingAllowanceChecks],
];

/** Every published check, subject by subject. */
export function allSubjects(): Subject[] {
  return SUBJECTS.map(([title, make]) => ({ title, checks: make() }));
}

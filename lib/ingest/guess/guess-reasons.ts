import { SENSOR_WORDS } from '@/lib/contract/sensor-words';
import type { ColumnSample, Spread } from './column-sample';
import { designInUnit } from './design-in-unit';
import { plainUnit } from './plain-unit';
import { type Candidate, featuresOf } from './rate-column';

type Column = { sample: ColumnSample; spread: Spread | null };

/** A doubt that no other evidence makes up for: how sure a guess can be at most, and why. */
export type Cap = { most: number; reason: string };

/** What is known by values only, or by a number that happens to agree, is never taken for sure. */
const BY_VALUES_ONLY = 0.75;
const BY_LOOP_NUMBER = 0.8;
const SOFT_WORDS = 0.85;
const UNIT_OPEN = 0.85;
const NO_NUMBERS = 0.85;
const FAR_FROM_DESIGN = 0.6;
const SINGLE_LETTER = 0.85;
/** A word at least this clear settles a feature. */
const CLEAR_WORD = 2;

/** What keeps a guess from being sure. */
export function columnCaps(candidate: Candidate, { spread }: Column): Cap[] {
  const { named, measured, side, end, values, sensor } = candidate;
  const caps: Cap[] = [];
  const add = (isSo: boolean, most: number, reason: string) => isSo && caps.push({ most, reason });
  const needsEnd = featuresOf(sensor).end !== null;
  const features = [side, ...(needsEnd ? [end] : [])];
  add(named.isWeak, BY_LOOP_NUMBER, 'the number may belong to something else');
  add(measured === null, BY_VALUES_ONLY, 'nothing but the values says what is measured');
  const open = features.filter((told) => told === null || told.weight <= 0);
  add(
    open.length > 0,
    BY_VALUES_ONLY,
    `nothing but the values says ${side === null || side.weight <= 0 ? 'on which side' : 'inlet or outlet'}`,
  );
  const soft = features.find((told) => told !== null && told.weight > 0 && told.weight < CLEAR_WORD);
  const letter = features.find((told) => told !== null && told.weight > 0 && told.by.length === 1);
  add(letter !== undefined, SINGLE_LETTER, `the letter ${letter?.by} alone could mean something else`);
  add(soft !== undefined && soft !== letter, SOFT_WORDS, `${soft?.by} could mean something else`);
  add(
    values.rival !== null && spread !== null,
    UNIT_OPEN,
    `no unit of measure is written; ${plainUnit(values.rival ?? '')} would fit as well`,
  );
  add(spread === null, NO_NUMBERS, 'no numbers were seen');
  add(values.fits === false, FAR_FROM_DESIGN, 'the values are far from the design');
  return caps;
}

/** What speaks for a guess, in words. */
export function reasonsOf(candidate: Candidate, column: Column): string[] {
  const { named, measured, side, end, sensor, values } = candidate;
  const words = [measured, side, end].flatMap((told) => (told === null || told.weight <= 0 ? [] : [told.by]));
  const meaning = words.length === 0 ? [] : [`${[...new Set(words)].join(', ')}: ${SENSOR_WORDS[sensor]}`];
  const range = rangeInWords(candidate, column.spread);
  const unit = values.isWritten || column.spread === null ? [] : [`${plainUnit(values.unit)} by its values`];
  return [named.how, ...meaning, ...range, ...unit];
}

function rangeInWords({ values, sensor, targets }: Candidate, spread: Spread | null): string[] {
  if (spread === null) return [];
  const unit = plainUnit(values.unit);
  const range = `between ${figure(spread.low)} and ${figure(spread.high)} ${unit}`;
  const design = designInUnit(values.unit, sensor, targets);
  return [design === null ? range : `${range}; the design says ${figure(design)} ${unit}`];
}

function figure(value: number): string {
  return String(Number(value.toPrecision(3)));
}

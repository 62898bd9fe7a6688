import { plainName } from '@/lib/contract/plain-name';
import { isSensorUnit, unitWithoutBrackets } from './sensor-unit';

/** Names of columns of times, in the languages whose months are read too (common practice). */
const TIME_NAMES = new Set(
  [
    'time timestamp datetime date/time date+time zeit uhrzeit zeitstempel zeitpunkt datum/zeit datum/uhrzeit',
    'heure horodatage date/heure hora fecha/hora data/hora ora data/ora',
    'epoch epochtime epochs epochms epochseconds epochmilliseconds unix unixtime unixtimestamp unixms',
    'timems timestampms timestamps posixtime',
  ].flatMap((line) => line.split(' ')),
);

const DATE_NAMES = new Set(['date', 'datum', 'fecha', 'data']);

/** What stands at the left of a row of names, units or descriptions, over the column of times (common practice). */
const CORNER_LABELS = new Set(
  ['', 'tag', 'tags', 'tag name', 'tag names', 'name', 'point', 'item', 'signal', 'channel', 'parameter']
    .concat(['description', 'descriptor', 'unit', 'units', 'eu', 'eng. units', 'engineering units', 'uom'])
    .map(plainName),
);

/** Units of what else a plant logs: they show that a row holds units, and are never read. */
const OTHER_UNITS = new Set(
  [
    '% - rpm 1/min hz a ma v kv w kw mw kwh mwh ph ppm ppb mm cm m m2 m3 l kg t s min h d mm/s µs/cm',
    'us/cm ms/cm on/off n/a nm3/h nm³/h sm3/h scfm barg bara psig psia kg/m3 cp cst db ntu mg/l',
  ].flatMap((line) => line.split(' ')),
);

export function isCornerLabel(cell: string): boolean {
  return CORNER_LABELS.has(plainName(cell));
}

export function isTimeName(name: string): boolean {
  return TIME_NAMES.has(plainName(name));
}

export function isDateName(name: string): boolean {
  return DATE_NAMES.has(plainName(name));
}

/** Whether a cell reads like a unit of measure, and whether it is one of what exchangers measure. */
export function unitLikeness(cell: string): 'sensor' | 'other' | 'none' {
  const unit = unitWithoutBrackets(cell);
  if (isSensorUnit(unit)) return 'sensor';
  return OTHER_UNITS.has(unit.toLowerCase().replace(/ /g, '')) ? 'other' : 'none';
}

/** Longer texts are no tags; the pattern below takes time that grows with the square of their length. */
const MAX_TAG_CHARACTERS = 100;

/**
 * `TI-1001.PV`, `10FI203`, `E-101.hot_in[Cel]`: letters and digits without a blank, as instruments are named. Several
 * digits, or one behind a sign, keep `m3/h` out without asking for every unit there is.
 */
export function isTagLike(cell: string): boolean {
  return cell.length <= MAX_TAG_CHARACTERS && /^(?=.*[A-Za-z])(?=.*(?:\d\d|[-_.]\w*\d))\S{3,}$/.test(cell);
}

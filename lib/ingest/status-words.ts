import { COMMA, POINT, readDecimal } from './read-decimal';

/**
 * What loggers and control systems write where there is no value (common practice): quality and communication states,
 * states of the plant, a spreadsheet's errors, a program's words for nothing. Compared without case, `_` and `-` as blanks.
 */
const STATUS_WORDS = new Set(
  [
    'bad, bad input, bad value, bad data, bad quality, bad pv, bad tag, bad total, set to bad, no data',
    'nodata, no value, no result, no reading, no good, no good data, not good, no sample, invalid',
    'invalid data, invalid value, invalid float, questionable, uncertain, unknown, undefined, error',
    'err, data error, read error, range error, system error, fault, faulted, fail, failed, failure',
    'sensor failure, sensor fail, sensor fault, device failure, device fail, equip fail, i/o timeout',
    'io timeout, i/o time out, timeout, time out, timed out, scan timeout, scan off, off scan, offscan',
    'on scan, comm fail, comm failure, comm error, comms fail, comms error, communication failure',
    'communication error, last known, stale, not updated, not connected, disconnected, offline',
    'off line, archive offline, source offline, intf shut, interface shut, access denied, no access',
    'not found, tag not found, not configured, configure, pt created, over range, overrange',
    'out of range, under range, underrange, open circuit, short circuit, out of service, out of serv',
    'oos, maintenance, under maintenance, calibration, in calibration, shutdown, shut down, off',
    'stopped, standby, not running, tripped, isolated, suspended, calc failed, calc fail, calc error',
    'calc off, calc overflow, calculation failed, not calculated, nan, inf, infinity, +inf, 1.#qnan',
    '1.#ind, 1.#inf, 1.#snan, qnan, ind, #n/a, #n/a!, #na, #value!, #ref!, #div/0!, #num!, #name?',
    '#null!, #error, #error!, null, nil, none, n/a, na, n.a., n.a, n/v, missing, blank, empty',
    'not available, not measured, void, dummy, nd, n.d., tbd',
  ].flatMap((line) => line.split(', ')),
);

/** Dashes, stars, question marks; a column of a sheet that was too narrow for its number. */
const STATUS_SIGNS = /^(?:[-–—]+|\*+|\?+|#{2,})$/;

/** Words are shorter than this; longer texts are not looked up. */
const MAX_WORD_CHARACTERS = 60;

/** Tells the cells that hold a status word from those that hold a value. */
export class StatusWords {
  readonly #own: ReadonlySet<string>;
  /** True where a word of the mapping is itself a number, such as -9999: every value must then be looked up. */
  readonly holdsNumbers: boolean;
  /** The words of the mapping that are numbers, where values are looked up. */
  readonly numbers: readonly string[];

  constructor(own: readonly string[]) {
    this.#own = new Set(own.map(plainWord));
    this.holdsNumbers = own.some((word) => isNumber(word.trim()));
    this.numbers = this.holdsNumbers ? [...this.#own].filter(isNumber) : [];
  }

  /** The word as it is counted; null where the cell holds none. */
  wordOf(cell: string): string | null {
    if (cell.length > MAX_WORD_CHARACTERS) return null;
    const word = plainWord(cell);
    return this.#own.has(word) || STATUS_SIGNS.test(word) || STATUS_WORDS.has(word) ? word : null;
  }
}

/** Signs alone and numbers stay as they are: `-` and `-9999` are not a blank and 9999. */
function plainWord(cell: string): string {
  const word = cell.trim().toLowerCase();
  if (STATUS_SIGNS.test(word) || isNumber(word)) return word;
  return word
    .replace(/[\s_-]+/g, ' ')
    .replace(/^[[(<{" ]+|[\])>}" ]+$/g, '')
    .trim();
}

function isNumber(word: string): boolean {
  return !Number.isNaN(readDecimal(word, POINT)) || !Number.isNaN(readDecimal(word, COMMA));
}

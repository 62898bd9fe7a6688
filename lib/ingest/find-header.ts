import { AppError } from '@/lib/contract/app-error';
import type { HeaderRole, HeaderRow } from '@/lib/contract/import-preview';
import type { Mapping } from '@/lib/contract/mapping';
import { plainName } from '@/lib/contract/plain-name';
import { isLongHeader, readColumnName, sensorNamed, tagAndSensor, tagField } from './column-name';
import { isCornerLabel, isTagLike, isTimeName, unitLikeness } from './header-words';
import { COMMA, POINT, readDecimal } from './read-decimal';
import { mappedSensor } from './reading-column';
import { isTimeText } from './time-text';

/** Rows at the beginning of a file among which its header is looked for. */
export const HEADER_SEARCHED_ROWS = 60;

/** A row at the beginning of a file; it ends on line `last`, which is another where a quote holds a line break. */
export type HeadRecord = { line: number; last: number; cells: string[] };

/** The names of the columns, their units where these stand in a row of their own, and what each row above is for. */
export type Header = {
  names: string[];
  units: string[] | null;
  /** Line of the names. */
  line: number;
  /** Last line of the header: the readings begin behind it. */
  last: number;
  /** What rows of descriptions say of each column, by field. */
  descriptions: string[];
  rows: HeaderRow[];
};

/**
 * Finds the header among the first rows of a file, none of which is blank. Plants write titles above it, and rows of
 * descriptions and units beside it.
 *
 * - The readings begin at the first row with a time in the column that has most of them.
 * - The names are those of the rows above that best look like names: known to the mapping or spelt `E-101.hot_in`, else
 *   instrument tags, else beside a word for time; among equals the first. Without any time in sight it is the first row.
 * - A row of units above the readings is one; so is a row of words without any number between names and readings.
 * - What holds a number or a time below the names is a reading, never part of the header: it is set aside, not passed over.
 *
 * A mapping's `headerLine` and `unitLine` stand above all of this.
 */
export function findHeader(records: HeadRecord[], mapping: Mapping | null): Header {
  const search = new HeaderSearch(records, mapping);
  const names = search.namesAt();
  const roles = search.rolesAround(names);
  const unitsAt = [...roles].find(([, role]) => role === 'units')?.[0] ?? -1;
  const last = Math.max(...roles.keys());
  return {
    names: search.namesOf(names),
    units: unitsAt < 0 ? null : records[unitsAt]!.cells,
    line: records[names]!.line,
    last: records[last]!.last,
    descriptions: descriptionsOf(
      [...roles].filter(([, role]) => role === 'description').map(([at]) => records[at]!.cells),
    ),
    rows: [...roles].sort(([a], [b]) => a - b).map(([at, role]) => ({ line: records[at]!.line, role })),
  };
}

/** Cells of the same field joined, in the order of the file. */
function descriptionsOf(rows: (readonly string[])[]): string[] {
  const width = Math.max(0, ...rows.map((cells) => cells.length));
  return Array.from({ length: width }, (_, field) =>
    rows
      .map((cells) => (cells[field] ?? '').trim())
      .filter((cell) => cell !== '')
      .join(' '),
  );
}

class HeaderSearch {
  readonly #records: HeadRecord[];
  readonly #mapping: Mapping | null;
  readonly #timeField: number;
  /** Number of the first record that is a reading; -1 where no time is in sight. */
  readonly #dataAt: number;

  constructor(records: HeadRecord[], mapping: Mapping | null) {
    this.#records = records;
    this.#mapping = mapping;
    this.#timeField = fieldOfTimes(records);
    this.#dataAt = this.#timeField < 0 ? -1 : this.#firstReading();
  }

  namesAt(): number {
    const wanted = this.#mapping?.headerLine;
    if (wanted !== undefined) return this.#recordOn(wanted, 'headerLine');
    let best = 0;
    let bestScore = Number.NEGATIVE_INFINITY;
    for (const at of this.#candidates()) {
      const score = this.#likeness(this.#records[at]!.cells);
      if (score > bestScore) [best, bestScore] = [at, score];
    }
    return best;
  }

  /** The names as columns are called: the one of times too where only a label, or another row, stands over it. */
  namesOf(at: number): string[] {
    const names = [...this.#records[at]!.cells];
    const field = this.#timeField;
    if (this.#dataAt <= at || names.some((name) => this.#namesTime(name))) return names;
    if (isCornerLabel(names[field] ?? '')) {
      while (names.length < field) names.push('');
      names[field] = 'time';
    }
    return names;
  }

  /** What each row up to the readings is for, by its number. */
  rolesAround(names: number): Map<number, HeaderRole> {
    const roles = new Map<number, HeaderRole>([[names, 'names']]);
    const wanted = this.#mapping?.unitLine;
    const unitsAt = wanted === undefined ? this.#unitsAround(names) : this.#recordOn(wanted, 'unitLine');
    if (unitsAt >= 0 && unitsAt !== names) roles.set(unitsAt, 'units');
    const width = this.#records[names]!.cells.length;
    for (let at = 0; at < names; at++) if (!roles.has(at)) roles.set(at, this.#roleAbove(at, width));
    for (let at = names + 1; roles.has(at) || this.#isDescription(at, names); at++) {
      if (!roles.has(at)) roles.set(at, 'description');
    }
    const last = Math.max(...roles.keys());
    for (let at = names; at < last; at++) if (!roles.has(at)) roles.set(at, 'description');
    return roles;
  }

  #candidates(): number[] {
    const numbers = this.#records.map((_, at) => at);
    if (this.#dataAt <= 0) {
      return numbers.filter((at) => at === 0 || this.#records[at]!.cells.some((cell) => isTimeName(cell)));
    }
    const above = numbers.slice(0, this.#dataAt).filter((at) => !isUnits(this.#records[at]!.cells));
    return above.filter((at) => at === 0 || filledOf(this.#records[at]!.cells).length > 1);
  }

  #likeness(cells: string[]): number {
    const filled = filledOf(cells);
    if (filled.length === 0) return 0;
    const share = (test: (cell: string) => boolean) => filled.filter(test).length / filled.length;
    const width = this.#dataAt < 0 ? filled.length : this.#records[this.#dataAt]!.cells.length;
    const repeats = filled.length - new Set(filled).size;
    return (
      4 * share((cell) => this.#isKnown(cell)) +
      (repeats === 0 ? 2 : 1) * share(isTagLike) +
      (filled.some((cell) => this.#namesTime(cell)) ? 1 : 0) +
      Math.min(1, filled.length / width)
    );
  }

  #isKnown(cell: string): boolean {
    const { name } = readColumnName(cell);
    if (tagAndSensor(name) !== null || sensorNamed(name) !== null) return true;
    const mapping = this.#mapping;
    return (
      mapping !== null && mappedSensor(cell, { mapping, knownTags: new Set(), timeZone: null }) !== undefined
    );
  }

  #namesTime(cell: string): boolean {
    const wanted = this.#mapping?.timeColumn;
    const { name } = readColumnName(cell);
    return wanted === undefined ? isTimeName(name) : plainName(name) === plainName(wanted);
  }

  /** The first row with a time; not one in a title, which is one with a row of names for times below it. */
  #firstReading(): number {
    const isReading = (record: HeadRecord) => isTimeText(record.cells[this.#timeField] ?? '');
    const first = this.#records.findIndex((record, at) => at > 0 && isReading(record));
    const named = this.#records.findIndex(({ cells }) => cells.some((cell) => this.#namesTime(cell)));
    if (first < 0 || named <= first) return first;
    const behind = this.#records.findIndex((record, at) => at > named && isReading(record));
    return behind < 0 ? first : behind;
  }

  #unitsAround(names: number): number {
    const { cells } = this.#records[names]!;
    for (let at = names + 1; this.#isDescription(at, names) || this.#isUnitsAt(at); at++) {
      if (this.#isUnitsAt(at)) return at;
    }
    // A header of units alone is none.
    const above = this.#records.findLastIndex((_, at) => at < names && this.#isUnitsAt(at));
    return cells.length > 1 ? above : -1;
  }

  #isUnitsAt(at: number): boolean {
    return at < this.#records.length && isUnits(this.#records[at]!.cells);
  }

  #isDescription(at: number, names: number): boolean {
    if (at >= this.#dataAt) return false;
    const known = this.#records[names]!.cells.map((cell) => plainName(readColumnName(cell).name));
    const isPlantWide =
      tagField(this.#records[names]!.cells) < 0 || isCornerLabel(known[this.#timeField] ?? '-');
    const isLong = isLongHeader(known);
    const { cells } = this.#records[at]!;
    // A time that cannot be read has digits in it, and then the row is a reading.
    const isLabelled = !/\d/.test(cells[this.#timeField] ?? '');
    return isPlantWide && !isLong && isLabelled && !cells.some(isNumberOrTime);
  }

  #roleAbove(at: number, width: number): HeaderRole {
    return filledOf(this.#records[at]!.cells).length > width / 2 ? 'description' : 'title';
  }

  #recordOn(line: number, field: string): number {
    const at = this.#records.findIndex((record) => record.line <= line && line <= record.last);
    if (at >= 0) return at;
    const message = `the mapping's ${field} is ${line}, but among the first rows none stands there; mend or drop it`;
    throw new AppError('invalid-input', `Line ${line}: ${message}`, [{ field, line, message }]);
  }
}

/** Most of what is in the row must be units, and one at least of what exchangers measure. */
const UNIT_SHARE = 0.6;
/** Cells that are compared: asking for a unit is slow, and a row of units is one from its beginning. */
const COMPARED_CELLS = 50;

function isUnits(cells: string[]): boolean {
  const [first = '', ...others] = cells;
  const isLabelled = /^(units?|uom|eu|eng\.? ?units|engineering units)\b/i.test(first);
  const filled = filledOf(isLabelled ? others : cells).slice(0, COMPARED_CELLS);
  const likeness = filled.map(unitLikeness);
  const share = likeness.filter((kind) => kind !== 'none').length / filled.length;
  return likeness.includes('sensor') && share >= UNIT_SHARE;
}

function filledOf(cells: string[]): string[] {
  return cells.filter((cell) => cell !== '');
}

function isNumberOrTime(cell: string): boolean {
  if (cell === '') return false;
  return (
    !Number.isNaN(readDecimal(cell, POINT)) || !Number.isNaN(readDecimal(cell, COMMA)) || isTimeText(cell)
  );
}

/** The column with most times; -1 where there is none. */
function fieldOfTimes(records: HeadRecord[]): number {
  const counts: number[] = [];
  for (const { cells } of records) {
    for (const [field, cell] of cells.entries()) {
      if (isTimeText(cell)) counts[field] = (counts[field] ?? 0) + 1;
    }
  }
  let best = -1;
  for (let field = 0; field < counts.length; field++) {
    if ((counts[field] ?? 0) > (counts[best] ?? 0)) best = field;
  }
  return best;
}

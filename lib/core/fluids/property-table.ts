import type { PropertiesInto, Property } from './fluid';

/** A property as cubics c₀ + c₁x + c₂x² + c₃x³, x from 0 to 1 in each of equal intervals of temperature. */
export type PropertyTable = {
  /** °C */
  minimum: number;
  /** °C */
  maximum: number;
  intervals: number;
  /** Four per interval, in the property's unit. */
  coefficients: Float64Array;
};

/** Relative error demanded at the check points of each interval [-]; between them it stays below 1e-7 (tested). */
const TABLE_TOLERANCE = 2e-8;

/** A value this much smaller than the greatest is judged against the greatest [-]: enthalpies pass through zero. */
const SMALL_SHARE = 1e-3;

const FEWEST_INTERVALS = 32;
const MOST_INTERVALS = 8192;

/** Where x(x − 1/3)(x − 2/3)(x − 1), the shape of the error, is greatest: (1 ± √5/3)/2; and its middle. */
const CHECK_POINTS = [(1 - Math.sqrt(5) / 3) / 2, 0.5, (1 + Math.sqrt(5) / 3) / 2];

/**
 * Tabulates a smooth property, doubling the grid until the cubics meet the property at check points.
 *
 * @param property to be tabulated [any unit], finite from minimum to maximum
 * @param minimum  [°C]
 * @param maximum  [°C]
 * @returns table with relative error at most `TABLE_TOLERANCE` at the check points
 * @range  RangeError if 8192 intervals do not suffice: the property is not smooth or not finite
 * @source cubic Lagrange interpolation at x = 0, 1/3, 2/3, 1: Abramowitz & Stegun 1964, eq. 25.2.13
 * @check  tests/core/fluids/property-table.test.ts
 */
export function makePropertyTable(property: Property, minimum: number, maximum: number): PropertyTable {
  for (let intervals = FEWEST_INTERVALS; intervals <= MOST_INTERVALS; intervals *= 2) {
    const table = {
      minimum,
      maximum,
      intervals,
      coefficients: fitCubics(property, { minimum, maximum, intervals }),
    };
    if (isAccurate(table, property)) return table;
  }
  throw new RangeError(
    `a property cannot be tabulated between ${minimum} and ${maximum} °C: it is not smooth`,
  );
}

type Grid = Omit<PropertyTable, 'coefficients'>;

/** Temperature at a fraction x of interval i; the last end is the maximum itself, which rounding must not pass. */
function temperatureAt({ minimum, maximum, intervals }: Grid, i: number, x: number): number {
  return Math.min(maximum, minimum + ((maximum - minimum) * (i + x)) / intervals);
}

function fitCubics(property: Property, grid: Grid): Float64Array {
  const coefficients = new Float64Array(4 * grid.intervals);
  let right = property(grid.minimum);
  for (let i = 0; i < grid.intervals; i++) {
    const a = right;
    const b = property(temperatureAt(grid, i, 1 / 3));
    const c = property(temperatureAt(grid, i, 2 / 3));
    right = property(temperatureAt(grid, i, 1));
    coefficients[4 * i] = a;
    coefficients[4 * i + 1] = (-11 * a + 18 * b - 9 * c + 2 * right) / 2;
    coefficients[4 * i + 2] = (9 * (2 * a - 5 * b + 4 * c - right)) / 2;
    coefficients[4 * i + 3] = (9 * (right - a + 3 * (b - c))) / 2;
  }
  return coefficients;
}

function isAccurate(table: PropertyTable, property: Property): boolean {
  const tabulated = tableProperty(table);
  let greatest = 0;
  for (let i = 0; i < table.intervals; i++)
    greatest = Math.max(greatest, Math.abs(table.coefficients[4 * i]!));
  for (let i = 0; i < table.intervals; i++) {
    for (const x of CHECK_POINTS) {
      const temperature = temperatureAt(table, i, x);
      const exact = property(temperature);
      const scale = Math.max(Math.abs(exact), SMALL_SHARE * greatest);
      if (!(Math.abs(tabulated(temperature) - exact) <= TABLE_TOLERANCE * scale)) return false;
    }
  }
  return true;
}

/**
 * The function of a table.
 *
 * @param table from `makePropertyTable`
 * @returns property [unit of the table], NaN outside the table's range
 * @range  that of the table
 * @source cubic Lagrange interpolation, see `makePropertyTable`
 * @check  tests/core/fluids/property-table.test.ts
 */
export function tableProperty({ minimum, maximum, intervals, coefficients: c }: PropertyTable): Property {
  const perDegree = intervals / (maximum - minimum);
  const last = intervals - 1;
  return (temperature) => {
    if (!(temperature >= minimum && temperature <= maximum)) return Number.NaN;
    const position = (temperature - minimum) * perDegree;
    const i = Math.min(Math.floor(position), last);
    const x = position - i;
    const k = 4 * i;
    return c[k]! + x * (c[k + 1]! + x * (c[k + 2]! + x * c[k + 3]!));
  };
}

/**
 * The exact integral of a table of specific heat.
 *
 * @param heat  specific heat [J/(kg·K)] over temperature
 * @param start enthalpy at the table's minimum [J/kg]
 * @returns enthalpy [J/kg], NaN outside the table's range; its derivative is the tabulated specific heat
 * @range  that of the table
 * @source term by term integration of the cubics
 * @check  tests/core/fluids/property-table.test.ts
 */
export function enthalpyOf(heat: PropertyTable, start: number): Property {
  const { minimum, maximum, intervals } = heat;
  const { step, starts, integral: c } = integrate(heat, start);
  const last = intervals - 1;
  return (temperature) => {
    if (!(temperature >= minimum && temperature <= maximum)) return Number.NaN;
    const position = (temperature - minimum) / step;
    const i = Math.min(Math.floor(position), last);
    const x = position - i;
    const k = 4 * i;
    return starts[i]! + step * x * (c[k]! + x * (c[k + 1]! + x * (c[k + 2]! + x * c[k + 3]!)));
  };
}

/** Width of an interval [K], enthalpy at the beginning of each, and the coefficients of the integral within it. */
function integrate(heat: PropertyTable, start: number) {
  const { minimum, maximum, intervals, coefficients } = heat;
  const step = (maximum - minimum) / intervals;
  const starts = new Float64Array(intervals + 1);
  // Divided once here, not at each evaluation.
  const c = coefficients.map((coefficient, k) => coefficient / ((k % 4) + 1));
  starts[0] = start;
  for (let i = 0; i < intervals; i++) {
    const k = 4 * i;
    starts[i + 1] = starts[i]! + step * (c[k]! + (c[k + 1]! + (c[k + 2]! + c[k + 3]!)));
  }
  return { step, starts, integral: c };
}

/**
 * Enthalpy and specific heat at once: the figures of `enthalpyOf` and of the heat's own `tableProperty`.
 *
 * @param heat  specific heat [J/(kg·K)] over temperature
 * @param start enthalpy at the table's minimum [J/kg]
 * @returns writes enthalpy [J/kg] and specific heat [J/(kg·K)], both NaN outside the table's range
 * @range  that of the table
 * @source see `enthalpyOf`
 * @check  tests/core/fluids/properties-into.test.ts
 */
export function heatTableInto(heat: PropertyTable, start: number): PropertiesInto {
  const { minimum, maximum, intervals, coefficients: c } = heat;
  const { step, starts, integral: b } = integrate(heat, start);
  const perDegree = intervals / (maximum - minimum);
  const last = intervals - 1;
  return (temperatures, at, out, to) => {
    const temperature = temperatures[at]!;
    if (!(temperature >= minimum && temperature <= maximum)) {
      out[to] = Number.NaN;
      out[to + 1] = Number.NaN;
      return;
    }
    const reach = (temperature - minimum) / step;
    const j = Math.min(Math.floor(reach), last);
    const y = reach - j;
    const m = 4 * j;
    out[to] = starts[j]! + step * y * (b[m]! + y * (b[m + 1]! + y * (b[m + 2]! + y * b[m + 3]!)));
    const position = (temperature - minimum) * perDegree;
    const i = Math.min(Math.floor(position), last);
    const x = position - i;
    const k = 4 * i;
    out[to + 1] = c[k]! + x * (c[k + 1]! + x * (c[k + 2]! + x * c[k + 3]!));
  };
}

/**
 * Three properties at once: the figures of `tableProperty` of each.
 *
 * @param tables three tables over the same range of temperature [any units]
 * @returns writes the three, NaN outside the range
 * @range  that of the tables
 * @source see `tableProperty`
 * @check  tests/core/fluids/properties-into.test.ts
 */
export function threeTablesInto(
  tables: readonly [PropertyTable, PropertyTable, PropertyTable],
): PropertiesInto {
  const [first, second, third] = tables;
  const { minimum, maximum } = first;
  const [c1, c2, c3] = [first.coefficients, second.coefficients, third.coefficients];
  const [n1, n2, n3] = [first.intervals, second.intervals, third.intervals];
  const span = maximum - minimum;
  const [per1, per2, per3] = [n1 / span, n2 / span, n3 / span];
  return (temperatures, at, out, to) => {
    const temperature = temperatures[at]!;
    if (!(temperature >= minimum && temperature <= maximum)) {
      out.fill(Number.NaN, to, to + 3);
      return;
    }
    const above = temperature - minimum;
    out[to] = cubicAt(c1, above * per1, n1 - 1);
    out[to + 1] = cubicAt(c2, above * per2, n2 - 1);
    out[to + 2] = cubicAt(c3, above * per3, n3 - 1);
  };
}

/** The cubic of the interval that a position lies in. */
function cubicAt(c: Float64Array, position: number, last: number): number {
  const i = Math.min(Math.floor(position), last);
  const x = position - i;
  const k = 4 * i;
  return c[k]! + x * (c[k + 1]! + x * (c[k + 2]! + x * c[k + 3]!));
}

import { MOST_COEFFICIENTS, POLYNOMIAL_PROPERTIES } from './other-columns';
import type { JsonObject } from './paths';

/** Rows of the sheets "Fluids" and "Polynomials", each value under the last key of its column. */
export type FluidRows = { table: JsonObject[]; polynomials: JsonObject[] };

const CHANGE = ['latentHeat', 'saturationTemperature'] as const;

/** The rows that state the properties of a custom fluid. */
export function rowsOfProperties(properties: JsonObject): FluidRows {
  const change = Object.fromEntries(
    CHANGE.flatMap((key) => (properties[key] === undefined ? [] : [[key, properties[key]]])),
  );
  const { polynomial, table } = properties;
  if (polynomial !== undefined) {
    const rows = polynomialRows(polynomial as JsonObject);
    return { table: [], polynomials: rows.map((row, i) => (i === 0 ? { ...row, ...change } : row)) };
  }
  const rows = (table as JsonObject[] | undefined) ?? [constantsOf(properties)];
  return { table: rows.map((row, i) => (i === 0 ? { ...row, ...change } : row)), polynomials: [] };
}

function constantsOf(properties: JsonObject): JsonObject {
  const stated = POLYNOMIAL_PROPERTIES.filter((key) => properties[key] !== undefined);
  return Object.fromEntries(stated.map((key) => [key, properties[key]!]));
}

function polynomialRows({ from, to, ...properties }: JsonObject): JsonObject[] {
  return POLYNOMIAL_PROPERTIES.filter((property) => properties[property] !== undefined).map((property) => {
    const { coefficients, unit } = properties[property] as { coefficients: number[]; unit: string };
    return {
      property,
      from: from!,
      to: to!,
      unit,
      coefficients: Object.fromEntries(coefficients.entries()) as JsonObject,
    };
  });
}

export type FluidFault = { row: JsonObject; key: string; message: string };

/** What the rows of one fluid state, and what in them contradicts itself. `rows[i]` of the table is row i of the document. */
export function propertiesOfRows({ table, polynomials }: FluidRows): {
  properties: JsonObject;
  faults: FluidFault[];
} {
  const all = [...table, ...polynomials];
  const faults: FluidFault[] = [];
  const change: JsonObject = {};
  for (const key of CHANGE) {
    for (const row of all.filter((candidate) => candidate[key] !== undefined)) {
      change[key] ??= row[key]!;
      if (JSON.stringify(change[key]) === JSON.stringify(row[key])) continue;
      faults.push({ row, key, message: 'differs from another row of the same fluid; state it in one row' });
    }
  }
  if (polynomials.length > 0) {
    const first = table[0];
    if (first !== undefined) {
      const message = 'this fluid stands on the sheet "Polynomials" too; keep one of the two';
      faults.push({ row: first, key: 'temperature', message });
    }
    return { properties: { polynomial: polynomialOf(polynomials, faults), ...change }, faults };
  }
  const rows = table.map(({ latentHeat: _heat, saturationTemperature: _at, ...row }) => row);
  const isConstant = rows.length === 1 && rows[0]!.temperature === undefined;
  if (rows.length === 1 && !isConstant) {
    const message =
      'is the only one: state at least two temperatures, or none for properties that stay the same';
    faults.push({ row: table[0]!, key: 'temperature', message });
  }
  return { properties: isConstant ? { ...rows[0]!, ...change } : { table: rows, ...change }, faults };
}

function polynomialOf(rows: JsonObject[], faults: FluidFault[]): JsonObject {
  const [first] = rows as [JsonObject, ...JsonObject[]];
  const polynomial: JsonObject = {};
  for (const key of ['from', 'to']) if (first[key] !== undefined) polynomial[key] = first[key];
  for (const row of rows) {
    for (const key of ['from', 'to']) {
      if (JSON.stringify(row[key]) !== JSON.stringify(first[key]))
        faults.push({ row, key, message: 'must be the same in all rows of a fluid' });
    }
    const property = row.property as string | undefined;
    if (property === undefined) faults.push({ row, key: 'property', message: 'is missing' });
    else if (polynomial[property] !== undefined)
      faults.push({ row, key: 'property', message: 'stands twice for this fluid; keep one of the rows' });
    else
      polynomial[property] = {
        ...(row.unit === undefined ? {} : { unit: row.unit }),
        ...coefficientsOf(row, faults),
      };
  }
  return polynomial;
}

function coefficientsOf(row: JsonObject, faults: FluidFault[]): JsonObject {
  const stated = (row.coefficients ?? {}) as JsonObject;
  const powers = Array.from({ length: MOST_COEFFICIENTS }, (_, power) => power);
  const last = powers.findLast((power) => stated[power] !== undefined);
  if (last === undefined) {
    faults.push({ row, key: 'coefficients.0', message: 'is missing: state at least the constant' });
    return {};
  }
  for (const power of powers.slice(0, last)) {
    if (stated[power] === undefined)
      faults.push({
        row,
        key: `coefficients.${power}`,
        message: 'is missing; write 0 for a power that does not occur',
      });
  }
  return { coefficients: powers.slice(0, last + 1).map((power) => stated[power] ?? 0) };
}

import type { LastingParts } from '@/lib/core/pipeline/standing';
import type { UnitTrend } from '@/lib/core/pipeline/unit-trend';

/**
 * A trend as JSON. JSON has no typed arrays: columns travel as plain ones. What the next analysis asks for is a small part of
 * the whole, and stands on a first line of its own.
 */
export function trendText(trend: UnitTrend): string {
  const { cycles, searches, cleaningResults, record, lending, flowDependence, ...rest } = trend;
  const lasting: LastingParts = { cycles, searches, cleaningResults, record, lending, flowDependence };
  return `${textOf(lasting).slice(0, -1)},\n${textOf(rest).slice(1)}`;
}

/** A trend out of JSON, the columns of its bands typed again. */
export function trendFromText(text: string): UnitTrend {
  const trend = JSON.parse(text) as UnitTrend;
  typeBands(trend);
  return trend;
}

/** Only what the next analysis asks for; there are no columns in it. */
export function lastingFromText(text: string): LastingParts {
  const [firstLine] = text.split('\n', 1);
  return JSON.parse(`${firstLine!.slice(0, -1)}}`) as LastingParts;
}

function textOf(part: object): string {
  return JSON.stringify(withPlainArrays(part));
}

// Neither a replacer nor a reviver: each is called for every one of a trend's thousands of numbers.
/** The same value, or where it holds typed arrays a copy with plain ones. */
function withPlainArrays(value: unknown): unknown {
  if (value === null || typeof value !== 'object') return value;
  if (value instanceof Float64Array) return Array.from(value);
  if (Array.isArray(value)) {
    if (typeof value[0] !== 'object') return value;
    const plain = value.map(withPlainArrays);
    return plain.some((each, i) => each !== value[i]) ? plain : value;
  }
  const parts = value as Record<string, unknown>;
  let copy = parts;
  for (const name in parts) {
    const plain = withPlainArrays(parts[name]);
    if (plain === parts[name]) continue;
    if (copy === parts) copy = { ...parts };
    copy[name] = plain;
  }
  return copy;
}

function typeBands(value: unknown): void {
  if (value === null || typeof value !== 'object') return;
  if (Array.isArray(value)) {
    if (typeof value[0] === 'object') value.forEach(typeBands);
    return;
  }
  const parts = value as Record<string, unknown>;
  for (const [name, part] of Object.entries(parts)) {
    if (name === 'band' && part !== null && typeof part === 'object') parts[name] = typed(part);
    else typeBands(part);
  }
}

function typed(band: object): Record<string, Float64Array> {
  return Object.fromEntries(
    Object.entries(band as Record<string, number[]>).map(([name, column]) => [
      name,
      Float64Array.from(column),
    ]),
  );
}

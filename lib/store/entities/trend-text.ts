import type { UnitTrend } from '@/lib/core/pipeline/unit-trend';

/** A trend as JSON. JSON has no typed arrays: columns travel as plain ones. */
export function trendText(trend: UnitTrend): string {
  return JSON.stringify(withPlainArrays(trend));
}

/** A trend out of JSON, the columns of its bands typed again. */
export function trendFromText(text: string): UnitTrend {
  const trend = JSON.parse(text) as UnitTrend;
  typeBands(trend);
  return trend;
}

// Neither a replacer nor a reviver: each is called for every one of a trend's thousands of numbers.
function withPlainArrays(value: unknown): unknown {
  if (value === null || typeof value !== 'object') return value;
  if (value instanceof Float64Array) return Array.from(value);
  if (Array.isArray(value)) return typeof value[0] === 'number' ? value : value.map(withPlainArrays);
  return Object.fromEntries(Object.entries(value).map(([name, part]) => [name, withPlainArrays(part)]));
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

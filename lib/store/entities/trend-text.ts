import type { LastingParts } from '@/lib/core/pipeline/standing';
import type { UnitTrend } from '@/lib/core/pipeline/unit-trend';

/** Fewer numbers in a row are written out [-]. */
const FEWEST_PACKED = 16;

/**
 * A trend as JSON. Its columns travel as the bytes of their floats: to write thousands of numbers out in decimals takes longer
 * than to work out a good part of them, and JSON has no typed arrays. What the next analysis asks for is a small part of the
 * whole, and stands on a first line of its own.
 */
export function trendText(trend: UnitTrend): string {
  const { cycles, searches, cleaningResults, record, lending, flowDependence, ...rest } = trend;
  const lasting: LastingParts = { cycles, searches, cleaningResults, record, lending, flowDependence };
  return `${textOf(lasting).slice(0, -1)},\n${textOf(rest).slice(1)}`;
}

/** A trend out of JSON. */
export function trendFromText(text: string): UnitTrend {
  return unpacked(JSON.parse(text)) as UnitTrend;
}

/** Only what the next analysis asks for. */
export function lastingFromText(text: string): LastingParts {
  const [firstLine] = text.split('\n', 1);
  return unpacked(JSON.parse(`${firstLine!.slice(0, -1)}}`)) as LastingParts;
}

function textOf(part: object): string {
  return JSON.stringify(packed(part));
}

// Neither a replacer nor a reviver: each is called for every one of a trend's numbers.
/**
 * The same value, or where it holds columns a copy with the base64 of their bytes in their place, under a name that says what they
 * were: `floats` a typed array, `numbers` a plain one.
 */
function packed(value: unknown): unknown {
  if (value === null || typeof value !== 'object') return value;
  if (value instanceof Float64Array) return { floats: bytesOf(value) };
  if (Array.isArray(value)) return packedArray(value);
  const parts = value as Record<string, unknown>;
  let copy = parts;
  for (const name in parts) {
    const part = packed(parts[name]);
    if (part === parts[name]) continue;
    if (copy === parts) copy = { ...parts };
    copy[name] = part;
  }
  return copy;
}

function packedArray(values: readonly unknown[]): unknown {
  if (typeof values[0] !== 'object')
    return isColumn(values) ? { numbers: bytesOf(Float64Array.from(values)) } : values;
  const parts = values.map(packed);
  return parts.some((part, i) => part !== values[i]) ? parts : values;
}

function isColumn(values: readonly unknown[]): values is readonly number[] {
  return values.length >= FEWEST_PACKED && values.every((value) => typeof value === 'number');
}

function bytesOf({ buffer, byteOffset, byteLength }: Float64Array): string {
  return Buffer.from(buffer, byteOffset, byteLength).toString('base64');
}

function floatsOf(text: string): Float64Array<ArrayBuffer> {
  // A copy: a buffer's bytes may begin anywhere, floats must not.
  return new Float64Array(Uint8Array.from(Buffer.from(text, 'base64')).buffer);
}

/** The value itself, its packed columns replaced. */
function unpacked(value: unknown): unknown {
  if (value === null || typeof value !== 'object') return value;
  if (Array.isArray(value)) {
    if (typeof value[0] === 'object') for (const [i, part] of value.entries()) value[i] = unpacked(part);
    return value;
  }
  const parts = value as Record<string, unknown>;
  if (typeof parts.floats === 'string') return floatsOf(parts.floats);
  if (typeof parts.numbers === 'string') return Array.from(floatsOf(parts.numbers));
  for (const name in parts) parts[name] = unpacked(parts[name]);
  return parts;
}

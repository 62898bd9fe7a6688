import { formatDay, formatInstant } from '../format/time';
import { ucumInWords } from '../format/ucum-words';

const MISSING = '–';
/** Numbers smaller than this are read as a power of ten [-]. */
const SMALL = 0.001;
const DIGITS = 6;

/** A value and the unit behind it: two of one unit share it. */
export type ValueInWords = { text: string; unit: string };

/** A value of a record as a person reads it: quantities in the unit they were stated in, times on the clock of the site. */
export function valueInWords(value: unknown, timeZone: string): ValueInWords {
  if (value !== null && typeof value === 'object') return objectInWords(value, timeZone);
  return { text: plainInWords(value, timeZone), unit: '' };
}

function objectInWords(value: object, timeZone: string): ValueInWords {
  if (Array.isArray(value)) {
    const each = value.map((part) => withUnit(valueInWords(part, timeZone)));
    return { text: each.length === 0 ? 'none' : each.join(', '), unit: '' };
  }
  const { unit, per, value: size, amount, kg } = value as Record<string, unknown>;
  if (typeof unit === 'string') return { text: plainInWords(size, timeZone), unit: ucumInWords(unit) };
  if (typeof per === 'string') {
    const perUnit = `per ${ucumInWords(per)}`;
    return kg === undefined
      ? { text: plainInWords(amount, timeZone), unit: perUnit }
      : { text: plainInWords(kg, timeZone), unit: `kg CO₂e ${perUnit}` };
  }
  const parts = Object.entries(value).map(
    ([name, part]) => `${name} ${withUnit(valueInWords(part, timeZone))}`,
  );
  return { text: parts.length === 0 ? 'none' : parts.join(', '), unit: '' };
}

function plainInWords(value: unknown, timeZone: string): string {
  if (value === null || value === undefined || value === '') return MISSING;
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  if (typeof value === 'number') return numberInWords(value);
  const text = String(value);
  if (/^\d{4}-\d{2}-\d{2}$/.test(text)) return formatDay(text);
  const instant = /^\d{4}-\d{2}-\d{2}T[\d:.]+(Z|[+-]\d{2}:\d{2})$/.test(text) ? Date.parse(text) : Number.NaN;
  return Number.isNaN(instant) ? text : formatInstant(instant, timeZone);
}

function numberInWords(value: number): string {
  const short = Number(value.toPrecision(DIGITS));
  if (short === 0 || Math.abs(short) >= SMALL) return String(short).replace('-', '−');
  const [digits, power] = short.toExponential().split('e');
  const raised = [...power!.replace('-', '')].map((digit) => '⁰¹²³⁴⁵⁶⁷⁸⁹'[Number(digit)]).join('');
  return `${digits!.replace('-', '−')}·10⁻${raised}`;
}

export function withUnit({ text, unit }: ValueInWords): string {
  return unit === '' || text === MISSING ? text : `${text} ${unit}`;
}

/** "2·10⁻⁴ → 1.5·10⁻⁴ m²·K/W": the unit once where both have the same. */
export function stepInWords(before: unknown, after: unknown, timeZone: string): string {
  const [old, now] = [valueInWords(before, timeZone), valueInWords(after, timeZone)];
  if (old.unit === now.unit && old.text !== MISSING)
    return withUnit({ ...now, text: `${old.text} → ${now.text}` });
  return `${withUnit(old)} → ${withUnit(now)}`;
}

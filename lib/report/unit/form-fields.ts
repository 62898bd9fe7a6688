import type { Fault } from '@/lib/contract/app-error';
import { localInstant } from '@/lib/time/local-instant';

/** What a field of a form holds, or what is wrong with it. */
export type FieldValue<Value> = { value: Value; fault: null } | { value: null; fault: Fault };

/** Reads a local time of a site [ms]; nothing is guessed. */
export function readLocalTime(
  text: string | undefined,
  { field, timeZone }: { field: string; timeZone: string },
): FieldValue<number> {
  const instant = localInstant(text ?? '', timeZone);
  if (typeof instant === 'number') return { value: instant, fault: null };
  const message =
    instant === 'no-time'
      ? 'give day and time, such as 2026-05-04 08:00'
      : `this local time occurs twice or never in ${timeZone} (the clocks change); give one an hour away`;
  return { value: null, fault: { field, message } };
}

/** Reads an amount of money; an empty field is no amount. */
export function readCost(text: string | undefined, field: string): FieldValue<number | null> {
  const written = (text ?? '').trim().replace(',', '.');
  if (written === '') return { value: null, fault: null };
  const cost = Number(written);
  if (Number.isFinite(cost) && cost >= 0) return { value: cost, fault: null };
  return { value: null, fault: { field, message: 'write the cost as a plain number, such as 4000' } };
}

/** A field's text without space around it; null where nothing is left. */
export function textOrNull(text: string | undefined): string | null {
  const trimmed = (text ?? '').trim();
  return trimmed === '' ? null : trimmed;
}

/** The faults of some fields, in their order. */
export function faultsIn(...fields: { fault: Fault | null }[]): Fault[] {
  return fields.flatMap(({ fault }) => fault ?? []);
}

/** In which state a form showed what it changes; undefined where it does not say. */
export function revisionOf({ revision }: Record<string, string>): number | undefined {
  return revision === undefined || revision === '' ? undefined : Number(revision);
}

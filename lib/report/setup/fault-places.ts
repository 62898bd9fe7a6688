import type { Fault } from '@/lib/contract/app-error';
import { messageInWords } from './field-words';

/**
 * What a form read itself and what the server said, as one list: where both speak of a field, the form's own words stand,
 * as the server can only say that something is missing.
 */
export function mergeFaults(own: Fault[], servers: Fault[]): Fault[] {
  const others = servers.filter(
    ({ field }) => !own.some((fault) => isWithin(field, fault.field) || isWithin(fault.field, field)),
  );
  return [...own, ...others.map((fault) => ({ ...fault, message: messageInWords(fault.message) }))];
}

/** The first fault at or below a field. */
export function faultAt(faults: Fault[], field: string): string | null {
  return faults.find((fault) => isWithin(fault.field, field))?.message ?? null;
}

/** What is said of a part as a whole, not of one of its fields. */
export function faultExactlyAt(faults: Fault[], field: string): string | null {
  return faults.find((fault) => fault.field === field)?.message ?? null;
}

/** Whether a field is another or lies below it: `unit.design.hotIn.unit` lies within `unit.design.hotIn`. */
function isWithin(field: string, whole: string): boolean {
  if (!field.startsWith(whole)) return false;
  const next = field.charAt(whole.length);
  return next === '' || next === '.' || next === '[';
}

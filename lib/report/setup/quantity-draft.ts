import type { Quantity } from '@/lib/contract/quantity';
import type { UnitSystem } from '@/lib/report/format/unit-system';
import { type FormKind, firstUnit } from './unit-choices';

/** A quantity as a form holds it: the number as typed, '' for not stated, and the unit of measure as chosen. */
export type QuantityDraft = { value: string; unit: string };

/** A quantity nobody has stated yet, in the unit a form begins with. */
export type Blank = (kind: FormKind) => QuantityDraft;

export function blankIn(system: UnitSystem): Blank {
  return (kind) => ({ value: '', unit: firstUnit(kind, system) });
}

export function quantityText(given: Quantity | undefined, blank: QuantityDraft): QuantityDraft {
  return given === undefined ? blank : { value: String(given.value), unit: given.unit };
}

export function numberText(value: number | undefined): string {
  return value === undefined ? '' : String(value);
}

/** Digits that survive the way to percent and back. */
const PERCENT_DIGITS = 12;

export function percentText(share: number | undefined): string {
  return share === undefined ? '' : String(Number((share * 100).toPrecision(PERCENT_DIGITS)));
}

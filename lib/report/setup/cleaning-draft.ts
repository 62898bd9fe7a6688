import type { Unit } from '@/lib/contract/fleet-file';
import { type DraftReader, orNothing } from './draft-reader';
import { type Blank, numberText, type QuantityDraft, quantityText } from './quantity-draft';

type Cleaning = NonNullable<Unit['cleaning']>;

export type CleaningDraft = {
  cost: string;
  duration: QuantityDraft;
  crewHours: string;
  method: string;
  /** Whether the unit can be taken out while its plant runs. */
  when: '' | 'any' | 'outage';
  downtimePerHour: string;
  isolation: string;
  compatibility: string;
};

export function cleaningDraft(stated: Cleaning, blank: Blank): CleaningDraft {
  const { inOutageOnly } = stated;
  return {
    cost: numberText(stated.cost),
    duration: quantityText(stated.duration, blank('duration')),
    crewHours: numberText(stated.crewHours),
    method: stated.method ?? '',
    when: inOutageOnly === undefined ? '' : inOutageOnly ? 'outage' : 'any',
    downtimePerHour: numberText(stated.downtimePerHour),
    isolation: stated.isolation ?? '',
    compatibility: stated.compatibility ?? '',
  };
}

export function cleaningDocument(read: DraftReader, typed: CleaningDraft) {
  return orNothing({
    cost: read.number('unit.cleaning.cost', typed.cost),
    duration: read.positive('unit.cleaning.duration', typed.duration),
    crewHours: read.number('unit.cleaning.crewHours', typed.crewHours),
    method: read.text('unit.cleaning.method', typed.method),
    inOutageOnly: typed.when === '' ? undefined : typed.when === 'outage',
    downtimePerHour: read.number('unit.cleaning.downtimePerHour', typed.downtimePerHour),
    isolation: asWritten(typed.isolation),
    compatibility: asWritten(typed.compatibility),
  });
}

/** A note keeps its lines and blanks; one of blanks alone is none. */
function asWritten(note: string): string | undefined {
  return note.trim() === '' ? undefined : note;
}

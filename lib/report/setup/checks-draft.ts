import type { Unit } from '@/lib/contract/fleet-file';
import { inSi } from '@/lib/contract/in-si';
import { conversionToSi } from '@/lib/contract/ucum';
import { type CheckSettings, DEFAULT_CHECK_SETTINGS } from '@/lib/core/checks/check-settings';
import { CHECK_FIELDS, type NumberCheck, PERCENT_CHECKS, type TemperatureCheck } from './check-fields';
import { type DraftReader, orNothing } from './draft-reader';
import { type Blank, numberText, percentText, type QuantityDraft, quantityText } from './quantity-draft';

type Checks = NonNullable<Unit['checks']>;

/** Thresholds of the screening as typed: shares in percent. */
export type ChecksDraft = Record<TemperatureCheck, QuantityDraft> & Record<NumberCheck, string>;

export function emptyChecks(blank: Blank): ChecksDraft {
  return checksDraft({}, blank);
}

export function checksDraft(stated: Checks, blank: Blank): ChecksDraft {
  const fields = CHECK_FIELDS.map((field) => {
    if (field.by === 'temperature')
      return [field.name, quantityText(stated[field.name], blank('temperature'))];
    const text = field.by === 'percent' ? percentText : numberText;
    return [field.name, text(stated[field.name])];
  });
  return Object.fromEntries(fields) as ChecksDraft;
}

export function checksDocument(read: DraftReader, typed: ChecksDraft) {
  const fields = CHECK_FIELDS.map((field) => {
    const path = `unit.checks.${field.name}`;
    if (field.by === 'temperature') return [field.name, read.quantity(path, typed[field.name])];
    if (field.by === 'percent') return [field.name, read.percent(path, typed[field.name])];
    return [field.name, read.number(path, typed[field.name])];
  });
  const stated = Object.fromEntries(fields) as Record<string, unknown> & Pick<Checks, TemperatureCheck>;
  // A range that holds no temperature would leave every reading out.
  if (degrees(stated, 'minimumTemperature') >= degrees(stated, 'maximumTemperature'))
    read.fault('unit.checks.maximumTemperature', 'must be above the lowest temperature that counts');
  return orNothing(stated);
}

/** A bound as stated, else as assumed [°C]. */
function degrees(stated: Pick<Checks, TemperatureCheck>, name: TemperatureCheck): number {
  const given = stated[name];
  return given === undefined ? DEFAULT_CHECK_SETTINGS[name] : inSi(given, 'temperature');
}

/** What is assumed where a threshold is left out, in the unit of measure chosen for it. */
export function checkAssumed(name: keyof CheckSettings, typed: ChecksDraft): string {
  const assumed = DEFAULT_CHECK_SETTINGS[name];
  if (name === 'minimumTemperature' || name === 'maximumTemperature') {
    const conversion = conversionToSi(typed[name].unit, 'temperature');
    if (conversion === null) return '';
    return assumedText(Math.round((assumed - conversion.offset) / conversion.factor));
  }
  return assumedText((PERCENT_CHECKS as readonly string[]).includes(name) ? percentText(assumed) : assumed);
}

function assumedText(value: number | string): string {
  return `${String(value).replace('-', '−')} assumed`;
}
